"""Serum and sugar in water, reckoned for a litre of water."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape

WATER_KG_PER_L: Final = 0.998  # kg/L, at 20 °C; memory


@law("water + serum + sugar, by mass", unit="kg/L")
def inoculant_kg_per_l(
    serum_l_per_l: ArrayLike, sugar_kg_per_l: ArrayLike, serum_kg_per_l: ArrayLike
) -> float | FloatArray:
    """Return the mass of inoculant from a litre of water."""
    serum = np.asarray(serum_l_per_l, dtype=float) * np.asarray(serum_kg_per_l, dtype=float)
    return keep_shape(np.asarray(WATER_KG_PER_L + serum + np.asarray(sugar_kg_per_l, dtype=float)))


@law("water + serum + what the sugar adds, by volume", unit="L/L")
def inoculant_l_per_l(
    serum_l_per_l: ArrayLike, sugar_kg_per_l: ArrayLike, sugar_l_per_kg: ArrayLike
) -> float | FloatArray:
    """Return the volume of inoculant from a litre of water."""
    sugar = np.asarray(sugar_kg_per_l, dtype=float) * np.asarray(sugar_l_per_kg, dtype=float)
    return keep_shape(np.asarray(1.0 + np.asarray(serum_l_per_l, dtype=float) + sugar))


@law("(water + water of the serum) ÷ (water + serum + sugar), by mass", unit="1")
def inoculant_moisture_wb_frac(
    serum_l_per_l: ArrayLike, sugar_kg_per_l: ArrayLike, serum_kg_per_l: ArrayLike, serum_dry_wb_frac: ArrayLike
) -> float | FloatArray:
    """Return the share of water in the inoculant."""
    serum = np.asarray(serum_l_per_l, dtype=float) * np.asarray(serum_kg_per_l, dtype=float)
    water = WATER_KG_PER_L + serum * (1.0 - np.asarray(serum_dry_wb_frac, dtype=float))
    return keep_shape(np.asarray(water / np.asarray(inoculant_kg_per_l(serum_l_per_l, sugar_kg_per_l, serum_kg_per_l))))
