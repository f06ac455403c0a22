"""How much nitrogen an area of ground may be given in a year."""

from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.days import YEAR_D
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.places.offer import PlaceState

CAP: Final = Range(0.1, 200.0, "g/m2")


@law(
    "nitrogen ÷ nitrogen that a square metre may be given in a year",
    unit="m2",
    source="eu_nitrates",
    place="170 kg of nitrogen per hectare and year",
    basis=Basis.DERIVED,
)
def area_for_nitrogen_m2(nitrogen_g: ArrayLike, cap_g_per_m2: ArrayLike) -> float | FloatArray:
    r"""Area over which nitrogen must be spread to keep to a cap.

    .. math:: A = N / c

    Parameters
    ----------
    nitrogen_g : float or array
        Nitrogen in all that is spread. [g]
    cap_g_per_m2 : float or array
        The most that a square metre may be given in a year. [g/m2]

    Returns
    -------
    area : float or array
        Shape of the two arguments broadcast together. [m2]

    Raises
    ------
    OutOfRange
        If a cap is outside 0.1 to 200 g/m2.

    Notes
    -----
    Counts all nitrogen alike, whenever plants can use it, as the rules do.

    References
    ----------
    eu_nitrates: 170 kg of nitrogen per hectare and year from manure.
    uk_nvz: 250 kg of nitrogen per hectare in any 12 months.

    Examples
    --------
    >>> round(area_for_nitrogen_m2(93.75, cap_g_per_m2=17.0), 3)
    5.515
    """
    cap = within(cap_g_per_m2, CAP, name="cap_g_per_m2", why="no rule allows so little or so much.")
    return keep_shape(np.asarray(nitrogen_g, dtype=float) / cap)


def given_in_a_year_g(state: PlaceState, on: date) -> float:
    """Return the nitrogen given in the 365 days up to `on`; what the ledger holds of later days counts too."""
    return sum(each.nitrogen_g for each in state.since(on - timedelta(days=YEAR_D - 1)))


def room_for_nitrogen_g(state: PlaceState, on: date, area_m2: float, cap_g_per_m2: float) -> float:
    """Return the nitrogen that an area may still be given on a day, so that no 365 days get more than the cap."""
    return max(area_m2 * cap_g_per_m2 - given_in_a_year_g(state, on), 0.0)


def next_room_on(state: PlaceState, on: date, area_m2: float, cap_g_per_m2: float) -> date:
    """Return the first day from `on` on which there is room for nitrogen again."""
    leaves = sorted(each.on + timedelta(days=YEAR_D) for each in state.receipts)
    days = (on, *(each for each in leaves if each > on))
    return next((each for each in days if room_for_nitrogen_g(state, each, area_m2, cap_g_per_m2) > 0.0), days[-1])
