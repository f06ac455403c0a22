"""The thermal clock: how fast a sealed vessel sours, against one at 20 °C."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.microbes.cardinal import cardinal_temperature

REFERENCE_C: Final = 20.0
FREEZES_C: Final = -1.5  # at or below nothing runs; fresh produce freezes between -0.5 and -3 °C, recalled


@law("growth at that temperature ÷ growth at 20 °C", unit="1", source="rosso1993", place="cardinal temperature model")
def clock_rate(
    temperature_c: ArrayLike, *, least_c: ArrayLike, best_c: ArrayLike, most_c: ArrayLike
) -> float | FloatArray:
    """Return how many days at 20 °C pass in one day at a temperature.

    Nothing happens beyond `least_c` and `most_c`, nor where it is frozen.

    Raises
    ------
    OutOfRange
        If the three cardinal temperatures do not rise as the curve needs them to.
    """
    limits = {"least_c": least_c, "best_c": best_c, "most_c": most_c}
    growth = cardinal_temperature(temperature_c, **limits)
    pace = np.asarray(growth) / np.asarray(cardinal_temperature(REFERENCE_C, **limits))
    pace = np.where(np.asarray(temperature_c, dtype=float) > FREEZES_C, pace, 0.0)
    return keep_shape(pace + 0.0)  # a pace of minus nothing would make an endless time negative


@law("days at 20 °C ÷ pace at that temperature", unit="d")
def days_to_ready(
    ready_at_20c_d: ArrayLike, temperature_c: ArrayLike, *, least_c: ArrayLike, best_c: ArrayLike, most_c: ArrayLike
) -> float | FloatArray:
    """Return the days from sealing until ready at a steady temperature; infinite where nothing happens."""
    rate = np.asarray(clock_rate(temperature_c, least_c=least_c, best_c=best_c, most_c=most_c))
    with np.errstate(divide="ignore"):
        return keep_shape(np.asarray(ready_at_20c_d, dtype=float) / rate)
