"""The air above a filling, and what gas does to it where it cannot get out."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape

ATMOSPHERE_BAR = 1.01325  # by definition
LEAST_L = 1e-3


@law("gas ÷ room above it × one atmosphere", unit="bar")
def gauge_bar(gas_l: ArrayLike, headspace_l: ArrayLike) -> float | FloatArray:
    """Return the pressure beyond that outside, of gas that is measured at it, in room for which nothing gives way."""
    room = np.maximum(np.asarray(headspace_l, dtype=float), LEAST_L)
    return keep_shape(ATMOSPHERE_BAR * np.asarray(gas_l, dtype=float) / room)
