"""Rice-wash water, milk, serum: how much of each the next one needs, and how long each takes."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.microbes.cardinal import cardinal_temperature

REFERENCE_C: Final = 20.0


@law("serum ÷ serum from a litre of milk", unit="L")
def milk_l(serum_l: ArrayLike, serum_yield_l_per_l: ArrayLike) -> float | FloatArray:
    """Return the milk that gives so much serum."""
    return keep_shape(np.asarray(np.asarray(serum_l, dtype=float) / np.asarray(serum_yield_l_per_l, dtype=float)))


@law("milk × rice water to a litre of milk", unit="L")
def rice_wash_l(milk_l: ArrayLike, rice_wash_l_per_l: ArrayLike) -> float | FloatArray:
    """Return the soured rice water that starts so much milk."""
    return keep_shape(np.asarray(np.asarray(milk_l, dtype=float) * np.asarray(rice_wash_l_per_l, dtype=float)))


@law("rice water × rice rinsed in a litre", unit="kg")
def rice_kg(rice_wash_l: ArrayLike, rice_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the rice that must be rinsed for it; the rice itself is eaten."""
    return keep_shape(np.asarray(np.asarray(rice_wash_l, dtype=float) * np.asarray(rice_kg_per_l, dtype=float)))


@law(
    "days at 20 °C × pace at 20 °C ÷ pace at that temperature",
    unit="d",
    source="rosso1993",
    place="cardinal temperature model",
)
def days_at(
    at_20c_d: ArrayLike, temperature_c: ArrayLike, *, least_c: ArrayLike, best_c: ArrayLike, most_c: ArrayLike
) -> float | FloatArray:
    """Return the days that a step takes at a steady temperature; infinite where nothing grows.

    Raises
    ------
    OutOfRange
        If the three cardinal temperatures do not rise as the curve needs them to.
    """
    pace = np.asarray(cardinal_temperature(temperature_c, least_c=least_c, best_c=best_c, most_c=most_c))
    reference = np.asarray(cardinal_temperature(REFERENCE_C, least_c=least_c, best_c=best_c, most_c=most_c))
    with np.errstate(divide="ignore"):
        return keep_shape(np.asarray(np.asarray(at_20c_d, dtype=float) * reference / pace))
