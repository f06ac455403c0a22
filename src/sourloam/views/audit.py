"""How well the values are known, as it is shown."""

from dataclasses import dataclass


@dataclass(frozen=True)
class MethodShares:
    """Shares of value groups by method, in per cent."""

    what: str
    groups: int
    measured_pct: float
    relative_pct: float
    rule_pct: float


@dataclass(frozen=True)
class MaterialsAuditView:
    """How the values of the materials were obtained."""

    materials: int
    all: MethodShares
    commonest: MethodShares
    by_group: tuple[MethodShares, ...]
    commonest_ids: tuple[str, ...]


@dataclass(frozen=True)
class AuditRow:
    """One value."""

    table: str
    name: str
    value: str
    basis: str  # the key: READ, DERIVED ...
    words: str  # the basis as a reader says it
    source: str
    text: str
    place: str


@dataclass(frozen=True)
class AuditView:
    """Every value, and how many there are of each basis."""

    counts: tuple[tuple[str, str, int], ...]  # basis, its words, how many
    rows: tuple[AuditRow, ...]
