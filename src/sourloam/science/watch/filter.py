"""The particle filter: weigh all members by what was read; where few are left, move them near and weigh again.

Weights are those of importance sampling, over the whole past of a member, so
that the order in which readings come does not matter.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from sourloam.base.figure import SEED
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.draw import draw
from sourloam.science.ferment.ensemble.filling import Filling
from sourloam.science.ferment.ensemble.follow import Followed, Told, days_of, follow
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.stack.life import Run, Starts
from sourloam.science.readings.kinds import Reading
from sourloam.science.readings.signs import Signs
from sourloam.science.watch.conditions import Courses, courses_of
from sourloam.science.watch.faults import Fault, Faults, faults_of, with_faults
from sourloam.science.watch.levers import moved, scores_of
from sourloam.science.watch.likelihood import Against, Heard, heard
from sourloam.science.watch.parameters import WatchParameters

LEAST_EFFECTIVE: Final = 50.0  # members that count: with fewer, nothing is known
OF_MEMBERS: Final = 1.0 / 12.0  # the same for ensembles of less than 600
MOVE_BELOW: Final = 0.25  # of the members that count: with fewer, they are moved
MOST_MOVES, MOVE_AGAIN_BELOW = 2, 0.12
FAR_OFF, FAR_OFF_EACH = 4.0, 2.0  # of logarithmic likelihood under the best that could be: no member is near; judgement


@dataclass(frozen=True)
class Ensemble:
    """A filling with its members, faulty ones among them, and what becomes of each."""

    filling: Filling
    before: Living  # as it is known before any reading
    living: Living
    faults: Faults
    log_move: FloatArray
    followed: Followed
    courses: Courses
    known: WatchParameters

    @property
    def members(self) -> int:
        """Return how many there are."""
        return self.faults.of.size

    @property
    def log_prior(self) -> FloatArray:
        """Return what each member counts before anything was read, as a logarithm that is not normed."""
        return self.faults.log_prior + self.log_move

    def starts_of(self, filling: Filling) -> Starts:
        """Return the same members of another filling as they begin."""
        return with_faults(draw(filling, self.living), self.faults, self.known)


@dataclass(frozen=True)
class Weighed:
    """An ensemble, what was read, and what each member counts after it."""

    ensemble: Ensemble
    signs: Signs
    heard: tuple[Heard, ...]
    weights: FloatArray
    far: float  # how far the nearest member is from the best that could be

    @property
    def effective(self) -> float:
        """Return how many members count."""
        return float(1.0 / np.sum(self.weights**2))

    @property
    def is_known(self) -> bool:
        """Whether members are near to what was read."""
        enough = min(LEAST_EFFECTIVE, OF_MEMBERS * self.ensemble.members)
        return self.effective >= enough and self.far <= FAR_OFF + FAR_OFF_EACH * len(self.heard)

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Return all that was read, by day."""
        each = (reading for group in self.heard for reading in group.readings)
        return tuple(sorted(each, key=lambda reading: (reading.day, reading.typed)))


@dataclass(frozen=True)
class Means:
    """With what members are followed."""

    known: WatchParameters
    compiler: Callable[[], Run] | None = None
    told: Told | None = None
    seed: int = SEED


def ensemble_of(
    filling: Filling, living: Living, means: Means, *, before: Living | None = None, faults: Faults | None = None
) -> Ensemble:
    """Return the members of a filling, followed to its last day."""
    carried = faults or faults_of(living.members, means.known)
    starts = with_faults(draw(filling, living), carried, means.known)
    followed = follow(starts, days_of(filling), compiler=means.compiler, told=means.told)
    courses = courses_of(followed, living, floor_m2=filling.kept.floor_m2, room_c=np.asarray(filling.kept.room_c))
    return Ensemble(
        filling, before or living, living, carried, np.zeros(living.members), followed, courses, means.known
    )


def weigh(ensemble: Ensemble, readings: Sequence[Reading], signs: Signs) -> Weighed:
    """Return what each member counts after the readings."""
    against = Against(ensemble.courses, ensemble.faults, signs, ensemble.known)
    groups = heard(readings, against)
    total = np.sum([each.log for each in groups], axis=0) if groups else np.zeros(ensemble.members)
    best = sum(float(each.log.max()) for each in groups)
    return Weighed(ensemble, signs, groups, normed(ensemble.log_prior + total), best - float(np.max(total)))


def normed(logs: FloatArray) -> FloatArray:
    """Return weights that sum to one."""
    weights = np.exp(logs - logs.max())
    return np.asarray(weights / weights.sum())


def watch(filling: Filling, living: Living, readings: Sequence[Reading], signs: Signs, *, means: Means) -> Weighed:
    """Return the members of a filling weighed by readings; moved where few of them count."""
    first = weigh(ensemble_of(filling, living, means), readings, signs)
    if not readings or first.effective >= MOVE_BELOW * living.members:
        return first
    best = first
    for at in range(MOST_MOVES):
        again = weigh(_moved(best, replace(means, seed=means.seed + at)), readings, signs)
        best = again if again.effective > best.effective else best
        if best.effective >= MOVE_AGAIN_BELOW * living.members:
            break
    return best


def _moved(weighed: Weighed, means: Means) -> Ensemble:
    """Return new members near to what was read: levers by their spread, faults by their chance."""
    ensemble = weighed.ensemble
    step = moved(ensemble.before, scores_of(ensemble.living, ensemble.before), _tempered(weighed), seed=means.seed)
    found = np.bincount(ensemble.faults.of, weights=weighed.weights, minlength=len(Fault))
    usual = np.bincount(ensemble.faults.of, minlength=len(Fault)) / ensemble.members
    faults = faults_of(ensemble.members, means.known, 0.5 * found + 0.5 * usual)
    new = ensemble_of(ensemble.filling, step.living, means, before=ensemble.before, faults=faults)
    return Ensemble(new.filling, new.before, new.living, faults, step.log_weight, new.followed, new.courses, new.known)


def _tempered(weighed: Weighed) -> FloatArray:
    """Return weights that are evened out until enough members count, to learn a spread from them."""
    weights = weighed.weights
    for _ in range(8):
        if 1.0 / np.sum(weights**2) >= min(LEAST_EFFECTIVE, OF_MEMBERS * weights.size):
            break
        weights = np.sqrt(weights)
        weights = weights / weights.sum()
    return np.asarray(weights)


def resampled(weights: FloatArray, count: int, *, seed: int) -> np.ndarray:
    """Return the places of members, each about as often as it counts: systematic, from one seeded start."""
    chance = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(2,)))
    steps = (np.arange(count) + chance.random()) / count
    return np.searchsorted(np.cumsum(weights), steps * (1.0 - 1e-12), side="right").clip(0, weights.size - 1)
