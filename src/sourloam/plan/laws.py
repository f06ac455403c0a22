"""The laws of the plan: how its figures follow from one another."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.days import YEAR_D
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.ferment.clock import days_to_ready


@law("the parts together", unit="kg")
def total_kg(**parts: ArrayLike) -> float | FloatArray:
    """Return the sum of some masses."""
    return keep_shape(np.asarray(sum(np.asarray(each, dtype=float) for each in parts.values())))


@law("kilograms a day × days of the usual amount in the year", unit="kg")
def yearly_kg(kg_per_d: ArrayLike, usual_days: ArrayLike) -> float | FloatArray:
    """Return what a stream brings in the year."""
    return keep_shape(np.asarray(kg_per_d, dtype=float) * np.asarray(usual_days, dtype=float))


@law("litres a day × loose density", unit="kg/d")
def weighed_kg_per_d(l_per_d: ArrayLike, loose_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the mass of a stream that was given by volume."""
    return keep_shape(np.asarray(l_per_d, dtype=float) * np.asarray(loose_kg_per_l, dtype=float))


@law("scraps × ((1 − animal part) × dose + animal part × dose for animal matter)", unit="kg")
def bran_kg(
    scraps_kg: ArrayLike, animal_frac: ArrayLike, plain_dose_g_per_kg: ArrayLike, animal_dose_g_per_kg: ArrayLike
) -> float | FloatArray:
    """Return the bran for some scraps."""
    animal = np.asarray(animal_frac, dtype=float)
    dose = (1.0 - animal) * np.asarray(plain_dose_g_per_kg, dtype=float) + animal * np.asarray(
        animal_dose_g_per_kg, dtype=float
    )
    return keep_shape(np.asarray(scraps_kg, dtype=float) * dose / 1000.0)


@law("scraps × liquid from a kilogram", unit="L")
def leachate_l(scraps_kg: ArrayLike, leachate_l_per_kg: ArrayLike) -> float | FloatArray:
    """Return the liquid that some scraps let go."""
    return keep_shape(np.asarray(scraps_kg, dtype=float) * np.asarray(leachate_l_per_kg, dtype=float))


@law("bran ÷ scraps", unit="1")
def bran_ratio(bran_kg: ArrayLike, scraps_kg: ArrayLike) -> float | FloatArray:
    """Return the bran with a kilogram of scraps."""
    return keep_shape(np.asarray(bran_kg, dtype=float) / np.asarray(scraps_kg, dtype=float))


@law("scraps + bran − liquid − what leaves as gas", unit="kg")
def product_kg(
    scraps_kg: ArrayLike, bran_kg: ArrayLike, leachate_l: ArrayLike, *, dry_frac: ArrayLike, dry_loss_frac: ArrayLike
) -> float | FloatArray:
    """Return what is left to be placed; a litre of liquid is taken as a kilogram."""
    scraps, bran = np.asarray(scraps_kg, dtype=float), np.asarray(bran_kg, dtype=float)
    gas = (scraps * np.asarray(dry_frac, dtype=float) + bran) * np.asarray(dry_loss_frac, dtype=float)
    return keep_shape(scraps + bran - np.asarray(leachate_l, dtype=float) - gas)


@law("what a vessel holds ÷ scraps a day", unit="d")
def fill_days(holds_kg: ArrayLike, scraps_kg_per_year: ArrayLike, year_d: ArrayLike) -> float | FloatArray:
    """Return in how many days one vessel fills."""
    return keep_shape(
        np.asarray(holds_kg, dtype=float)
        / np.asarray(scraps_kg_per_year, dtype=float)
        * np.asarray(year_d, dtype=float)
    )


@law("density by the table × how far mixes differ from it", unit="kg/L")
def pressed_kg_per_l(table_kg_per_l: ArrayLike, density_times: ArrayLike) -> float | FloatArray:
    """Return the pressed density of a mix."""
    return keep_shape(np.asarray(table_kg_per_l, dtype=float) * np.asarray(density_times, dtype=float))


@law("floor of the vessel × depth of a layer × pressed density × 1000", unit="kg")
def layer_kg(floor_m2: ArrayLike, layer_m: ArrayLike, pressed_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the scraps of one pressed layer."""
    litres = np.asarray(floor_m2, dtype=float) * np.asarray(layer_m, dtype=float) * 1000.0
    return keep_shape(litres * np.asarray(pressed_kg_per_l, dtype=float))


@law("scraps of a layer × bran with a kilogram × 1000", unit="g")
def layer_bran_g(layer_kg: ArrayLike, bran_kg_per_kg: ArrayLike) -> float | FloatArray:
    """Return the bran that is strewn on one layer."""
    return keep_shape(np.asarray(layer_kg, dtype=float) * np.asarray(bran_kg_per_kg, dtype=float) * 1000.0)


@law("bran of the year ÷ weeks of the year × 1000", unit="g/wk")
def weekly_bran_g(bran_kg: ArrayLike, year_d: ArrayLike) -> float | FloatArray:
    """Return the bran that a usual week takes."""
    return keep_shape(np.asarray(bran_kg, dtype=float) * 7000.0 / np.asarray(year_d, dtype=float))


@law("days at 20 °C ÷ pace at that temperature; more than a year counts as never", unit="d")
def days_within_a_year(
    ready_at_20c_d: ArrayLike, temperature_c: ArrayLike, *, least_c: ArrayLike, best_c: ArrayLike, most_c: ArrayLike
) -> float | FloatArray:
    """Return the days until ready at a steady temperature: nobody waits for a number of years."""
    days = np.asarray(days_to_ready(ready_at_20c_d, temperature_c, least_c=least_c, best_c=best_c, most_c=most_c))
    return keep_shape(np.where(days > YEAR_D, np.inf, days))
