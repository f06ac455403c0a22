"""Whether the model moves in the printed direction when one condition is changed."""

import math
from collections.abc import Mapping
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from validation.predict import Predicted
from validation.studies import Contrast

FALLS: Final = ("ph", "entero_log10_per_g")  # quantities that end low
ENDS: Final = ("entero_log10_per_g",)  # that rise before they fall: reached when left for good


def difference(pair: Contrast, runs: Mapping[str, Predicted]) -> float:
    """Return by how much run a is above run b, or sooner than it in days.

    Where no day is given, it is that on which the medians differ most.
    """
    a, b = (_middle(runs[f"{pair.study}/{name}"], pair.quantity) for name in (pair.run_a, pair.run_b))
    if pair.a_is == "sooner":
        level = _half_way(a, b, pair.quantity) if pair.level is None else pair.level
        return _sooner(*(_reached(each, level, pair.quantity) for each in (a, b)))
    shared = min(a.size, b.size)
    apart = a[:shared] - b[:shared]
    if pair.day is None:
        return float(apart[np.argmax(np.abs(apart))])
    return float(np.interp(pair.day, np.arange(shared), apart))


def is_right(pair: Contrast, found: float) -> bool:
    """Return whether that is the printed direction."""
    return found < 0.0 if pair.a_is == "lower" else found > 0.0


def _middle(run: Predicted, quantity: str) -> FloatArray:
    return np.asarray(np.median(run.course(quantity), axis=0))


def _half_way(a: FloatArray, b: FloatArray, quantity: str) -> float:
    """Return the level half way to what both reach."""
    if quantity in FALLS:
        return float(0.5 * (min(a.max(), b.max()) + max(a.min(), b.min())))
    return float(0.5 * (max(a.min(), b.min()) + min(a.max(), b.max())))


def _reached(course: FloatArray, level: float, quantity: str) -> float:
    """Return the day on which a course reaches a level; endless where it does not."""
    beyond = course <= level if quantity in FALLS else course >= level
    if quantity in ENDS:
        beyond = np.logical_and.accumulate(beyond[::-1])[::-1]
    if not beyond.any():
        return math.inf
    day = int(beyond.argmax())
    if day == 0:
        return 0.0
    before, after = course[day - 1], course[day]
    return float(day - 1 + (level - before) / (after - before)) if after != before else float(day)


def _sooner(a_day: float, b_day: float) -> float:
    return 0.0 if a_day == b_day else b_day - a_day
