"""A bed from the day on which a batch is dug in: warmth that adds up, what rots, nitrogen that comes free, acid.

All rates are those at 20 °C. Each day counts as much as its own temperature is
worth there, so that every course is a plain function of days at 20 °C; members
lie along the first axis, days along the last.
"""

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

PERCENT: Final = Range(0.0, 20.0, "%")
RATIO: Final = Range(2.0, 200.0)
LEAST_PCT: Final = 1.5  # % of dry matter; under that a residue gives no nitrogen (pnw636)
MOST_LB_PER_TON: Final = 35.0  # lb to a short ton of dry matter, at 3.5 % (pnw636)
LB_PER_TON_PER_PCT: Final = 17.5  # the straight line between the two
LB_PER_TON_OF_PCT: Final = 20.0  # lb in a short ton; 1 % of it
ALIKE: Final = 1e-6  # rates closer than that are one rate


class Rates(NamedTuple):
    """What rots how fast at 20 °C, and what of it microbes keep."""

    fast_per_d: FloatArray
    slow_per_d: FloatArray
    turnover_per_d: FloatArray
    decomposes_frac: FloatArray  # of what is not fast, in a season
    efficiency: FloatArray  # carbon that microbes keep of what they eat
    microbial_c_to_n: FloatArray


class Applied(NamedTuple):
    """What was dug into a square metre, g."""

    carbon_g: FloatArray
    fast_carbon_g: FloatArray  # sugars and acids, and of an unfinished batch what would still ferment
    nitrogen_g: FloatArray
    ammonia_g: FloatArray
    comes_free_frac: FloatArray  # of the nitrogen, in the long run


class Pools(NamedTuple):
    """Where carbon and nitrogen are, g on a square metre: (members, days)."""

    fast_carbon_g: FloatArray
    slow_carbon_g: FloatArray
    humus_carbon_g: FloatArray  # what does not rot in a season, and what microbes keep
    gone_carbon_g: FloatArray  # breathed out
    organic_nitrogen_g: FloatArray
    tied_nitrogen_g: FloatArray  # in the microbes that eat sugars and acids
    free_nitrogen_g: FloatArray  # that plants can take; below nothing while the soil lends some


@law(
    "17.5 × (nitrogen in the dry matter − 1.5 %), between 0 and 35 lb to a short ton, ÷ nitrogen",
    unit="1",
    source="pnw636",
    place="0 at 1.5 %, 35 lb to a short ton at 3.5 %, a straight line between",
    basis=Basis.DERIVED,
)
def free_by_content_frac(nitrogen_dry_pct: ArrayLike) -> float | FloatArray:
    r"""Nitrogen of fresh residue that comes free in a season, by how much of it there is.

    .. math:: f = \frac{\min(35, \max(0, 17.5 (N - 1.5)))}{20 N}

    Parameters
    ----------
    nitrogen_dry_pct : float or array
        Nitrogen of the dry matter. [%]

    Returns
    -------
    free : float or array
        Part of the nitrogen. [-]

    Raises
    ------
    OutOfRange
        If the nitrogen is outside 0 to 20 %.

    Notes
    -----
    For residues in the warm season, most of it in four to six weeks.

    References
    ----------
    pnw636: the two points that the line goes through.

    Examples
    --------
    >>> round(free_by_content_frac(2.5), 3)
    0.35
    """
    held = within(nitrogen_dry_pct, PERCENT, name="nitrogen_dry_pct", why="nothing that grows holds so much.")
    pounds = np.clip(LB_PER_TON_PER_PCT * (held - LEAST_PCT), 0.0, MOST_LB_PER_TON)
    return keep_shape(np.asarray(pounds / np.maximum(LB_PER_TON_OF_PCT * held, 1e-9)))


@law(
    "part that rots × (1 − what microbes keep × C:N ÷ their C:N), never under 0",
    unit="1",
    source="memory",
    place="the balance of nitrogen between residue and microbes; even at C:N 20",
    basis=Basis.MEMORY,
)
def free_by_c_to_n_frac(
    c_to_n: ArrayLike, decomposes_frac: ArrayLike, efficiency: ArrayLike, microbial_c_to_n: ArrayLike
) -> float | FloatArray:
    r"""Nitrogen of residue that comes free in a season, by what its microbes need for themselves.

    .. math:: f = f_d \left(1 - e \frac{CN}{CN_m}\right)

    Parameters
    ----------
    c_to_n : float or array
        Carbon to nitrogen of the residue. [-]
    decomposes_frac : float or array
        Part of it that rots in a season. [-]
    efficiency : float or array
        Carbon that microbes keep of what they eat. [-]
    microbial_c_to_n : float or array
        Carbon to nitrogen of the microbes. [-]

    Returns
    -------
    free : float or array
        Part of the nitrogen; 0 where microbes need more than there is. [-]

    Raises
    ------
    OutOfRange
        If C:N is outside 2 to 200.

    Examples
    --------
    >>> round(free_by_c_to_n_frac(15.0, 0.75, 0.4, 8.0), 4)
    0.1875
    """
    ratio = within(c_to_n, RATIO, name="c_to_n", why="nothing that grows has such a one.")
    kept = np.asarray(efficiency, dtype=float) * ratio / np.asarray(microbial_c_to_n, dtype=float)
    return keep_shape(np.maximum(np.asarray(decomposes_frac, dtype=float) * (1.0 - kept), 0.0))


@law("by C:N + (by content − by C:N) × where between the two", unit="1", source="judgement")
def free_frac(by_content: ArrayLike, by_c_to_n: ArrayLike, between_frac: ArrayLike) -> float | FloatArray:
    """Return the part of the nitrogen that comes free: anywhere between what the two published forms say."""
    one, other = np.asarray(by_c_to_n, dtype=float), np.asarray(by_content, dtype=float)
    return keep_shape(np.asarray(one + (other - one) * np.asarray(between_frac, dtype=float)))


def pools(applied: Applied, rates: Rates, passed_d: FloatArray) -> Pools:
    """Return where carbon and nitrogen are, for (members, days) of days at 20 °C.

    Two pools rot, each by first order. The microbes that eat the fast one,
    which holds no nitrogen, take theirs from the soil, and give it back as they
    die; of the slow one the part comes free that the published forms say.
    """
    fast_rate, slow_rate = _column(rates.fast_per_d), _column(rates.slow_per_d)
    fast_in = _column(applied.fast_carbon_g)
    rest_in = _column(applied.carbon_g) - fast_in
    rots_in = rest_in * _column(rates.decomposes_frac)
    fast, slow = fast_in * np.exp(-fast_rate * passed_d), rots_in * np.exp(-slow_rate * passed_d)
    eaten = (fast_in - fast) + (rots_in - slow)
    kept = _column(rates.efficiency) * eaten
    ammonia, nitrogen = _column(applied.ammonia_g), _column(applied.nitrogen_g)
    to_come = np.maximum(nitrogen * _column(applied.comes_free_frac) - ammonia, 0.0)
    released = to_come * -np.expm1(-slow_rate * passed_d)
    tied = (
        _column(rates.efficiency)
        * fast_in
        / _column(rates.microbial_c_to_n)
        * _passing(fast_rate, _column(rates.turnover_per_d), passed_d)
    )
    return Pools(
        fast,
        slow,
        (rest_in - rots_in) + kept,
        eaten - kept,
        nitrogen - ammonia - released,
        tied,
        ammonia + released - tied,
    )


def _passing(comes_per_d: FloatArray, goes_per_d: FloatArray, passed_d: FloatArray) -> FloatArray:
    """Return what is there, to one that comes at one rate and goes at another."""
    apart = goes_per_d - comes_per_d
    apart = np.where(np.abs(apart) < ALIKE, ALIKE, apart)
    return np.asarray(
        comes_per_d / apart * (np.exp(-comes_per_d * passed_d) - np.exp(-(comes_per_d + apart) * passed_d))
    )


def _column(values: ArrayLike) -> FloatArray:
    return np.reshape(np.asarray(values, dtype=float), (-1, 1))
