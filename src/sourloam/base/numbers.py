"""The numeric type names, and how results keep the shape of what was given."""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


def keep_shape(values: FloatArray) -> float | FloatArray:
    """Return a plain float for a single number, the array otherwise."""
    return float(values) if np.ndim(values) == 0 else values
