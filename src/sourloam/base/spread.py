"""How unsure a value is, and the members that are drawn from it.

An ensemble is an array whose first axis is its members. A spread gives its
members from a seed and its own name, so that two runs agree, and two values
that share a name share their members.
"""

from dataclasses import dataclass
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
        """Draw `count` members; the same name and seed give the same ones."""
        stream = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(crc32(name.encode()),)))
        if self.shape == "fixed":
            return np.full(count, self.median)
        if self.shape == "uniform":
            return stream.uniform(self.low, self.high, count)
        steps = stream.standard_normal(count) / NINETY
        if self.shape == "lognormal":
            return np.exp(_two_sided(np.log(self.low), np.log(self.median), np.log(self.high), steps))
        return _two_sided(self.low, self.median, self.high, steps)


def _two_sided(low: float, median: float, high: float, steps: FloatArray) -> FloatArray:
    widths = np.where(steps < 0, median - low, high - median)
    return np.asarray(median + widths * steps, dtype=float)
