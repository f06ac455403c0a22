"""What to look at next: the cheapest observation that would narrow the answer most.

The gain is the information, in bits, that an observation is expected to give
of the state of the vessel and of when it is ready.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.readings.kinds import Reading, Where
from sourloam.science.watch.filter import Weighed
from sourloam.science.watch.likelihood import at_day, fizzes_frac, ph_at, topics

# Of these smells one is the strongest.
EXCLUSIVE: Final = ("pickle", "vinegar", "yeast", "rancid", "putrid", "ammonia", "musty", "fresh")
GROWTHS: Final = ("white", "specks", "blue", "black", "clean")
PH_EDGES: Final = (3.75, 4.25, 4.75, 5.25, 5.75)
LITRE_EDGES: Final = (0.05, 0.2, 0.5, 1.0, 2.0)
WARM_EDGES: Final = (-3.0, 3.0)
NEAR: Final = 0.75  # of the best gain: a cheaper one that gives so much goes first; judgement
LITTLE_BITS: Final = 0.03


@dataclass(frozen=True)
class Look:
    """An observation, what it costs, and what it would narrow."""

    id: str
    topic: str
    minutes: float
    buys: bool  # whether it needs something that a kitchen has not
    gain_bits: float


def looks(weighed: Weighed, day: int, ready_d: FloatArray) -> tuple[Look, ...]:
    """Return the observations that are worth making, the one to make first in front."""
    target = _target(weighed, day, ready_d)
    read = topics(each for each in weighed.readings if day - each.day < 1.0)
    found = [
        Look(name, topic, minutes, buys, _gain(chances, target, weighed.weights))
        for name, topic, minutes, buys, chances in _candidates(weighed, day)
        if topic not in read
    ]
    worth = sorted((each for each in found if each.gain_bits >= LITTLE_BITS), key=lambda each: -each.gain_bits)
    if not worth:
        return ()
    near = [each for each in worth if each.gain_bits >= NEAR * worth[0].gain_bits]
    first = min(near, key=lambda each: (each.buys, each.minutes, -each.gain_bits))
    return (first, *(each for each in worth if each is not first))


def _target(weighed: Weighed, day: int, ready_d: FloatArray) -> FloatArray:
    """Return what is wanted of each member, as a number: its state, and a third of the days to ready."""
    courses = weighed.ensemble.courses
    condition = courses.condition[:, min(day, courses.last_d)]
    order = np.argsort(ready_d, kind="stable")
    below = np.empty(ready_d.size)
    below[order] = np.cumsum(weighed.weights[order])
    third = np.where(np.isinf(ready_d), 3, np.minimum((3.0 * below).astype(int), 2))
    return np.asarray(condition * 4 + third, dtype=float)


def _gain(chances: FloatArray, target: FloatArray, weights: FloatArray) -> float:
    """Return the mutual information of an observation, (members, outcomes), and what is wanted."""
    kinds = np.unique(target)
    joint = np.stack([(weights * (target == each)) @ chances for each in kinds])
    apart = joint.sum(axis=1, keepdims=True) * joint.sum(axis=0, keepdims=True)
    told = joint > 0.0
    return float(np.sum(joint[told] * np.log2(joint[told] / apart[told])))


def _candidates(weighed: Weighed, day: int) -> Iterator[tuple[str, str, float, bool, FloatArray]]:
    """Give each observation: name, topic, minutes, whether it must be bought, and its chances by member."""
    ensemble, signs = weighed.ensemble, weighed.signs
    courses, known = ensemble.courses, ensemble.known
    column = courses.column[:, min(day, courses.last_d)]

    def table(names: Sequence[str]) -> FloatArray:
        chances = np.array([signs.by_id[each].chances for each in names]).T[column]
        return np.asarray(chances / chances.sum(axis=1, keepdims=True))

    yield "smell", "smell", 1.0, False, table(EXCLUSIVE)
    yield "growth", "growth", 1.0, False, table(GROWTHS)
    yield "lid", "lid", 0.5, False, table(("droplets", "dry lid"))
    yield "texture", "texture", 2.0, False, table(("firm", "slimy", "parched"))
    yield "leachate", "leachate", 2.0, False, table(("amber", "milky", "foul"))
    spread = float(np.sqrt(known.box_ph.value**2 + known.strip_ph.value**2 + known.model_ph.value**2))
    for where, minutes in ((Where.LEACHATE, 2.0), (Where.CORE, 5.0)):
        yield f"strip {where.value}", "strip", minutes, True, _binned(ph_at(courses, day, where), spread, PH_EDGES)
    fizz = fizzes_frac(courses.core_ph[:, min(day, courses.last_d)], known)
    yield "fizz", "fizz", 4.0, False, np.stack([fizz, 1.0 - fizz], axis=1)
    liquid = np.log(at_day(courses.liquid_l, day) + known.liquid_l.value)
    yield "liquid", "liquid", 3.0, False, _binned(liquid, known.liquid_times.value, tuple(np.log(LITRE_EDGES)))
    warmer = at_day(courses.core_c - ensemble.filling.kept.room_c[min(day, len(ensemble.filling.kept.room_c) - 1)], day)
    yield "thermometer", "thermometer", 3.0, True, _binned(warmer, known.warmth_k.value, WARM_EDGES)


def _binned(values: FloatArray, spread: float, edges: Sequence[float]) -> FloatArray:
    """Return the chance of each bin between edges, for a reading that is spread about a value."""
    below = 1.0 / (
        1.0 + np.exp(-1.702 * (np.asarray(edges)[None, :] - values[:, None]) / spread)
    )  # near to a normal one
    whole = np.concatenate([np.zeros((values.size, 1)), below, np.ones((values.size, 1))], axis=1)
    return np.maximum(np.diff(whole, axis=1), 1e-12)


def unread(readings: Sequence[Reading]) -> tuple[str, ...]:
    """Return the senses that have not been used at all: the cheap ones, most telling first."""
    read = topics(readings)
    return tuple(each for each in ("smell", "growth", "strip", "lid", "leachate") if not read[each])
