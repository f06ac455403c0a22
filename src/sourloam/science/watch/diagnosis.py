"""What a vessel is, and how sure that is: the share of all members in each state, counted by what was read."""

from collections.abc import Iterator
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.figure import SEED, Figure, Law
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.science.readings.kinds import Fizz, Liquid, Seen, Strip, Thermometer, Weight
from sourloam.science.readings.signs import Column, Sign
from sourloam.science.watch.conditions import CONDITIONS, Condition
from sourloam.science.watch.faults import Fault
from sourloam.science.watch.filter import Weighed, normed
from sourloam.science.watch.likelihood import Against, Heard, heard

TABLES: Final = 60  # tables of signs that are as likely as the one that is used
SPEAKS_FROM: Final = 1.5  # times as likely with it as without: less is no reason
MODEL: Final = "members of the model of a vessel, counted by the readings (science/watch)"
WORDS: Final = MappingProxyType(
    {
        Condition.SOUND: "chance that it is sound",
        Condition.YEASTY: "chance that it is yeasty",
        Condition.PUTRID: "chance that it is putrid",
        Condition.MOULDY: "chance that it is mouldy",
        Condition.STUCK: "chance that it is stuck",
        Condition.DROWNED: "chance that it is drowned",
    }
)
COLUMN_WORDS: Final = MappingProxyType(
    {
        Column.SOUND: "sound",
        Column.SHARP: "sharp or a little yeasty",
        Column.ROTTEN: "rotten",
        Column.MOULDY: "mouldy",
        Column.STILL: "not sour",
        Column.DROWNED: "drowned",
    }
)


@dataclass(frozen=True)
class Reason:
    """A reading that speaks for a state: how many times as likely it is in one as in all others."""

    heard: Heard
    times: float


@dataclass(frozen=True)
class Diagnosis:
    """One state, how likely it is, and why."""

    condition: Condition
    chance: Figure
    because: tuple[Reason, ...]


def diagnosis(weighed: Weighed, day: int, *, seed: int = SEED) -> tuple[Diagnosis, ...]:
    """Return all states on a day, the likeliest first."""
    at = weighed.ensemble.courses.condition[:, min(day, weighed.ensemble.courses.last_d)]
    shares = _shares(at, weighed.weights)
    tables = np.stack([_shares(at, each) for each in _other_tables(weighed, seed)])
    inputs = tuple(_inputs(weighed))
    rule = Law("cases that are so, of all cases, each counted by how well it fits what was read", "1", model=MODEL)
    prior = normed(weighed.ensemble.log_prior)
    found = [
        Diagnosis(
            condition,
            Figure(
                f"chance_{condition.value}",
                "1",
                tables[:, place],
                WORDS[condition],
                basis=Basis.DERIVED,
                law=rule,
                inputs=inputs,
                at_medians=float(shares[place]),
            ),
            tuple(_reasons(weighed, at == place, prior)),
        )
        for place, condition in enumerate(CONDITIONS)
    ]
    return tuple(sorted(found, key=lambda each: -each.chance.value))


def fault_chances(weighed: Weighed) -> dict[Fault, float]:
    """Return how likely each fault is."""
    counted = np.bincount(weighed.ensemble.faults.of, weights=weighed.weights, minlength=len(Fault))
    return {each: float(counted[each]) for each in Fault}


def chance_amiss(weighed: Weighed, day: int) -> float:
    """Return the chance that a vessel is not sound on a day, or carries a fault that will show."""
    courses = weighed.ensemble.courses
    is_amiss = (courses.condition[:, min(day, courses.last_d)] > 0) | (courses.condition[:, -1] > 0)
    is_amiss &= (weighed.ensemble.faults.of > 0) | (courses.condition[:, min(day, courses.last_d)] > 0)
    return float(weighed.weights[is_amiss].sum())


def _shares(at: NDArray[np.int64], weights: FloatArray) -> FloatArray:
    return np.bincount(at, weights=weights, minlength=len(CONDITIONS)).astype(float)


def _other_tables(weighed: Weighed, seed: int) -> Iterator[FloatArray]:
    """Give the weights under tables of signs as they may as well be."""
    ensemble = weighed.ensemble
    readings = weighed.readings
    for at in range(TABLES):
        against = Against(ensemble.courses, ensemble.faults, weighed.signs.drawn(seed + at), ensemble.known)
        groups = heard(readings, against)
        yield normed(ensemble.log_prior + sum((each.log for each in groups), np.zeros(ensemble.members)))


def _reasons(weighed: Weighed, is_so: NDArray[np.bool_], prior: FloatArray) -> Iterator[Reason]:
    """Give what speaks for a state, the strongest first."""
    with_it, without = prior * is_so, prior * ~is_so
    if with_it.sum() <= 0.0 or without.sum() <= 0.0:
        return
    found = []
    for each in weighed.heard:
        likely = np.exp(each.log - each.log.max())
        a, b = float(with_it @ likely) / with_it.sum(), float(without @ likely) / without.sum()
        found.append(Reason(each, a / max(b, 1e-300)))
    yield from sorted((each for each in found if each.times >= SPEAKS_FROM), key=lambda each: -each.times)


def _inputs(weighed: Weighed) -> Iterator[tuple[str, Figure]]:
    """Give what the chances rest on: how often each sign is seen, and how far each instrument is off."""
    known = weighed.ensemble.known
    seen = [reading for each in weighed.heard for reading in each.readings[:1]]
    for reading in seen:
        if isinstance(reading, Seen):
            yield from _sign_figures(weighed.signs.by_id[reading.sign])
    for kinds, names in (
        (Strip, ("box_ph", "strip_ph", "model_ph")),
        (Fizz, ("fizz_ph", "fizz_sd", "fizz_slip_frac")),
        (Thermometer, ("warmth_k",)),
        (Liquid, ("liquid_times",)),
        (Weight, ("weight_times",)),
    ):
        if any(isinstance(each, kinds) for each in seen):
            yield from ((name, getattr(known, name)) for name in names)
    for fault in list(Fault)[1:]:
        name = f"{fault.name.lower()}_frac"
        yield name, getattr(known, name)


def _sign_figures(sign: Sign) -> Iterator[tuple[str, Figure]]:
    chance = np.random.default_rng(SEED)
    for column, held, weighs in zip(Column, sign.chances, sign.weighs, strict=True):
        drawn = chance.beta(weighs * held, weighs * (1.0 - held), TABLES)
        name = f"sign.{sign.id}.{column.name.lower()}".replace(" ", "_")
        words = f"{sign.words}: part of {COLUMN_WORDS[column]} vessels that show it"
        yield name, Figure(name, "1", drawn, words, sign.source, sign.place, sign.basis, at_medians=held)
