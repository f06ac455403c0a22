"""Closed-form results that the simulation must meet."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape


@law("1 + days from sealing until it is emptied ÷ days to fill one, rounded up", unit="{vessel}")
def vessels_for(fill_d: ArrayLike, away_d: ArrayLike) -> float | FloatArray:
    """Return how many equal vessels keep one open at all times, if each is away for `away_d` days once it is sealed."""
    ratio = np.asarray(away_d, dtype=float) / np.asarray(fill_d, dtype=float)
    return keep_shape(1.0 + np.ceil(ratio - 1e-9))
