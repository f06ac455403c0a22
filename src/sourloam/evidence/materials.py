"""The materials: a packaged table becomes values of the core."""

from collections import defaultdict
from collections.abc import Mapping
from functools import cache
from typing import Final

from sourloam.base.source import Basis, Source
from sourloam.base.spread import Spread
from sourloam.evidence.lookup import Lookup
from sourloam.evidence.sources import known, load_sources
from sourloam.evidence.tables import rows_of, words_in
from sourloam.science.chem.nitrogen import nitrogen_frac
from sourloam.science.materials.composition import (
    CONSTITUENTS,
    MINERALS,
    Alkali,
    Composition,
    Flora,
    Ground,
    Group,
    Material,
    Method,
    Persists,
    Provenance,
    Rule,
)

CLOSES_WITHIN_G_PER_KG: Final = 1.0  # twelve values rounded to 0.01 g leave less; more is a fault of the table
GRAMS: Final = 1000.0

Materials = Lookup[Material]


@cache
def load_materials() -> Materials:
    """Return every material by its id, read once; `find` takes any of its names.

    Raises
    ------
    UnknownSource
        If a material rests on a source that is not listed.
    ValueError
        If a row does not add up, or two materials answer to the same words.
    """
    grounds = _grounds(load_sources())
    return Lookup("material", tuple(_material(row, grounds[row["id"]]) for row in rows_of("materials")))


def _material(row: dict[str, str], grounds: Mapping[Group, Ground]) -> Material:
    return Material(
        id=row["id"],
        name=row["name"],
        synonyms=words_in(row["synonyms"]),
        kind=row["kind"],
        family=row["class"],
        animal=row["animal"] == "yes",
        rule=Rule(row["rule"]),
        reason=row["reason"],
        preparation=row["preparation"],
        at_most_frac=float(row["at_most_pct"]) / 100.0,
        is_barred_by_strict=row["barred_by_strict"] == "yes",
        persists=Persists(row["persists"]),
        composition=_composition(row),
        water_low_wb_frac=float(row["water_low"]) / GRAMS,
        water_high_wb_frac=float(row["water_high"]) / GRAMS,
        ph=Spread(float(row["ph"]), float(row["ph_low"]), float(row["ph_high"]), "normal"),
        buffering_meq_per_kg_dry=_maybe(row["buffering"]),
        alkali=_alkali(row),
        loose_kg_per_l=float(row["loose"]),
        pressed_kg_per_l=float(row["pressed"]),
        held_kg_per_kg_dry=float(row["held"]),
        piece_mm=float(row["piece_mm"]),
        piece_kg=float(row["piece_g"]) / GRAMS if row["piece_g"] else None,
        flora=Flora(*(float(row[f"{each}_log10"]) for each in ("lactic", "enteric", "yeast", "spore"))),
        grounds=grounds,
        note=row["note"],
    )


def _composition(row: dict[str, str]) -> Composition:
    held = {each: float(row[each]) for each in CONSTITUENTS}
    whole = sum(held.values())
    if abs(whole - GRAMS) > CLOSES_WITHIN_G_PER_KG:
        raise ValueError(f"materials.csv: {row['id']} adds up to {whole:g} g, 1000 g are wanted")
    shares = {f"{each}_wb_frac": value / whole for each, value in held.items()}
    nitrogen = float(nitrogen_frac(shares["protein_wb_frac"], float(row["nitrogen_factor"])))
    minerals = {f"{each}_wb_frac": float(row[each]) / GRAMS for each in MINERALS}
    return Composition(**shares, nitrogen_wb_frac=nitrogen, **minerals)


def _alkali(row: dict[str, str]) -> Alkali | None:
    if not row["alkali"]:
        return None
    low, middle, high = (float(row[f"alkali_reacts{each}"]) for each in ("_low", "", "_high"))
    return Alkali(float(row["alkali"]), Spread(middle, low, high, "normal"))


def _maybe(cell: str) -> float | None:
    return float(cell) if cell else None


def _grounds(sources: Mapping[str, Source]) -> Mapping[str, Mapping[Group, Ground]]:
    """Return what each group of values of each material rests on."""
    found: dict[str, dict[Group, Ground]] = defaultdict(dict)
    for row in rows_of("material_grounds"):
        source = known(row["source"], f"material_grounds.csv: {row['id']}, {row['group']}", sources)
        where = Provenance(source.key, row["place"], Basis(row["basis"]))
        found[row["id"]][Group(row["group"])] = Ground(where, Method(row["method"]), float(row["spread_pct"]) / 100.0)
    return found
