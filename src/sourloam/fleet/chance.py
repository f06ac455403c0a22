"""What chance does to a year: uneven days, batches that differ, batches that fail. The seed is an argument.

One life of a site draws all its chance before it is lived, so that the same
life can be lived again with another vessel or a warmer spot: what differs then
is the change alone (common random numbers).
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Final
from zlib import crc32

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.base.spread import NINETY
from sourloam.fleet.world import Luck

KNOTS: Final = 4096  # of a table of quantiles; its mean and variance are within a thousandth
FAR_SD: Final = 14.0  # standard deviations up to which such a table is summed
BATCHES_PER_D: Final = 4  # more batches than that in a day take their luck from the beginning again
LEAST_SHAPE: Final = 1.0  # of the gamma law of a day: a lower one would make most days empty


@dataclass(frozen=True)
class ChanceParameters:
    """Filled from `parameters/chance.toml`."""

    day_cv: Figure
    home_kg_per_d: Figure
    kept_frac: Figure
    site_frac: Figure
    empty_kg_per_l: Figure
    more_bran_times: Figure
    pressed_times: Figure


@dataclass(frozen=True)
class Response:
    """How the model of a vessel answers to warmth and bran: the usual scraps, as `response.csv` has it."""

    temperatures_c: tuple[float, ...]
    log_sd: tuple[float, ...]  # scatter of the logarithm of the ready day
    doses_g_per_kg: tuple[float, ...]
    ready_20c_d: tuple[float, ...]  # median at 20 °C, for each dose

    def log_sd_at(self, temperatures_c: FloatArray) -> FloatArray:
        """Return the scatter of the logarithm of the ready day; beyond the ends of the table that of its ends."""
        return np.interp(temperatures_c, self.temperatures_c, self.log_sd)

    def times_with(self, dose_g_per_kg: float, usual_g_per_kg: float) -> float:
        """Return how many times as long it takes with another dose of bran as with the usual one."""
        days = np.interp((dose_g_per_kg, usual_g_per_kg), self.doses_g_per_kg, self.ready_20c_d)
        return float(days[0] / days[1])


def log_sd_of(low: float, high: float) -> float:
    """Return the scatter of a logarithm from the two ends of a 90 % interval."""
    return math.log(high / low) / (2.0 * NINETY)


def day_shape(kg_per_d: float, *, day_cv: float, home_kg_per_d: float) -> float:
    """Return the shape of the gamma law of a stream's day: that of a home, times as many homes as it stands for."""
    homes = max(1.0, kg_per_d / home_kg_per_d)
    return max(homes / day_cv**2, LEAST_SHAPE)


@lru_cache(maxsize=64)
def gamma_table(shape: float) -> tuple[FloatArray, FloatArray]:
    """Return the quantiles of a gamma law of mean 1, against standard normal steps: knots and values."""
    values = np.linspace(0.0, 1.0 + FAR_SD / math.sqrt(shape), 8 * KNOTS)
    positive = np.maximum(values, 1e-12)
    density = np.exp((shape - 1.0) * (np.log(positive) + 1.0) - shape * (values - 1.0) - (shape - 1.0))
    grown = np.concatenate(([0.0], np.cumsum(0.5 * (density[1:] + density[:-1]))))
    shares = (np.arange(KNOTS) + 0.5) / KNOTS
    return shares, np.interp(shares, grown / grown[-1], values)


def uneven_days(shape: float, kept_frac: float, *, days: int, stream: np.random.Generator) -> FloatArray:
    """Return what each day brings against its usual: mean 1, gamma, a part of each departure kept the next day."""
    fresh = stream.standard_normal(days) * math.sqrt(1.0 - kept_frac**2)
    steps = np.empty(days)
    last = stream.standard_normal()
    for day in range(days):
        last = kept_frac * last + fresh[day]
        steps[day] = last
    shares, values = gamma_table(round(shape, 3))
    return np.interp(_share_below(steps), shares, values)


def _share_below(steps: FloatArray) -> FloatArray:
    return np.array([0.5 * math.erfc(-each / math.sqrt(2.0)) for each in steps.tolist()])


def stream_of(seed: int, life: int, name: str) -> np.random.Generator:
    """Return the random stream of one thing in one life: the same whatever else is drawn, or in which process."""
    return np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(life, crc32(name.encode()))))


def luck_of(seed: int, life: int, *, days: int, failing_frac: float) -> Luck:
    """Return the luck of all batches of one life, in the order in which they are sealed."""
    count = BATCHES_PER_D * days
    steps = stream_of(seed, life, "batch: steps").standard_normal(count)
    fails = stream_of(seed, life, "batch: fails").random(count) < failing_frac
    return Luck(tuple(steps.tolist()), tuple(fails.tolist()))
