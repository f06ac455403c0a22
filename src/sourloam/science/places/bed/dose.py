"""How much of a batch a square metre takes: each limit by itself, in kilograms, and the tightest of them."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

PER_KG: Final = Range(1e-9, 1e6)
AREA: Final = Range(1e-3, 1e6, "m2")
DOSE: Final = Range(0.0, 1e4, "kg/m2")
LITRES_PER_M3: Final = 1000.0


@law("(most in a year − given) ÷ what a kilogram holds, never under 0", unit="kg/m2")
def by_year_kg_per_m2(most_g_per_m2: ArrayLike, given_g_per_m2: ArrayLike, g_per_kg: ArrayLike) -> float | FloatArray:
    """Return what may be given of a batch until a yearly limit of nitrogen or phosphorus is met.

    Raises
    ------
    OutOfRange
        If a kilogram holds nothing of it.
    """
    held = within(g_per_kg, PER_KG, name="g_per_kg", why="then it sets no limit.")
    left = np.asarray(most_g_per_m2, dtype=float) - np.asarray(given_g_per_m2, dtype=float)
    return keep_shape(np.asarray(np.maximum(left, 0.0) / held))


@law("need of the crop ÷ (nitrogen of a kilogram × part that comes free)", unit="kg/m2")
def by_need_kg_per_m2(need_g_per_m2: ArrayLike, g_per_kg: ArrayLike, free_frac: ArrayLike) -> float | FloatArray:
    """Return what covers the need of a crop for nitrogen; without end where hardly any comes free."""
    free = np.maximum(np.asarray(g_per_kg, dtype=float) * np.asarray(free_frac, dtype=float), 1e-3)
    return keep_shape(np.maximum(np.asarray(need_g_per_m2, dtype=float), 0.0) / free)


@law(
    "(what the crop bears − what the soil has) × salt to a litre at 1 dS/m × water of dug soil ÷ salts of a kilogram",
    unit="kg/m2",
)
def by_salt_kg_per_m2(
    bears_ds_per_m: ArrayLike,
    soil_ds_per_m: ArrayLike,
    *,
    salt_mg_per_l: ArrayLike,
    mixed_m: ArrayLike,
    saturated_frac: ArrayLike,
    ions_g_per_kg: ArrayLike,
) -> float | FloatArray:
    """Return what may be given until a crop loses yield by salt, if no rain washes any out.

    Raises
    ------
    OutOfRange
        If a kilogram holds no salts.
    """
    held = within(ions_g_per_kg, PER_KG, name="ions_g_per_kg", why="then it sets no limit.")
    room = np.maximum(np.asarray(bears_ds_per_m, dtype=float) - np.asarray(soil_ds_per_m, dtype=float), 0.0)
    litres = LITRES_PER_M3 * np.asarray(mixed_m, dtype=float) * np.asarray(saturated_frac, dtype=float)
    return keep_shape(room * np.asarray(salt_mg_per_l, dtype=float) / 1000.0 * litres / held)


@law("how much sourer it may turn × acid for one pH ÷ acid of a kilogram", unit="kg/m2")
def by_acid_kg_per_m2(
    shift_ph: ArrayLike, buffer_mol_per_m2: ArrayLike, titratable_mol_per_kg: ArrayLike
) -> float | FloatArray:
    """Return what may be given until the dug soil turns too sour at first.

    Raises
    ------
    OutOfRange
        If a kilogram holds no acid.
    """
    held = within(titratable_mol_per_kg, PER_KG, name="titratable_mol_per_kg", why="then it sets no limit.")
    return keep_shape(np.asarray(shift_ph, dtype=float) * np.asarray(buffer_mol_per_m2, dtype=float) / held)


@law("(depth − soil above) × part of the bed that is trench × mass of a litre", unit="kg/m2")
def by_depth_kg_per_m2(
    depth_m: ArrayLike, cover_m: ArrayLike, trench_frac: ArrayLike, kg_per_l: ArrayLike
) -> float | FloatArray:
    """Return what fits under its cover into trenches of a depth."""
    layer = np.maximum(np.asarray(depth_m, dtype=float) - np.asarray(cover_m, dtype=float), 0.0)
    return keep_shape(LITRES_PER_M3 * layer * np.asarray(trench_frac, dtype=float) * np.asarray(kg_per_l, dtype=float))


@law("the least of all limits", unit="kg/m2")
def tightest_kg_per_m2(**limits: ArrayLike) -> float | FloatArray:
    """Return the tightest of several limits."""
    return keep_shape(np.asarray(np.minimum.reduce([np.asarray(each, dtype=float) for each in limits.values()])))


@law("what there is ÷ area, at most the dose", unit="kg/m2")
def given_kg_per_m2(mass_kg: ArrayLike, area_m2: ArrayLike, dose_kg_per_m2: ArrayLike) -> float | FloatArray:
    """Return what a square metre gets of a batch that is spread over an area.

    Raises
    ------
    OutOfRange
        If the area is not above 0.
    """
    area = within(area_m2, AREA, name="area_m2", why="on no ground nothing can be dug in.")
    return keep_shape(np.minimum(np.asarray(mass_kg, dtype=float) / area, np.asarray(dose_kg_per_m2, dtype=float)))


@law("mass ÷ dose", unit="m2")
def area_m2(mass_kg: ArrayLike, dose_kg_per_m2: ArrayLike) -> float | FloatArray:
    """Return the ground that a batch wants; without end where the dose is nothing.

    Raises
    ------
    OutOfRange
        If the dose is negative.
    """
    dose = within(dose_kg_per_m2, DOSE, name="dose_kg_per_m2", why="that is no dose.")
    mass = np.asarray(mass_kg, dtype=float)
    return keep_shape(np.divide(mass, dose, out=np.full(np.broadcast(mass, dose).shape, np.inf), where=dose > 0.0))


@law("dose × area, at most what there is", unit="kg")
def takes_kg(mass_kg: ArrayLike, area_m2: ArrayLike, dose_kg_per_m2: ArrayLike) -> float | FloatArray:
    """Return what a bed takes of a batch."""
    return keep_shape(
        np.minimum(np.asarray(mass_kg, dtype=float), np.asarray(area_m2, float) * np.asarray(dose_kg_per_m2, float))
    )


@law("litres of it ÷ (width of the trench × depth of the layer)", unit="m")
def trench_m(mass_kg: ArrayLike, kg_per_l: ArrayLike, width_m: ArrayLike, layer_m: ArrayLike) -> float | FloatArray:
    """Return the trench that a batch fills, one spade wide."""
    litres = np.asarray(mass_kg, dtype=float) / np.asarray(kg_per_l, dtype=float)
    return keep_shape(litres / (LITRES_PER_M3 * np.asarray(width_m, float) * np.asarray(layer_m, float)))


@law("litres of it ÷ litres to a hole", unit="{hole}")
def holes(mass_kg: ArrayLike, kg_per_l: ArrayLike, hole_l: ArrayLike) -> float | FloatArray:
    """Return the holes that a batch fills."""
    return keep_shape(np.asarray(mass_kg, float) / np.asarray(kg_per_l, float) / np.asarray(hole_l, float))


@law("what a square metre gets × what a kilogram holds", unit="g/m2")
def held_g_per_m2(given_kg_per_m2: ArrayLike, g_per_kg: ArrayLike) -> float | FloatArray:
    """Return what a square metre gets of something."""
    return keep_shape(np.asarray(given_kg_per_m2, dtype=float) * np.asarray(g_per_kg, dtype=float))


@law("what a square metre gets × acid of a kilogram ÷ acid for one pH", unit="[pH]")
def shift_ph(
    given_kg_per_m2: ArrayLike, titratable_mol_per_kg: ArrayLike, buffer_mol_per_m2: ArrayLike
) -> float | FloatArray:
    """Return by how much the dug soil turns sourer at first, evenly mixed; close to a lump it is more."""
    acid = np.asarray(given_kg_per_m2, dtype=float) * np.asarray(titratable_mol_per_kg, dtype=float)
    return keep_shape(acid / np.asarray(buffer_mol_per_m2, dtype=float))


@law("what the soil has + salt ÷ (water of the dug soil × salt in a litre at 1 dS/m)", unit="dS/m")
def soil_ds_per_m(
    salt_g_per_m2: ArrayLike,
    soil_ds_per_m: ArrayLike,
    *,
    salt_mg_per_l: ArrayLike,
    mixed_m: ArrayLike,
    saturated_frac: ArrayLike,
) -> float | FloatArray:
    """Return the conductivity of the soil once a batch is dug in, nothing washed out."""
    litres = LITRES_PER_M3 * np.asarray(mixed_m, dtype=float) * np.asarray(saturated_frac, dtype=float)
    added = 1000.0 * np.asarray(salt_g_per_m2, dtype=float) / litres / np.asarray(salt_mg_per_l, dtype=float)
    return keep_shape(np.asarray(soil_ds_per_m, dtype=float) + added)


@law("the longest of all waits", unit="d")
def longest_d(**waits: ArrayLike) -> float | FloatArray:
    """Return the longest of several waits."""
    return keep_shape(np.asarray(np.maximum.reduce([np.asarray(each, dtype=float) for each in waits.values()])))
