"""How the warmth of the year goes down into the soil: less, and later, with depth."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

MEAN_YEAR_D: Final = 365.25  # d; mean length of a year of the calendar with a leap day in four (soilphysics_toolkit)
DAY_S: Final = 86_400.0  # s; one day

DEPTH: Final = Range(0.0, 20.0, "m")
DIFFUSIVITY: Final = Range(1e-8, 5e-6, "m2/s")
PERIOD: Final = Range(0.01, 4000.0, "d")


def damping_depth_m(diffusivity_m2_per_s: ArrayLike, period_d: ArrayLike = MEAN_YEAR_D) -> float | FloatArray:
    r"""Depth at which a wave of temperature has shrunk to 37 % of its swing at the surface.

    Warmth moves by conduction alone, in soil that is the same at every depth,

    .. math:: d = \sqrt{\alpha P / \pi}

    Parameters
    ----------
    diffusivity_m2_per_s : float or array
        How fast the soil evens out differences of temperature. [m2/s]
    period_d : float or array
        Length of one wave: a day or a year. [d]

    Returns
    -------
    depth : float or array
        Shape of the two arguments broadcast together. [m]

    Raises
    ------
    OutOfRange
        If a diffusivity is outside 1e-8 to 5e-6, or a period outside 0.01 to 4000 days.

    Notes
    -----
    Leaves out rain that carries warmth down, frost that gives it off, and snow.

    References
    ----------
    okstate_rainorshine: chapter 13.4, the sine wave at a depth and its damping depth.

    Examples
    --------
    >>> round(damping_depth_m(0.5e-6, period_d=1.0), 3)
    0.117
    """
    alpha = within(
        diffusivity_m2_per_s, DIFFUSIVITY, name="diffusivity_m2_per_s", why="no soil conducts so badly or so well."
    )
    period = within(period_d, PERIOD, name="period_d", why="the law is meant for days and years.")
    return keep_shape(np.sqrt(alpha * period * DAY_S / np.pi))


def wave_c(
    day: ArrayLike,
    depth_m: ArrayLike,
    *,
    mean_c: ArrayLike,
    swing_k: ArrayLike,
    coldest_day: ArrayLike,
    diffusivity_m2_per_s: ArrayLike,
    period_d: float = MEAN_YEAR_D,
) -> float | FloatArray:
    r"""Soil temperature at a depth, from one wave at the surface.

    .. math:: T = T_a - A_0 e^{-z/d} \cos\left(\frac{2\pi}{P}(t - t_0) - \frac{z}{d}\right)

    Parameters
    ----------
    day : float or array
        Day at which the temperature is wanted, counted as `coldest_day` is. [d]
    depth_m : float or array
        Below the surface of the soil. [m]
    mean_c : float or array
        Mean of the wave, the same at every depth. [°C]
    swing_k : float or array
        Half of the difference between warmest and coldest at the surface. [K]
    coldest_day : float or array
        Day on which the surface is coldest. [d]
    diffusivity_m2_per_s : float or array
        How fast the soil evens out differences of temperature. [m2/s]
    period_d : float
        Length of one wave. [d]

    Returns
    -------
    temperature : float or array
        Shape of the arguments broadcast together. [°C]

    Raises
    ------
    OutOfRange
        If a depth is negative or below 20 m, or as `damping_depth_m`.

    Notes
    -----
    One wave for the year leaves out the weather of single weeks, which at 0.1 m
    can lie several degrees to either side.

    References
    ----------
    soilphysics_toolkit: the form from the coldest day.

    Examples
    --------
    >>> round(wave_c(110, 0.2, mean_c=10, swing_k=10, coldest_day=21, diffusivity_m2_per_s=0.5e-6), 1)
    8.8
    """
    depth = within(depth_m, DEPTH, name="depth_m", why="it is counted downwards, and nothing is buried deeper.")
    steps = depth / damping_depth_m(diffusivity_m2_per_s, period_d)
    turn = 2.0 * np.pi * (np.asarray(day, dtype=float) - np.asarray(coldest_day, dtype=float)) / period_d
    middle, swing = np.asarray(mean_c, dtype=float), np.asarray(swing_k, dtype=float)
    return keep_shape(middle - swing * np.exp(-steps) * np.cos(turn - steps))


def lag_d(depth_m: ArrayLike, diffusivity_m2_per_s: ArrayLike, period_d: float = MEAN_YEAR_D) -> float | FloatArray:
    """Return by how many days the soil at a depth follows its surface (okstate_rainorshine, chapter 13.4).

    Raises
    ------
    OutOfRange
        As `wave_c`.
    """
    depth = within(depth_m, DEPTH, name="depth_m", why="it is counted downwards, and nothing is buried deeper.")
    return keep_shape(depth / damping_depth_m(diffusivity_m2_per_s, period_d) * period_d / (2.0 * np.pi))
