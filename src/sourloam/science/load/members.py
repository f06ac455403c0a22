"""The members of a material: its values drawn within their spreads, many at once.

Each material has a stream of its own, by its name and the seed, so that a
change of one amount, or one material more, leaves the members of all others
as they were: two loads differ only by what differs in them.
"""

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final
from zlib import crc32

import numpy as np

from sourloam.base.figure import MEMBERS, SEED, Figure
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.base.spread import NINETY, normal_steps
from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.charge import Protolytes, strong_eq_at
from sourloam.science.materials.buffering import acids_meq_per_kg_dry, buffering_meq_per_kg_dry
from sourloam.science.materials.composition import CONSTITUENTS, MINERALS, Group, Material
from sourloam.science.materials.elements import carbon_frac

DRY: Final = tuple(name for name in CONSTITUENTS if name != "water")
UNIT: Final = MappingProxyType(
    {"loose": "kg/L", "pressed": "kg/L", "piece": "kg", "tissue": "eq/kg", "strong": "eq/kg"}
)
WORDS: Final = MappingProxyType(
    {
        "loose": "a litre as it lies",
        "pressed": "a litre pressed",
        "piece": "one piece",
        "held": "water that its dry matter keeps under pressure",
        "tissue": "charge that its tissue takes up between pH 4 and 6",
        "strong": "charge that strong ions hold",
        "wet": "whether it is wet: holds more water than it keeps under pressure",
        "wet_dry": "its dry matter, if it is wet",
        "soaks": "water that it can soak up under pressure",
        "pours": "part that pours",
        "dry": "dry matter",
        "animal": "part that is meat, fish, egg or dairy",
        "alkali": "acid that its lime takes up in a fortnight",
    }
)
GROUP_OF: Final = MappingProxyType(
    {
        "water": Group.WATER,
        "dry": Group.WATER,
        "carbon": Group.PROXIMATE,
        **dict.fromkeys(("protein", "fat", "ash", "nitrogen", "animal"), Group.PROXIMATE),
        **dict.fromkeys(("sugars", "starch", "fibre", "lignin"), Group.CARBOHYDRATE),
        **dict.fromkeys(ACIDS, Group.ACID),
        **dict.fromkeys(MINERALS, Group.MINERAL),
        **dict.fromkeys(("tissue", "strong"), Group.BUFFERING),
        **dict.fromkeys(("loose", "pressed", "held", "wet", "wet_dry", "soaks", "pours"), Group.PACKING),
        "alkali": Group.ALKALI,
        "piece": Group.PIECE,
    }
)
DRAWN: Final = (  # one column of draws each; what shares a column moves together
    *("water", "protein", "fat", "sugars", "starch", "fibre", "lignin", "acids", "ash", *MINERALS),
    *("ph", "buffering", "alkali", "density", "held", "piece"),
)
Members = Mapping[str, FloatArray]


def members_of(material: Material, count: int = MEMBERS, seed: int = SEED) -> Members:
    """Return the values of a material, `count` of each; constituents add up to one in every member."""
    steps = _steps(f"material {material.id}", count, seed)
    drawn = _composition(material, steps)
    drawn["loose"] = material.loose_kg_per_l * _times(material, Group.PACKING, steps["density"])
    drawn["pressed"] = np.maximum(
        material.pressed_kg_per_l * _times(material, Group.PACKING, 0.5 * steps["density"]), drawn["loose"]
    )
    drawn["held"] = material.held_kg_per_kg_dry * _times(material, Group.PACKING, steps["held"])
    if material.piece_kg is not None:
        drawn["piece"] = material.piece_kg * _times(material, Group.PIECE, steps["piece"])
    drawn["alkali"] = _alkali(material, steps["alkali"])
    drawn["carbon"] = np.asarray(carbon_frac(**{name: drawn[name] for name in DRY if name != "ash"}))
    return drawn | _pressed_out(material, drawn) | _charges(material, drawn, steps)


def value_figure(material: Material, value: str, drawn: Members) -> Figure:
    """Return one value of a material as a figure that opens to its source."""
    ground = material.grounds.get(GROUP_OF[value])
    where = ground.provenance if ground else None
    members = drawn[value]
    return Figure(
        f"{material.id}.{value}",
        UNIT.get(value, "1"),
        members,
        f"{material}: {WORDS.get(value, value)}",
        where.source if where else "judgement",
        where.place if where else "",
        where.basis if where else Basis.JUDGEMENT,
    )


@lru_cache(maxsize=4)
def _table(count: int) -> FloatArray:
    """Return the steps of a normal spread, in units of half its 90 % interval."""
    return np.asarray(normal_steps(count) / NINETY)


def _steps(name: str, count: int, seed: int) -> dict[str, FloatArray]:
    """Return for each drawn value its members as shares of half the 90 % interval, evenly spaced and shuffled."""
    stream = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(crc32(name.encode()),)))
    table = _table(count)
    return {each: table[stream.permutation(count)] for each in DRAWN}


def _times(material: Material, group: Group, steps: FloatArray) -> FloatArray:
    """Return factors about 1 by the spread of a group; low and high are as many times less as more."""
    ground = material.grounds.get(group)
    return np.exp(steps * np.log1p(ground.spread_frac)) if ground else np.ones_like(steps)


def _two_sided(low: float, middle: float, high: float, steps: FloatArray) -> FloatArray:
    return middle + np.where(steps < 0.0, middle - low, high - middle) * steps


def _composition(material: Material, steps: Mapping[str, FloatArray]) -> dict[str, FloatArray]:
    """Return the constituents, the nitrogen and the minerals of each member."""
    held = material.composition
    low, high = material.water_low_wb_frac, material.water_high_wb_frac
    water = np.clip(_two_sided(low, held.water_wb_frac, high, steps["water"]), 0.0, 0.995)
    parts = {
        name: getattr(held, f"{name}_wb_frac")
        * _times(material, GROUP_OF[name], steps["acids" if name in ACIDS else name])
        for name in DRY
        if getattr(held, f"{name}_wb_frac") > 0.0
    }
    whole = sum(parts.values(), np.zeros_like(water))
    scale = np.divide(1.0 - water, whole, out=np.zeros_like(water), where=whole > 0.0)
    nothing = np.zeros_like(water)
    drawn = {"water": water} | {name: parts[name] * scale if name in parts else nothing for name in DRY}
    in_protein = held.nitrogen_wb_frac / held.protein_wb_frac if held.protein_wb_frac else 0.0
    drawn["nitrogen"] = drawn["protein"] * in_protein
    dry_times = (1.0 - water) / held.dry_wb_frac if held.dry_wb_frac else nothing
    for name in MINERALS:
        share = getattr(held, f"{name}_wb_frac")
        drawn[name] = share * dry_times * _times(material, Group.MINERAL, steps[name]) if share else nothing
    return drawn | _within_ash(material, drawn)


def _within_ash(material: Material, drawn: Members) -> dict[str, FloatArray]:
    """Return the minerals of each member, no more of them all than its ash holds."""
    held = material.composition
    in_table = sum(getattr(held, f"{name}_wb_frac") for name in MINERALS)
    most = drawn["ash"] * max(1.0, in_table / held.ash_wb_frac) if held.ash_wb_frac else np.zeros_like(drawn["ash"])
    whole = sum((drawn[name] for name in MINERALS), np.zeros_like(most))
    fits = np.minimum(1.0, np.divide(most, whole, out=np.ones_like(whole), where=whole > 0.0))
    return {name: drawn[name] * fits for name in MINERALS}


def _pressed_out(material: Material, drawn: Members) -> dict[str, FloatArray]:
    """Return what pours, what is wet, and what soaks, each as a share of the mass.

    Wet is what holds more water than its dry matter keeps under pressure; what
    holds less soaks up the difference. Of what pours all is free but its solids.
    """
    water, dry = drawn["water"], 1.0 - drawn["water"]
    nothing = np.zeros_like(water)
    animal = np.full_like(water, material.animal_frac)
    if material.is_liquid:
        return {
            "animal": animal,
            "dry": dry,
            "wet": nothing,
            "wet_dry": nothing,
            "soaks": nothing,
            "pours": water + drawn["fat"],
        }
    excess = water - drawn["held"] * (dry - drawn["fat"])
    wet = (excess > 0.0).astype(float)
    return {
        "animal": animal,
        "dry": dry,
        "wet": wet,
        "wet_dry": wet * dry,
        "soaks": np.maximum(-excess, 0.0),
        "pours": nothing,
    }


def _alkali(material: Material, steps: FloatArray) -> FloatArray:
    if material.alkali is None:
        return np.zeros_like(steps)
    reacts = material.alkali.reacts_frac
    share = np.clip(_two_sided(reacts.low, reacts.median, reacts.high, steps), 0.0, 1.0)
    return material.alkali.eq_per_kg * share


def _charges(material: Material, drawn: Members, steps: Mapping[str, FloatArray]) -> dict[str, FloatArray]:
    """Return what the tissue takes up, and the strong ions that make its start pH what it is, eq per kg.

    The buffering of a material holds that of its acids. They are counted one by
    one, so that the tissue gets what is left, and none is counted twice.
    """
    dry = 1.0 - drawn["water"]
    acids_eq = np.asarray(acids_meq_per_kg_dry(**{name: drawn[name] for name in ACIDS})) / 1000.0  # of a kg as it is
    if material.buffering_meq_per_kg_dry is None:
        by_law = np.asarray(buffering_meq_per_kg_dry(drawn["protein"], 0.0, drawn["phosphorus"])) / 1000.0
        tissue = by_law * _times(material, Group.BUFFERING, steps["buffering"])
    else:
        whole = material.buffering_meq_per_kg_dry / 1000.0 * dry * _times(material, Group.BUFFERING, steps["buffering"])
        tissue = np.maximum(whole - acids_eq, 0.0)
    ph = np.clip(_two_sided(material.ph.low, material.ph.median, material.ph.high, steps["ph"]), 1.5, 13.0)
    moles = {name: drawn[name] / acid.kg_per_mol for name, acid in ACIDS.items()}
    strong = np.asarray(strong_eq_at(Protolytes(tissue, moles), ph, drawn["water"]))
    return {"tissue": tissue, "strong": strong, "ph": ph}
