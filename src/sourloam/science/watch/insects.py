"""Flies and their grubs: when eggs hatch, when the last of them have flown, and what grubs leave.

Insects have no warmth of their own: from egg to fly takes so many degrees
times days above a warmth at which they stop.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import Figure, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

ROOM: Final = Range(-30.0, 60.0, "°C")
LONGEST_D: Final = 120.0  # d; where nothing is said any more: flies do not breed in so cold a room
LEAST_K: Final = 0.5  # K above where they stop


@dataclass(frozen=True)
class InsectParameters:
    """Filled from `parameters/insects.toml`, which says what each is."""

    fly_stops_c: Figure
    fly_hatch_degree_days: Figure
    fly_grown_degree_days: Figure
    grubs_eat_frac: Figure
    mesh_mm: Figure
    bedding_mm: Figure


@law(
    "degrees times days that it takes ÷ (warmth - warmth at which they stop)",
    unit="d",
    source="vinegar_fly_pages",
    place="19 days at 18 °C, 8.5 at 25 °C from egg to fly",
    basis=Basis.DERIVED,
)
def stage_d(room_c: ArrayLike, degree_days: ArrayLike, stops_c: ArrayLike) -> float | FloatArray:
    r"""Days that a stage of a vinegar fly takes at one warmth.

    .. math:: d = \frac{K}{T - T_0}

    Parameters
    ----------
    room_c : float or array
        Warmth of the room. [°C]
    degree_days : float or array
        Degrees above the stop times days that the stage takes. [K d]
    stops_c : float or array
        Warmth at which it stops. [°C]

    Returns
    -------
    stage : float or array
        At most 120: in so cold a room they do not breed. [d]

    Raises
    ------
    OutOfRange
        If a warmth is not that of a room.

    References
    ----------
    vinegar_fly_pages: the days at 18 and at 25 °C.

    Examples
    --------
    >>> round(stage_d(25.0, 108.0, 12.3), 1)
    8.5
    """
    warmth = within(room_c, ROOM, name="room_c", why="no scraps are kept there.")
    above = np.maximum(warmth - np.asarray(stops_c, dtype=float), LEAST_K)
    return keep_shape(np.minimum(np.asarray(degree_days, dtype=float) / above, LONGEST_D))


@law("what was laid in × (1 - part that grubs eat)", unit="kg", source="judgement", basis=Basis.JUDGEMENT)
def left_kg(laid_kg: ArrayLike, eaten_frac: ArrayLike) -> float | FloatArray:
    """Mass that is left when grubs have eaten and gone.

    Parameters
    ----------
    laid_kg : float or array
        What was laid in. [kg]
    eaten_frac : float or array
        Part that they eat and breathe off. [-]

    Returns
    -------
    left : float or array
        What they leave. [kg]
    """
    return keep_shape(np.asarray(laid_kg, dtype=float) * (1.0 - np.asarray(eaten_frac, dtype=float)))
