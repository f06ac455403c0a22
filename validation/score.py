"""How good an interval is: narrow, and wide enough.

The interval score of Gneiting & Raftery (2007): the width of a central interval
of 90 %, and for what lies outside it 2 ÷ 0.1 times as far as it does. Less is
better, and nothing is gained by saying other than what one believes.
"""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import SEED
from sourloam.base.numbers import FloatArray
from validation.studies import Observed

OUTSIDE: Final = 0.10  # of an interval of 90 %
SCALE: Final = MappingProxyType(  # that makes quantities comparable: about what moves the pH by one; judgement
    {
        "ph": 1.0,
        "lab_log10_per_g": 1.0,
        "entero_log10_per_g": 1.0,
        "lactic_g_per_kg": 10.0,
        "lactic_g_per_kg_dm": 50.0,
        "acetic_g_per_kg": 5.0,
        "ethanol_g_per_kg": 10.0,
        "nh3_n_g_per_kg": 1.0,
    }
)
RESAMPLED: Final = 2000


@dataclass(frozen=True)
class Interval:
    """What is said of one point."""

    low: float
    middle: float
    high: float


def interval_score(low: float, high: float, seen: float) -> float:
    """Return the score of an interval where a value was seen (gneiting2007, equation 43)."""
    return (high - low) + 2.0 / OUTSIDE * (max(low - seen, 0.0) + max(seen - high, 0.0))


def score_of(said: Interval, seen: Observed) -> float:
    """Return the score of a point, by its kind, in units of its scale.

    A printed range counts as two values, of half a weight each. Of what is only
    known to be at most so much, an interval is charged the part above that,
    which is known to be wrong, and pays for lying above it as a whole; the part
    below costs nothing, for nothing is known of it. `at least` is its mirror.
    """
    scale = SCALE[seen.quantity]
    if seen.bound == "at most":
        return _charged(said.low - seen.high, said.high - seen.high) / scale
    if seen.bound == "at least":
        return _charged(seen.low - said.high, seen.low - said.low) / scale
    both = interval_score(said.low, said.high, seen.low) + interval_score(said.low, said.high, seen.high)
    return 0.5 * both / scale


def _charged(near: float, far: float) -> float:
    """Return the score where an interval lies so far beyond a bound with its near and its far end."""
    return max(far, 0.0) - max(near, 0.0) + 2.0 / OUTSIDE * max(near, 0.0)


def covered(said: Interval, seen: Observed) -> float:
    """Return whether a point lies in its interval; of a printed range each end counts half."""
    if seen.bound == "at most":
        return float(said.low <= seen.high)
    if seen.bound == "at least":
        return float(said.high >= seen.low)
    return 0.5 * sum(said.low <= each <= said.high for each in (seen.low, seen.high))


def miss(said: Interval, seen: Observed) -> float:
    """Return by how much the middle is above (+) or below what was seen; nothing within a range or a bound."""
    low = -np.inf if seen.bound == "at most" else seen.low
    high = np.inf if seen.bound == "at least" else seen.high
    return float(max(said.middle - high, 0.0) - max(low - said.middle, 0.0))


def mean_by_study(values: FloatArray, studies: list[str]) -> float:
    """Return the mean over studies of the mean within each; not a number where there is none."""
    names = np.array(studies)
    return float(np.mean([values[names == each].mean() for each in dict.fromkeys(studies)])) if studies else np.nan


def resampled(values: FloatArray, studies: list[str], *, seed: int = SEED) -> tuple[float, float]:
    """Return the 90 % interval of a mean over points when whole studies are drawn anew."""
    names = np.array(studies)
    sums = np.array([(values[names == each].sum(), (names == each).sum()) for each in dict.fromkeys(studies)])
    if not len(sums):
        return np.nan, np.nan
    chosen = np.random.default_rng(seed).integers(len(sums), size=(RESAMPLED, len(sums)))
    drawn = sums[chosen].sum(axis=1)
    low, high = np.quantile(drawn[:, 0] / drawn[:, 1], (OUTSIDE / 2.0, 1.0 - OUTSIDE / 2.0))
    return float(low), float(high)


def binomial(share: float, count: int) -> tuple[float, float]:
    """Return the 90 % interval of a share of so many independent points (wilson1927)."""
    if not count:
        return np.nan, np.nan
    z = 1.6448536269514722
    middle, spread = share + z * z / (2 * count), z * np.sqrt(share * (1 - share) / count + (z / (2 * count)) ** 2)
    return tuple(float((middle + side * spread) / (1 + z * z / count)) for side in (-1, 1))  # type: ignore[return-value]
