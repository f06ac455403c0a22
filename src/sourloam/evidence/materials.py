"""The materials: a packaged table becomes values of the core."""

from typing import Final

from sourloam.base.source import Basis, Source
from sourloam.evidence.lookup import Lookup
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.chem.nitrogen import nitrogen_frac
from sourloam.science.materials.composition import (
    CONSTITUENTS,
    Composition,
    Material,
    Method,
    Provenance,
    Rule,
)

CLOSES_WITHIN_G_PER_KG: Final = 1.0  # nine values rounded to 0.01 g leave less; more is a fault of the table
MINERALS: Final = ("sodium", "potassium", "phosphorus", "calcium")

Materials = Lookup[Material]


def load_materials() -> Materials:
    """Return every material by its id; `find` takes any of its names.

    Raises
    ------
    UnknownSource
        If a material rests on a source that is not listed.
    ValueError
        If a row does not add up, or two materials answer to the same words.
    """
    sources = load_sources()
    return Lookup("material", tuple(_material(row, sources) for row in rows_of("materials")))


def _material(row: dict[str, str], sources: dict[str, Source]) -> Material:
    where = f"materials.csv: {row['id']}"
    return Material(
        id=row["id"],
        name=row["name"],
        synonyms=words_in(row["synonyms"]),
        kind=row["kind"],
        animal=row["animal"] == "yes",
        rule=Rule(row["rule"]),
        reason=row["reason"],
        preparation=row["preparation"],
        at_most_frac=float(row["at_most_pct"]) / 100.0,
        composition=_composition(row, where),
        water_low_wb_frac=float(row["water_low"]) / 1000.0,
        water_high_wb_frac=float(row["water_high"]) / 1000.0,
        spread_frac=float(row["spread_pct"]) / 100.0,
        loose_kg_per_l=float(row["loose_kg_per_l"]),
        pressed_kg_per_l=float(row["pressed_kg_per_l"]),
        provenance=_provenance(row, "", where, sources),
        density_provenance=_provenance(row, "density_", where, sources),
        method=Method(row["method"]),
        note=row["note"],
    )


def _composition(row: dict[str, str], where: str) -> Composition:
    held = {each: float(row[each]) for each in CONSTITUENTS}
    whole = sum(held.values())
    if abs(whole - 1000.0) > CLOSES_WITHIN_G_PER_KG:
        raise ValueError(f"{where} adds up to {whole:g} g, 1000 g are wanted")
    shares = {f"{each}_wb_frac": value / whole for each, value in held.items()}
    nitrogen = float(nitrogen_frac(shares["protein_wb_frac"], float(row["nitrogen_factor"])))
    minerals = {f"{each}_wb_frac": float(row[each]) / 1000.0 for each in MINERALS}
    return Composition(**shares, nitrogen_wb_frac=nitrogen, **minerals)


def _provenance(row: dict[str, str], of: str, where: str, sources: dict[str, Source]) -> Provenance:
    source = known(row[f"{of}source"], where, sources)
    return Provenance(source.key, row[f"{of}place"], Basis(row[f"{of}basis"]))
