"""How long ground rests after a batch was dug in: longer the colder it is."""

from collections.abc import Callable
from datetime import date, timedelta
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

REFERENCE_C: Final = 20.0  # °C; the temperature at which a rest is stated, by agreement of this project
LONGEST_D: Final = 1096  # d; three years: where a search ends, not a value of nature
WARM: Final = Range(5.0, 40.0, "°C")


class Rest(NamedTuple):
    """What a rest goes by."""

    at_20c_d: float
    q10: float  # times faster for each 10 °C
    stops_c: float  # under that nothing goes on


@law(
    "rest at 20 °C × Q10 to the power of (20 °C - temperature) ÷ 10 °C",
    unit="d",
    source="thermal_rest",
    place="waiting time and burial time",
    basis=Basis.MEMORY,
)
def rest_d(soil_c: ArrayLike, at_20c_d: ArrayLike, q10: ArrayLike) -> float | FloatArray:
    r"""Days of rest in soil of one temperature.

    Decay is taken to go Q10 times faster for each ten degrees,

    .. math:: t = t_{20} \, Q_{10}^{(20 - T)/10}

    Parameters
    ----------
    soil_c : float or array
        Temperature where the batch lies. [°C]
    at_20c_d : float or array
        Rest at 20 °C. [d]
    q10 : float or array
        Times faster for each 10 °C. [-]

    Returns
    -------
    rest : float or array
        Shape of the three arguments broadcast together. [d]

    Raises
    ------
    OutOfRange
        If a temperature is outside 5 to 40 °C: in colder soil it stops.

    Notes
    -----
    Leaves out how wet the soil is. Where the temperature changes, use `rested_on`.

    References
    ----------
    thermal_rest: waiting time with 14 days at 20 °C.
    stanford_queensland: measured Q10 of soil nitrogen, 1.85 between 15 and 25 °C.

    Examples
    --------
    >>> round(rest_d(10.0, at_20c_d=14.0, q10=2.0), 1)
    28.0
    """
    warm = within(
        soil_c, WARM, name="soil_c", why="in colder soil a rest does not pass, in hotter soil it was never watched."
    )
    return keep_shape(np.asarray(at_20c_d, dtype=float) * np.asarray(q10, dtype=float) ** ((REFERENCE_C - warm) / 10.0))


def rested_on(given: date, temperature_c: Callable[[date], float], rest: Rest) -> date:
    """Return the first day on which what was dug in on `given` is rested.

    Each day counts as much as its own temperature is worth at 20 °C. The search
    ends after three years: ground that is still too cold by then has no use.
    """
    left = rest.at_20c_d - 1e-9
    day = given
    while left > 0.0 and (day - given).days < LONGEST_D:
        left -= share_of_day(temperature_c(day), rest)
        day += timedelta(days=1)
    return day


def share_of_day(temperature_c: float, rest: Rest) -> float:
    """Return how many days at 20 °C one day is worth."""
    if temperature_c < rest.stops_c:
        return 0.0
    return float(rest.q10 ** ((temperature_c - REFERENCE_C) / 10.0))
