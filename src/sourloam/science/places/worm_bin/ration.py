"""How much fermented scraps worms eat: by their mass, their warmth, and how used to it they are."""

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

TEMPERATURE: Final = Range(-60.0, 60.0, "°C")


class Warmth(NamedTuple):
    """Between which temperatures something lives, and where it does best."""

    stops_low_c: float
    best_c: float
    stops_high_c: float


@law(
    "the beta curve between the two temperatures at which it stops", unit="1", source="yan_hunt1999", basis=Basis.MEMORY
)
def appetite_frac(temperature_c: ArrayLike, warmth: Warmth) -> float | FloatArray:
    r"""Part of the greatest appetite that is left at a temperature.

    .. math:: f = \frac{T_2 - T}{T_2 - T_o} \left(\frac{T - T_1}{T_o - T_1}\right)^{(T_o - T_1)/(T_2 - T_o)}

    Parameters
    ----------
    temperature_c : float or array
        Temperature of the bed of worms. [°C]
    warmth : Warmth
        Where it stops, below and above, and where it is greatest. [°C]

    Returns
    -------
    appetite : float or array
        From 0 to 1; 0 outside the two ends. [-]

    Raises
    ------
    OutOfRange
        If a temperature is outside -60 to 60 °C.

    Notes
    -----
    The bed is taken to be as warm as the room; scraps that heat it are not seen.

    References
    ----------
    yan_hunt1999: the form of the curve.
    kaplan1980: worms gain most weight from 20 to 29 °C and live from 0 to 35 °C.

    Examples
    --------
    >>> round(appetite_frac(15.0, Warmth(3.0, 24.0, 35.0)), 3)
    0.625
    """
    given = within(temperature_c, TEMPERATURE, name="temperature_c", why="no bin is that cold or hot.")
    low, best, high = warmth
    inside = np.clip(given, low, high)  # outside it is 0, not a power of something negative
    curve = (high - inside) / (high - best) * ((inside - low) / (best - low)) ** ((best - low) / (high - best))
    return keep_shape(curve)


@law("mass of worms × what a kilogram of them eats in a day × appetite", unit="kg/d", source="sourloam_derivation")
def ration_kg_per_d(worms_kg: ArrayLike, eats_kg_per_kg_d: ArrayLike, appetite: ArrayLike = 1.0) -> float | FloatArray:
    """Return what the worms of a bin eat in a day."""
    eaten = np.asarray(worms_kg, dtype=float) * np.asarray(eats_kg_per_kg_d, dtype=float)
    return keep_shape(eaten * np.asarray(appetite, dtype=float))


def stepped_up_frac(days_since_first: int, first_share_frac: float, step_d: float) -> float:
    """Return the part of the ration that worms get so long after their first: doubled at every step."""
    steps = days_since_first // step_d
    return float(min(1.0, first_share_frac * 2.0 ** min(steps, 30.0)))
