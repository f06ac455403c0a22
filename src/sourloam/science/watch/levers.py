"""What readings may move: the overall rate, the buffer, the air, the temperature, and how freely liquid runs.

Everything else that is unsure stays as it was drawn. Each lever is moved along
its own spread, in standard deviations, so that what was there before counts
exactly.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.base.spread import NINETY
from sourloam.science.ferment.ensemble.living import Living

LEVERS: Final = ("lactic_rate_times", "buffer_times", "leak_l_per_d", "warmer_c", "drains_times")
LINEAR: Final = ("warmer_c",)  # the others are spread by their logarithm
WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "lactic_rate_times": "rate",
        "buffer_times": "buffer",
        "leak_l_per_d": "air",
        "warmer_c": "temperature",
        "drains_times": "liquid",
    }
)
KEPT_FRAC: Final = 0.3  # of new members that come from what was known before, so that none is out of reach
WIDER: Final = 1.3  # than what the readings leave, for the others
LEAST_SD: Final = 0.25


@dataclass(frozen=True)
class Moved:
    """Members with moved levers, and how much more or less each counts for it."""

    living: Living
    log_weight: FloatArray


def scores_of(living: Living, before: Living) -> FloatArray:
    """Return where each member stands along the spreads that were known before: (members, levers)."""
    return np.stack([_score(getattr(living.model, name), getattr(before.model, name), name) for name in LEVERS], axis=1)


def _score(figure: Figure, before: Figure, name: str) -> FloatArray:
    low, middle, high, values = (
        _scaled(np.asarray(each, dtype=float), name) for each in (before.low, before.value, before.high, figure.members)
    )
    width = np.where(values < middle, middle - low, high - middle)
    return np.asarray((values - middle) / np.maximum(width, 1e-12) * NINETY)


def _scaled(values: FloatArray, name: str) -> FloatArray:
    return values if name in LINEAR else np.log(values)


def moved(before: Living, scores: FloatArray, weights: FloatArray, *, seed: int) -> Moved:
    """Return members whose levers are drawn near those that the readings leave, and what each counts.

    A part comes from what was known before; the density of the whole mixture
    is divided out, so that no weight can exceed one over that part.
    """
    middle = weights @ scores
    spread = np.sqrt(np.maximum(weights @ (scores - middle) ** 2, 0.0))
    spread = np.minimum(np.maximum(WIDER * spread, LEAST_SD), WIDER)
    count = scores.shape[0]
    chance = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(1,)))
    drawn = chance.standard_normal(scores.shape)
    stays = chance.random((count, 1)) < KEPT_FRAC
    new = np.where(stays, drawn, middle + spread * drawn)
    log_before = -0.5 * np.sum(new**2, axis=1)
    log_near = -0.5 * np.sum(((new - middle) / spread) ** 2, axis=1) - np.sum(np.log(spread))
    log_mixed = np.logaddexp(np.log(KEPT_FRAC) + log_before, np.log1p(-KEPT_FRAC) + log_near)
    figures = {name: _at(getattr(before.model, name), new[:, at], name) for at, name in enumerate(LEVERS)}
    return Moved(replace(before, model=replace(before.model, **figures)), np.asarray(log_before - log_mixed))


def _at(before: Figure, scores: FloatArray, name: str) -> Figure:
    low, middle, high = (_scaled(np.asarray(each), name) for each in (before.low, before.value, before.high))
    values = middle + np.where(scores < 0.0, middle - low, high - middle) * scores / NINETY
    return replace(before, members=np.asarray(values if name in LINEAR else np.exp(values)))
