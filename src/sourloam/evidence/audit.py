"""Every value of the tool with how it came to be known, so that what is weak can be seen."""

import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from importlib.resources import files

from sourloam.base.source import Basis
from sourloam.evidence.climates import load_climates
from sourloam.evidence.materials import Materials
from sourloam.evidence.tables import rows_of
from sourloam.science.materials.composition import Group, Method

TABLES = ("crops", "cautions", "sanitation_rules")


@dataclass(frozen=True)
class Audited:
    """A value, or a group of values that share their ground."""

    table: str
    name: str
    value: str
    basis: Basis
    source: str
    place: str


@dataclass(frozen=True)
class Shares:
    """How many groups of values of some materials were measured, are from a relative, or by rule."""

    materials: int
    groups: int
    by_method: tuple[tuple[Method, int], ...]

    def frac(self, method: Method) -> float:
        """Return the share of one method."""
        return dict(self.by_method)[method] / self.groups


def audited(materials: Materials) -> tuple[Audited, ...]:
    """Return every value that the models are handed, in the order of the tables."""
    return (*_parameters(), *_materials(materials), *_rows(), *_climates())


def shares_of(materials: Materials, ids: Iterable[str] | None = None) -> Shares:
    """Return the shares by method, of all materials or of those that are named."""
    wanted = list(materials) if ids is None else [materials[each] for each in ids]
    counts = Counter(ground.method for each in wanted for ground in each.grounds.values())
    return Shares(len(wanted), counts.total(), tuple((each, counts[each]) for each in Method))


def shares_by_group(materials: Materials) -> tuple[tuple[Group, Shares], ...]:
    """Return the shares by method of each group of values."""
    found = []
    for group in Group:
        counts = Counter(each.grounds[group].method for each in materials if group in each.grounds)
        found.append((group, Shares(counts.total(), counts.total(), tuple((each, counts[each]) for each in Method))))
    return tuple(found)


def commonest() -> tuple[str, ...]:
    """Return the ids of the sixty scraps that kitchens throw away most; a list by judgement."""
    return tuple(row["id"] for row in rows_of("commonest"))


def _parameters() -> Iterator[Audited]:
    folder = files("sourloam.evidence") / "data" / "parameters"
    for path in sorted(folder.iterdir(), key=lambda each: each.name):
        for name, row in tomllib.loads(path.read_text("utf-8")).items():
            between = f" ({row['low']:g} to {row['high']:g})" if "low" in row else ""
            value = f"{row['value']:g}{between} {row['unit']}"
            table = path.name.removesuffix(".toml")
            yield Audited(table, name, value, Basis(row["basis"]), row["source"], row.get("place", ""))


def _materials(materials: Materials) -> Iterator[Audited]:
    for each in materials:
        for group, ground in each.grounds.items():
            where = ground.provenance
            value = f"{ground.method.value}, within {ground.spread_frac:.0%}"
            yield Audited("materials", f"{each.id}: {group.words}", value, where.basis, where.source, where.place)


def _rows() -> Iterator[Audited]:
    for table in TABLES:
        for row in rows_of(table):
            name = row.get("id") or row["rule_id"]
            yield Audited(table, name, "", Basis(row["basis"]), row["source"], row.get("place", ""))


def _climates() -> Iterator[Audited]:
    tables = tomllib.loads((files("sourloam.evidence") / "data" / "climates.toml").read_text("utf-8"))
    for name in load_climates():
        row = tables[name]
        yield Audited("climates", name, row["like"], Basis(row["basis"]), row["source"], row["place"])
