"""How well the values are known, as it is shown."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from sourloam.base.source import Basis, Source
from sourloam.science.materials.composition import Group, Method


class Shared(Protocol):
    """How many groups of values were obtained by which method."""

    @property
    def materials(self) -> int:
        """Return how many materials they are of."""

    @property
    def groups(self) -> int:
        """Return how many groups there are."""

    def frac(self, method: Method) -> float:
        """Return the share of one method."""


class Known(Protocol):
    """A value with its ground."""

    @property
    def table(self) -> str:
        """Return where it stands."""

    @property
    def name(self) -> str:
        """Return what it is called."""

    @property
    def value(self) -> str:
        """Return it as text."""

    @property
    def basis(self) -> Basis:
        """Return how it came to be known."""

    @property
    def source(self) -> str:
        """Return the key of its source."""

    @property
    def place(self) -> str:
        """Return where in the source."""


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


def materials_audit_view(
    every: Shared, common: Shared, by_group: Sequence[tuple[Group, Shared]], commonest: Sequence[str]
) -> MaterialsAuditView:
    """Return the shares by method: of all, of the commonest scraps, and of each group."""
    return MaterialsAuditView(
        materials=every.materials,
        all=_shares("all materials", every),
        commonest=_shares(f"the {common.materials} commonest scraps", common),
        by_group=tuple(_shares(group.words, shares) for group, shares in by_group),
        commonest_ids=tuple(commonest),
    )


def _shares(what: str, shares: Shared) -> MethodShares:
    measured, relative, rule = (100.0 * shares.frac(each) for each in (Method.MEASURED, Method.RELATIVE, Method.RULE))
    return MethodShares(what, shares.groups, measured, relative, rule)


def audit_view(rows: Sequence[Known], counts: Sequence[tuple[Basis, int]], sources: Mapping[str, Source]) -> AuditView:
    """Return every value with its ground in words."""
    return AuditView(
        counts=tuple((basis.value, basis.words, count) for basis, count in counts),
        rows=tuple(
            AuditRow(
                table=each.table,
                name=each.name,
                value=each.value,
                basis=each.basis.value,
                words=each.basis.words,
                source=each.source,
                text=sources[each.source].text if each.source in sources else "",
                place=each.place,
            )
            for each in rows
        ),
    )
