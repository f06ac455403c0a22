"""How a filling sinks together while it ferments."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape


@law("1 − settling × (1 − exp(−days ÷ settling time))", unit="1", source="judgement")
def settled_frac(age_d: ArrayLike, settles_frac: ArrayLike, settling_d: ArrayLike) -> float | FloatArray:
    """Return what is left of the pressed volume after some days; it falls to 1 - `settles_frac`."""
    done = -np.expm1(-np.asarray(age_d, dtype=float) / np.asarray(settling_d, dtype=float))
    return keep_shape(1.0 - np.asarray(settles_frac, dtype=float) * done)


@law("pressed volume × settling ÷ floor", unit="cm", source="judgement")
def sinks_cm(pressed_l: ArrayLike, settles_frac: ArrayLike, floor_m2: ArrayLike) -> float | FloatArray:
    """Return how far a filling sinks in the end."""
    lost_l = np.asarray(pressed_l, dtype=float) * np.asarray(settles_frac, dtype=float)
    return keep_shape(0.1 * lost_l / np.asarray(floor_m2, dtype=float))


@law("room for scraps × pressed density ÷ (1 − settling while it fills)", unit="kg", source="judgement")
def holds_kg(
    usable_l: ArrayLike,
    pressed_kg_per_l: ArrayLike,
    *,
    settles_frac: ArrayLike,
    settling_d: ArrayLike,
    filling_d: ArrayLike,
) -> float | FloatArray:
    """Return what a vessel holds when it is full, if it was filled evenly over `filling_d` days.

    The mean age of what lies in it decides how far it has settled: of loads
    that come evenly, the mean of `settled_frac` over 0 to `filling_d` is left.
    """
    ratio = np.maximum(np.asarray(filling_d, dtype=float), 1e-6) / np.asarray(settling_d, dtype=float)
    left = 1.0 - np.asarray(settles_frac, dtype=float) * (1.0 + np.expm1(-ratio) / ratio)
    return keep_shape(np.asarray(usable_l, dtype=float) * np.asarray(pressed_kg_per_l, dtype=float) / left)
