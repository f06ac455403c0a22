"""Wet basis to dry basis and back."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

MASS: Final = Range(1e-9, 1e6, "kg")
MOISTURE: Final = Range(0.0, 0.999)


@law("(wet − dry) ÷ wet", unit="1", source="cornell_moisture", place="worked example: oven test")
def moisture_wb_frac(wet_kg: ArrayLike, dry_kg: ArrayLike) -> float | FloatArray:
    """Return the water of a sample by its mass before and after the oven (24 h at 105 to 110 °C).

    Raises
    ------
    OutOfRange
        If a mass is not above 0, or more came out of the oven than went in.
    """
    wet = within(wet_kg, MASS, name="wet_kg", why="a sample has a mass.")
    dry = within(dry_kg, MASS, name="dry_kg", why="a sample has a mass.")
    return keep_shape(within((wet - dry) / wet, MOISTURE, name="moisture", why="no sample gains mass in an oven."))


def dry_basis_frac(share_wb_frac: ArrayLike, water_wb_frac: ArrayLike) -> float | FloatArray:
    """Return a share of the dry matter from the share of the whole.

    Raises
    ------
    OutOfRange
        If the water is outside 0 to 99.9 %.
    """
    return keep_shape(np.asarray(np.asarray(share_wb_frac, dtype=float) / _dry(water_wb_frac)))


def wet_basis_frac(share_db_frac: ArrayLike, water_wb_frac: ArrayLike) -> float | FloatArray:
    """Return a share of the whole from the share of the dry matter.

    Raises
    ------
    OutOfRange
        If the water is outside 0 to 99.9 %.
    """
    return keep_shape(np.asarray(np.asarray(share_db_frac, dtype=float) * _dry(water_wb_frac)))


def _dry(water_wb_frac: ArrayLike) -> FloatArray:
    return 1.0 - within(water_wb_frac, MOISTURE, name="water_wb_frac", why="something must be dry matter.")
