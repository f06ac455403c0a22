"""Every value of the tool with how it came to be known, so that what is weak can be seen."""

import tomllib
from collections import Counter
from collections.abc import Iterable, Iterator
from importlib.resources import files

from sourloam.base.source import Basis
from sourloam.evidence.climates import load_climates
from sourloam.evidence.culture import TABLES as BENCH
from sourloam.evidence.culture import VALUES
from sourloam.evidence.materials import Materials
from sourloam.evidence.organisms import TABLE
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of
from sourloam.science.materials.composition import Ground, Group, Method
from sourloam.views.audit import AuditRow, MaterialsAuditView, MethodShares

TABLES = (
    *("crops", "cautions", "sanitation_rules", "apart", "wholes", "causes", "signs", "severity"),
    *BENCH,
)


def audited(materials: Materials) -> tuple[AuditRow, ...]:
    """Return every value that the models are handed, in the order of the tables."""
    return (*_parameters(), *_organisms(), *_carriers(), *_materials(materials), *_rows(), *_climates())


def audit_of(materials: Materials) -> MaterialsAuditView:
    """Return how the values of the materials were obtained: of all, of the commonest scraps, and by group."""
    common = commonest()
    return MaterialsAuditView(
        materials=len(materials),
        all=_shares("all materials", (ground for each in materials for ground in each.grounds.values())),
        commonest=_shares(
            f"the {len(common)} commonest scraps",
            (ground for each in common for ground in materials[each].grounds.values()),
        ),
        by_group=tuple(
            _shares(group.words, (each.grounds[group] for each in materials if group in each.grounds))
            for group in Group
        ),
        commonest_ids=common,
    )


def _shares(what: str, grounds: Iterable[Ground]) -> MethodShares:
    counts = Counter(each.method for each in grounds)
    whole = counts.total()
    measured, relative, rule = (
        100.0 * counts[each] / whole for each in (Method.MEASURED, Method.RELATIVE, Method.RULE)
    )
    return MethodShares(what, whole, measured, relative, rule)


def _row(table: str, name: str, value: str, *, basis: Basis, source: str, place: str) -> AuditRow:
    text = known(source, f"{table}: {name}", load_sources()).text
    return AuditRow(table, name, value, basis.value, basis.words, source, text, place)


def commonest() -> tuple[str, ...]:
    """Return the ids of the sixty scraps that kitchens throw away most; a list by judgement."""
    return tuple(row["id"] for row in rows_of("commonest"))


def _parameters() -> Iterator[AuditRow]:
    folder = files("sourloam.evidence") / "data" / "parameters"
    for path in sorted(folder.iterdir(), key=lambda each: each.name):
        for name, row in tomllib.loads(path.read_text("utf-8")).items():
            between = f" ({row['low']:g} to {row['high']:g})" if "low" in row else ""
            value = f"{row['value']:g}{between} {row['unit']}"
            table = path.name.removesuffix(".toml")
            yield _row(table, name, value, basis=Basis(row["basis"]), source=row["source"], place=row.get("place", ""))


def _organisms() -> Iterator[AuditRow]:
    for row in rows_of(TABLE):
        value = f"{row['value']} ({row['low']} to {row['high']}) {row['unit']}"
        name = f"{row['group']}: {row['value_of']}"
        yield _row(TABLE, name, value, basis=Basis(row["basis"]), source=row["source"], place=row["place"])


def _carriers() -> Iterator[AuditRow]:
    for row in rows_of(VALUES):
        value = f"{row['value']} ({row['low']} to {row['high']}) {row['unit']}"
        name = f"{row['carrier']}: {row['value_of']}"
        yield _row(VALUES, name, value, basis=Basis(row["basis"]), source=row["source"], place=row["place"])


def _materials(materials: Materials) -> Iterator[AuditRow]:
    for each in materials:
        for group, ground in each.grounds.items():
            where = ground.provenance
            value = f"{ground.method.value}, within {ground.spread_frac:.0%}"
            yield _row(
                "materials",
                f"{each.id}: {group.words}",
                value,
                basis=where.basis,
                source=where.source,
                place=where.place,
            )


def _rows() -> Iterator[AuditRow]:
    for table in TABLES:
        for row in rows_of(table):
            name = row.get("id") or row["rule_id"]
            yield _row(table, name, "", basis=Basis(row["basis"]), source=row["source"], place=row.get("place", ""))


def _climates() -> Iterator[AuditRow]:
    tables = tomllib.loads((files("sourloam.evidence") / "data" / "climates.toml").read_text("utf-8"))
    for name in load_climates():
        row = tables[name]
        yield _row("climates", name, row["like"], basis=Basis(row["basis"]), source=row["source"], place=row["place"])
