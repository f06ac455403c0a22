"""What bran costs when it is made, against what it costs when it is bought."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape

MONTH_D: Final = 365.25 / 12.0


@law("amounts × prices ÷ bran", unit="/kg")
def made_per_kg(bran_kg: ArrayLike, **parts: ArrayLike) -> float | FloatArray:
    """Return what a kilogram of bran of one's own costs: `amount_0`, `price_0`, `amount_1` and on."""
    count = len(parts) // 2
    spent = sum(np.asarray(parts[f"amount_{n}"], dtype=float) * np.asarray(parts[f"price_{n}"]) for n in range(count))
    return keep_shape(np.asarray(spent / np.asarray(bran_kg, dtype=float), dtype=float))


@law("price of a kilogram × bran on a kilogram of scraps", unit="/kg")
def per_kg_scraps(price_per_kg: ArrayLike, dose_g_per_kg: ArrayLike) -> float | FloatArray:
    """Return what the bran for a kilogram of scraps costs."""
    dose = np.asarray(dose_g_per_kg, dtype=float) / 1000.0
    return keep_shape(np.asarray(np.asarray(price_per_kg, dtype=float) * dose))


@law("price for a kilogram of scraps × scraps of a month", unit="/mo")
def per_month(price_per_kg_scraps: ArrayLike, scraps_kg_per_d: ArrayLike) -> float | FloatArray:
    """Return what the bran of a month costs."""
    scraps = np.asarray(scraps_kg_per_d, dtype=float) * MONTH_D
    return keep_shape(np.asarray(np.asarray(price_per_kg_scraps, dtype=float) * scraps))


@law("what a making costs whatever its size ÷ what each kilogram spares", unit="kg")
def break_even_kg(fixed: ArrayLike, bought_per_kg: ArrayLike, more_per_kg: ArrayLike) -> float | FloatArray:
    """Return the batch from which making is cheaper; never where a kilogram costs more than a bought one."""
    spared = np.asarray(bought_per_kg, dtype=float) - np.asarray(more_per_kg, dtype=float)
    with np.errstate(divide="ignore", invalid="ignore"):
        return keep_shape(np.where(spared > 0.0, np.asarray(fixed, dtype=float) / spared, np.inf))


@law("amount × price", unit="1")
def times(one: ArrayLike, two: ArrayLike) -> float | FloatArray:
    """Return a sum of money."""
    return keep_shape(np.asarray(np.asarray(one, dtype=float) * np.asarray(two, dtype=float)))


@law("mass ÷ days", unit="kg/d")
def over(mass_kg: ArrayLike, days: ArrayLike) -> float | FloatArray:
    """Return what comes in on a day."""
    return keep_shape(np.asarray(np.asarray(mass_kg, dtype=float) / np.asarray(days, dtype=float)))
