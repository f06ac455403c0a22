"""A heap of garden matter or manure that sours under a sheet: what it takes, by its room."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, derived, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.load.assess import Portion
from sourloam.science.load.laws import sum_kg, total_kg
from sourloam.science.load.members import members_of, value_figure
from sourloam.science.materials.composition import Material, Rule
from sourloam.science.materials.packing import litres

SOURS: Final = ("garden", "manure", "flower", "vegetable", "fruit", "carrier", "brown")  # kinds
WOOD: Final = "wood"
LEAST_M3: Final = 0.1  # below that it dries and warms through; judgement: it goes into a lidded vessel
DRIPS_FRAC: Final = 0.70  # water above which forage drips when it is pressed
LEAST_KNOWN: Final = 1.0 / 130.0  # of the usual culture, on one page; common practice, no source


@dataclass(frozen=True)
class HeapParameters:
    """Filled from `parameters/heap.toml`."""

    culture_l_per_m3: Figure
    water_l_per_m3: Figure
    mineral_kg_per_m3: Figure
    moist_frac: Figure
    layer_m: Figure
    height_m: Figure
    edge_m: Figure
    garden_d: Figure
    manure_d: Figure


@law("volumes added up ÷ 1000", unit="m3")
def heap_m3(**volumes_l: ArrayLike) -> float | FloatArray:
    """Return the room of a heap as it lies."""
    return keep_shape(np.asarray(sum(np.asarray(each, dtype=float) for each in volumes_l.values())) / 1000.0)


@law("volume × so much to a cubic metre", unit="L")
def litres_for(volume_m3: ArrayLike, l_per_m3: ArrayLike) -> float | FloatArray:
    """Return a liquid by the room of a heap."""
    return keep_shape(np.asarray(volume_m3, dtype=float) * np.asarray(l_per_m3, dtype=float))


@law("volume × so much to a cubic metre", unit="kg")
def kilograms_for(volume_m3: ArrayLike, kg_per_m3: ArrayLike) -> float | FloatArray:
    """Return a solid by the room of a heap."""
    return keep_shape(np.asarray(volume_m3, dtype=float) * np.asarray(kg_per_m3, dtype=float))


@law("the larger of: what the culture is poured on with, and what makes it moist enough", unit="L")
def water_l(carrier_l: ArrayLike, *, mass_kg: ArrayLike, dry_kg: ArrayLike, moist_frac: ArrayLike) -> FloatArray:
    """Return the water for a heap, from its dry matter D: D ÷ (1 − moisture) is what it weighs when it is moist."""
    moist = np.asarray(dry_kg, dtype=float) / (1.0 - np.asarray(moist_frac, dtype=float))
    return np.asarray(np.maximum(moist - np.asarray(mass_kg, dtype=float), np.asarray(carrier_l, dtype=float)))


@law(
    "what brings the dry matter up to its share: (mass × (1 − moisture) − dry matter) ÷ (dry − (1 − moisture))",
    unit="kg",
)
def dry_stuff_kg(
    *, mass_kg: ArrayLike, dry_kg: ArrayLike, moist_frac: ArrayLike, stuff_dry_frac: ArrayLike
) -> float | FloatArray:
    """Return what of something dry brings a wet heap to a moisture; nothing where it is no wetter than that."""
    mass, dry = np.asarray(mass_kg, dtype=float), np.asarray(dry_kg, dtype=float)
    wanted = 1.0 - np.asarray(moist_frac, dtype=float)
    lacks = np.maximum(mass * wanted - dry, 0.0)
    return keep_shape(np.asarray(lacks / (np.asarray(stuff_dry_frac, dtype=float) - wanted)))


@law("100 × (mass − dry matter) ÷ mass", unit="%")
def moisture_pct(mass_kg: ArrayLike, dry_kg: ArrayLike) -> float | FloatArray:
    """Return the water of a heap as it comes."""
    mass = np.asarray(mass_kg, dtype=float)
    return keep_shape(np.asarray(100.0 * (mass - np.asarray(dry_kg, dtype=float)) / mass))


@law("(side of a square heap + 2 × its height + 2 × edge)²", unit="m2")
def sheet_m2(volume_m3: ArrayLike, height_m: ArrayLike, edge_m: ArrayLike) -> float | FloatArray:
    """Return the sheet that covers a heap; one lower than wide is as high as it is wide at most."""
    volume = np.asarray(volume_m3, dtype=float)
    height = np.minimum(np.asarray(height_m, dtype=float), np.cbrt(volume))
    side = np.sqrt(volume / height)
    return keep_shape((side + 2.0 * height + 2.0 * np.asarray(edge_m, dtype=float)) ** 2)


@law("height of the heap ÷ depth of a layer, at least one", unit="{layer}")
def heap_layers(volume_m3: ArrayLike, height_m: ArrayLike, layer_m: ArrayLike) -> float | FloatArray:
    """Return in how many layers a heap is built."""
    height = np.minimum(np.asarray(height_m, dtype=float), np.cbrt(np.asarray(volume_m3, dtype=float)))
    return keep_shape(np.maximum(height / np.asarray(layer_m, dtype=float), 1.0))


def heap_figures(
    portions: Sequence[Portion], volumes: Mapping[str, Figure], given: HeapParameters, *, straw: Material, members: int
) -> dict[str, Figure]:
    """Return what a heap takes; `volumes` are those of its portions, by any names, `straw` what dries a wet one."""
    room = derived("volume_m3", heap_m3, volumes, words="the heap as it lies")
    masses = {f"mass_{number}": each.mass for number, each in enumerate(portions)}
    shares = {
        f"share_{number}": value_figure(each.material, "dry", members_of(each.material, members))
        for number, each in enumerate(portions)
    }
    mass = derived("mass_kg", total_kg, masses, words="its mass")
    dry = derived("dry_kg", sum_kg, masses | shares, words="dry matter of all")
    culture = derive(
        "culture_l",
        litres_for,
        words=f"culture; pages differ {1.0 / LEAST_KNOWN:.0f}-fold",
        volume_m3=room,
        l_per_m3=given.culture_l_per_m3,
    )
    carrier = derive(
        "carrier_l", litres_for, words="water that carries it", volume_m3=room, l_per_m3=given.water_l_per_m3
    )
    minerals = derive(
        "mineral_kg",
        kilograms_for,
        words="ground shell, lime or rock dust",
        volume_m3=room,
        kg_per_m3=given.mineral_kg_per_m3,
    )
    moisture = derive("moisture_pct", moisture_pct, words="water in it as it comes", mass_kg=mass, dry_kg=dry)
    water = derive(
        "water_l",
        water_l,
        words="water to pour on",
        carrier_l=carrier,
        mass_kg=mass,
        dry_kg=dry,
        moist_frac=given.moist_frac,
    )
    dries: list[Figure] = []
    if moisture.value > 100.0 * DRIPS_FRAC:
        water = water.called("water by custom, for a drier heap")
        dries = _dried(mass, dry, straw=straw, given=given)
    sheet = derive("sheet_m2", sheet_m2, words="sheet", volume_m3=room, height_m=given.height_m, edge_m=given.edge_m)
    many = derive("layers", heap_layers, words="layers", volume_m3=room, height_m=given.height_m, layer_m=given.layer_m)
    days = given.manure_d if _is_mostly_manure(portions) else given.garden_d
    ready = replace(days, name="ready_d")
    return {each.name: each for each in (room, mass, moisture, many, culture, water, *dries, minerals, sheet, ready)}


def _dried(mass: Figure, dry: Figure, *, straw: Material, given: HeapParameters) -> list[Figure]:
    """Return what of straw a wet heap wants: to be as moist as it should be, and no more than to drip no longer."""
    count = mass.members.size
    drips = written("drips_frac", DRIPS_FRAC, "1", words="water above which it drips", members=count)
    wanted = (
        ("straw_kg", f"{straw.name} that makes it as moist as it should be", given.moist_frac),
        ("straw_least_kg", f"{straw.name} that stops its dripping", drips),
    )
    return [
        derive(
            name,
            dry_stuff_kg,
            words=words,
            mass_kg=mass,
            dry_kg=dry,
            moist_frac=moist,
            stuff_dry_frac=value_figure(straw, "dry", members_of(straw, count)),
        )
        for name, words, moist in wanted
    ]


def is_for_a_heap(material: Material) -> bool:
    """Whether it sours as a heap: what grows and what eats it does; wood does not, and what spreads stays out."""
    if material.kind not in SOURS or material.family == WOOD:
        return False
    return material.rule is not Rule.NO or material.kind == "manure"


def _is_mostly_manure(portions: Sequence[Portion]) -> bool:
    whole = sum(each.mass.value for each in portions)
    return 2.0 * sum(each.mass.value for each in portions if each.material.kind == "manure") > whole


def volume_of(portion: Portion, members: int) -> Figure:
    """Return the room of what was weighed, by its density as it lies."""
    loose = value_figure(portion.material, "loose", members_of(portion.material, members))
    return derive("volume_l", litres, words=portion.material.name, mass_kg=portion.mass, density_kg_per_l=loose)
