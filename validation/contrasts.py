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
    """Return in what part of the members run a is above run b, or sooner, less the part in which it is the other way.

    A member is one draw of everything that both runs share. Where no day is
    given, it is that on which the middle members differ most.
    """
    a, b = (runs[f"{pair.study}/{name}"].course(pair.quantity) for name in (pair.run_a, pair.run_b))
    shared = min(a.shape[1], b.shape[1])
    a, b = a[:, :shared], b[:, :shared]
    if pair.a_is == "sooner":
        middles = (np.median(each, axis=0) for each in (a, b))
        level = _half_way(*middles, pair.quantity) if pair.level is None else pair.level
        a_day, b_day = (np.array([_reached(each, level, pair.quantity) for each in run]) for run in (a, b))
        return _more(b_day, a_day)
    day = pair.day
    if day is None:
        day = float(np.argmax(np.abs(np.median(a, axis=0) - np.median(b, axis=0))))
    return _more(*(np.array([np.interp(day, np.arange(shared), each) for each in run]) for run in (a, b)))


def is_right(pair: Contrast, found: float) -> bool:
    """Return whether that is the printed direction."""
    return found < 0.0 if pair.a_is == "lower" else found > 0.0


def _more(a: FloatArray, b: FloatArray) -> float:
    """Return the part of the members in which a is more than b, less that in which it is less."""
    return float(np.mean(a > b) - np.mean(a < b))


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
