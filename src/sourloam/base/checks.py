"""Checks that turn a bad number into an error that names it."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.errors import OutOfRange
from sourloam.base.numbers import FloatArray
from sourloam.base.ranges import Range


def within(values: ArrayLike, limits: Range, *, name: str, why: str) -> FloatArray:
    """Return `values` as floats, or raise `OutOfRange` for the first one outside."""
    array = np.asarray(values, dtype=float)
    outside = ~limits.holds(array)
    if outside.any():
        raise OutOfRange(name, float(array[outside].flat[0]), limits, why)
    return array
