"""Readings that contradict each other: by the table of signs, how seldom they are seen together.

The measure is that of jensen1990: the chance of both, were they independent,
over the chance of both. Where it is large, no one condition explains the two.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from sourloam.science.readings.kinds import Fizz, Reading, Seen, Strip
from sourloam.science.readings.signs import PRIORS, Signs

AT_LEAST: Final = 3.0  # times as seldom; judgement
WITHIN_D: Final = 5.0  # days: a vessel may change in more
LOW_PH, HIGH_PH = 4.25, 5.0


@dataclass(frozen=True)
class Conflict:
    """Two readings that do not go together."""

    one: Reading
    other: Reading
    times: float


def conflicts(readings: Iterable[Reading], signs: Signs) -> tuple[Conflict, ...]:
    """Return pairs that contradict each other, the worst first."""
    telling = [(each, sign) for each in readings for sign in [table_sign(each)] if sign]
    found = []
    for (one, a), (other, b) in combinations(telling, 2):
        if a == b or abs(one.day - other.day) > WITHIN_D or _is_same_scale(one, other):
            continue
        times = conflict_times(a, b, signs)
        if times >= AT_LEAST:
            found.append(Conflict(one, other, times))
    return tuple(sorted(found, key=lambda each: -each.times))


def _is_same_scale(one: Reading, other: Reading) -> bool:
    """Whether two readings are pH from different places: layers may differ."""
    ph = (Strip, Fizz)
    return isinstance(one, ph) and isinstance(other, ph)


def conflict_times(one: str, other: str, signs: Signs) -> float:
    """Return how much more seldom two signs are seen together than if they had nothing to do with each other."""
    priors = np.array(PRIORS)
    a, b = (np.array(signs.by_id[each].chances) for each in (one, other))
    return float((priors @ a) * (priors @ b) / (priors @ (a * b)))


def table_sign(reading: Reading) -> str:
    """Return the row of the table of signs that a reading falls into, or nothing."""
    if isinstance(reading, Seen):
        return reading.sign
    if isinstance(reading, Strip):
        return _row(reading.ph)
    if isinstance(reading, Fizz):
        return "" if reading.fizzes else "high"
    return ""


def _row(ph: float) -> str:
    if ph < LOW_PH:
        return "low"
    return "middle" if ph <= HIGH_PH else "high"


def red_flags(readings: Sequence[Reading], signs: Signs) -> tuple[Seen, ...]:
    """Return the readings of which a single one is enough to stop: ammonia, rot, black or red fur."""
    return tuple(each for each in readings if isinstance(each, Seen) and signs.by_id[each.sign].is_red)
