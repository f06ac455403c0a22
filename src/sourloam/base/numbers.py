"""The numeric type names, and how results keep the shape of what was given."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


def halved(is_above: Callable[[FloatArray], NDArray[np.bool_]], low: FloatArray, high: FloatArray) -> FloatArray:
    """Return where `is_above` turns from no to yes between two ends, to a billionth of their distance.

    Every member is searched at once; where it turns nowhere the nearer end comes back.
    """
    for _ in range(30):
        middle = 0.5 * (low + high)
        above = is_above(middle)
        low, high = np.where(above, low, middle), np.where(above, middle, high)
    return np.asarray(0.5 * (low + high))


def keep_shape(values: FloatArray) -> float | FloatArray:
    """Return a plain float for a single number, the array otherwise."""
    return float(values) if np.ndim(values) == 0 else values
