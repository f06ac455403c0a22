"""How unsure a value is, and the members that are drawn from it.

An ensemble is an array whose first axis is its members. A spread gives its
members from a seed and its own name, so that two runs agree, and two values
that share a name share their members.
"""

from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist
from typing import Final, Literal
from zlib import crc32

import numpy as np

from sourloam.base.numbers import FloatArray

NINETY: Final = 1.6448536269514722  # standard deviations from the middle to either end of a 90 % interval

Shape = Literal["fixed", "normal", "lognormal", "uniform"]


@dataclass(frozen=True)
class Spread:
    """A median with its 90 % interval.

    A lopsided interval is kept as such: each side has its own width. A
    `uniform` spread lies between the two ends of its interval and never beyond.
    """

    median: float
    low: float
    high: float
    shape: Shape = "fixed"

    def __post_init__(self) -> None:
        if not self.low <= self.median <= self.high:
            raise ValueError(f"low {self.low:g}, median {self.median:g} and high {self.high:g} must rise")
        if self.shape == "lognormal" and self.low <= 0:
            raise ValueError("a lognormal spread needs a low end above 0")

    @classmethod
    def exactly(cls, value: float) -> "Spread":
        """Return a value that is taken as it was given."""
        return cls(value, value, value)

    def members(self, count: int, *, name: str, seed: int) -> FloatArray:
        """Return `count` members; the same name and seed give the same ones.

        They lie at evenly spaced shares of the spread, shuffled, so that the
        median and the ends of the interval are met even by a few hundred, and
        any part of them is a fair draw.
        """
        if self.shape == "fixed":
            return np.full(count, self.median)
        stream = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(crc32(name.encode()),)))
        order = stream.permutation(count)
        if self.shape == "uniform":
            return np.interp((order + 0.5) / count, (0.0, 0.5, 1.0), (self.low, self.median, self.high))
        steps = normal_steps(count)[order] / NINETY
        if self.shape == "lognormal":
            return np.exp(_two_sided(np.log(self.low), np.log(self.median), np.log(self.high), steps))
        return _two_sided(self.low, self.median, self.high, steps)


@lru_cache(maxsize=8)
def normal_steps(count: int) -> FloatArray:
    """Return the standard deviations at evenly spaced shares of a normal spread."""
    normal = NormalDist()
    return np.array([normal.inv_cdf((each + 0.5) / count) for each in range(count)])


def _two_sided(low: float, median: float, high: float, steps: FloatArray) -> FloatArray:
    widths = np.where(steps < 0, median - low, high - median)
    return np.asarray(median + widths * steps, dtype=float)
