"""Response curves with a least, a best and a greatest value."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.errors import OutOfRange
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

TEMPERATURE: Final = Range(-60.0, 150.0, "°C")


@law(
    "(T − most)(T − least)² ÷ ((best − least)((best − least)(T − best) − (best − most)(best + least − 2T)))",
    unit="1",
    source="rosso1993",
    place="cardinal temperature model with inflection",
    basis=Basis.READ,
)
def cardinal_temperature(
    temperature_c: ArrayLike, *, least_c: ArrayLike, best_c: ArrayLike, most_c: ArrayLike
) -> float | FloatArray:
    r"""Pace of growth at a temperature, as a share of the pace at the best one.

    The cardinal temperature model with inflection,

    .. math::
        g = \frac{(T - T_{max})(T - T_{min})^2}{(T_{opt} - T_{min})
            [(T_{opt} - T_{min})(T - T_{opt}) - (T_{opt} - T_{max})(T_{opt} + T_{min} - 2T)]}

    between the least and the greatest temperature, and 0 outside them.

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the material. [°C]
    least_c, most_c : float or array
        Temperatures at and beyond which nothing grows. [°C]
    best_c : float or array
        Temperature of fastest growth; above the middle of the other two. [°C]

    Returns
    -------
    pace : float or array
        0 to 1; shape of the four arguments broadcast together. [-]

    Raises
    ------
    OutOfRange
        If a temperature is not a number or lies outside -60 to 150 °C, or if
        `best_c` does not lie above the middle of `least_c` and `most_c` and
        below `most_c`: the curve would have a second peak, or a pole.

    Notes
    -----
    It gives the pace of growth alone, for a steady temperature. It knows no
    lag after a change, and no death above the greatest temperature.

    References
    ----------
    rosso1993: the model.
    macrogrow_t_lim: the formula as read, and a printed table of its values.

    Examples
    --------
    >>> round(cardinal_temperature(22.0, least_c=5.0, best_c=20.0, most_c=30.0), 6)
    0.963333
    """
    reason = "growth is not known there."
    now = within(temperature_c, TEMPERATURE, name="temperature_c", why=reason)
    least = within(least_c, TEMPERATURE, name="least_c", why=reason)
    best = within(best_c, TEMPERATURE, name="best_c", why=reason)
    most = within(most_c, TEMPERATURE, name="most_c", why=reason)
    _refuse_two_peaks(least, best, most)
    within_reach = np.clip(now, least, most)  # the formula is 0 at both ends, as it is beyond them
    top = (within_reach - most) * (within_reach - least) ** 2
    rise = best - least
    bottom = rise * (rise * (within_reach - best) - (best - most) * (best + least - 2.0 * within_reach))
    return keep_shape(np.asarray(top / bottom, dtype=float))


def _refuse_two_peaks(least: FloatArray, best: FloatArray, most: FloatArray) -> None:
    low, middle, high = np.broadcast_arrays(least, best, most)
    bad = ~((middle > (low + high) / 2.0) & (middle < high))
    if bad.any():
        first, peak, last = (float(each[bad].flat[0]) for each in (low, middle, high))
        limits = Range((first + last) / 2.0, last, "°C")
        why = "it must lie between the middle and the top, or there is no single peak."
        raise OutOfRange("best_c", peak, limits, why)
