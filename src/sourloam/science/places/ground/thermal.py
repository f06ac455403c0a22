"""Days at 20 °C: how much of a rest, or of rotting, passes in days of other temperatures, for many members at once."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.numbers import FloatArray
from sourloam.science.places.ground.rest import REFERENCE_C


def days_at_20c(soil_c: ArrayLike, q10: ArrayLike, stops_c: ArrayLike, moist_frac: ArrayLike = 1.0) -> FloatArray:
    """Return the days at 20 °C that have passed by the end of each day, 0 first: (members, days + 1).

    `soil_c` is (days,) or (members, days); the others are one for all or one for each member.
    """
    warm = np.atleast_2d(np.asarray(soil_c, dtype=float))
    of_member = (np.reshape(np.asarray(each, dtype=float), (-1, 1)) for each in (q10, stops_c, moist_frac))
    times, stops, moist = of_member
    worth = np.where(warm < stops, 0.0, moist * times ** ((warm - REFERENCE_C) / 10.0))
    passed = np.zeros((worth.shape[0], worth.shape[1] + 1))
    np.cumsum(worth, axis=1, out=passed[:, 1:])
    return passed


def first_day(passed_d: FloatArray, wanted_d: ArrayLike) -> FloatArray:
    """Return the first day by whose beginning so many days at 20 °C have passed; infinite where they never do."""
    wanted = np.broadcast_to(np.asarray(wanted_d, dtype=float), passed_d.shape[:1])
    reached = passed_d >= wanted[:, None] - 1e-9
    return np.where(reached.any(axis=1), reached.argmax(axis=1), np.inf).astype(float)
