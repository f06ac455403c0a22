"""How much bran a layer gets, by its mass and its kind."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.inoculum.parameters import InoculumParameters

SHARE: Final = Range(0.0, 1.0)
SCRAPS: Final = Range(0.0, 10_000.0, "kg")


@dataclass(frozen=True)
class Dose:
    """The bran for one layer."""

    bran_kg: float
    g_per_kg: float


@law("plain dose × plants + animal dose × animal matter, but no less than the least dose", unit="g/kg")
def dose_g_per_kg(
    animal_frac: ArrayLike,
    plain_dose_g_per_kg: ArrayLike,
    animal_dose_g_per_kg: ArrayLike,
    least_dose_g_per_kg: ArrayLike,
) -> float | FloatArray:
    """Return the bran on a kilogram of scraps, of which a share is meat, fish, egg or dairy.

    Raises
    ------
    OutOfRange
        If the share of animal matter is outside 0 to 1.
    """
    animal = within(animal_frac, SHARE, name="animal_frac", why="it is a share of the scraps, by mass.")
    plain = np.asarray(plain_dose_g_per_kg, dtype=float)
    mixed = plain * (1.0 - animal) + np.asarray(animal_dose_g_per_kg, dtype=float) * animal
    return keep_shape(np.asarray(np.maximum(mixed, least_dose_g_per_kg), dtype=float))


@law("scraps × dose ÷ 1000", unit="kg")
def bran_dose_kg(scraps_kg: ArrayLike, dose_g_per_kg: ArrayLike) -> float | FloatArray:
    """Return the bran that goes on so many scraps.

    Raises
    ------
    OutOfRange
        If the scraps weigh less than nothing, or more than 10 t.
    """
    scraps = within(scraps_kg, SCRAPS, name="scraps_kg", why="no layer weighs that much.")
    return keep_shape(np.asarray(scraps * np.asarray(dose_g_per_kg, dtype=float) / 1000.0))


def layer_dose(scraps_kg: float, animal_frac: float, parameters: InoculumParameters) -> Dose:
    """Return the dose of a layer at the medians.

    Raises
    ------
    OutOfRange
        If the share of animal matter or the mass is impossible.
    """
    per_kg = dose_g_per_kg(
        animal_frac,
        parameters.plain_dose_g_per_kg.value,
        parameters.animal_dose_g_per_kg.value,
        parameters.least_dose_g_per_kg.value,
    )
    return Dose(float(bran_dose_kg(scraps_kg, per_kg)), float(per_kg))
