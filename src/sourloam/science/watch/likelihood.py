"""How likely each reading is under each member of the ensemble, given what its vessel is like on that day."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import singledispatch
from math import erf
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray
from sourloam.science.readings.kinds import Bran, Caddy, Fizz, Liquid, Reading, Seen, Strip, Thermometer, Weight, Where
from sourloam.science.readings.signs import Signs, seen_times
from sourloam.science.watch.conditions import Courses
from sourloam.science.watch.faults import Fault, Faults
from sourloam.science.watch.parameters import WatchParameters

STUDENT: Final = 4.0  # degrees of freedom of what may be off by more than usual: volumes and weights; judgement
LEAST: Final = 1e-12


@dataclass(frozen=True)
class Against:
    """What readings are held against."""

    courses: Courses
    faults: Faults
    signs: Signs
    known: WatchParameters


@dataclass(frozen=True)
class Heard:
    """Readings that are weighed together, and the logarithm of their likelihood under each member."""

    readings: tuple[Reading, ...]
    log: FloatArray

    @property
    def topic(self) -> str:
        """Return what they are readings of."""
        return self.readings[0].topic


def heard(readings: Iterable[Reading], against: Against) -> tuple[Heard, ...]:
    """Return all readings with their likelihoods: strips of one box together, and the same sign seen again."""
    groups: dict[tuple[str, ...], list[Reading]] = {}
    for each in sorted(readings, key=lambda reading: (reading.day, reading.typed)):
        groups.setdefault(_together(each), []).append(each)
    return tuple(Heard(tuple(each), _log(each, against)) for each in groups.values())


def _together(reading: Reading) -> tuple[str, ...]:
    if isinstance(reading, Strip):
        return ("strip", reading.box, str(reading.is_meter))
    if isinstance(reading, Seen):
        return ("sign", reading.sign)
    if isinstance(reading, Liquid):
        return ("liquid",)
    return (reading.topic, f"{reading.day:g}", reading.typed)


def _log(readings: Sequence[Reading], against: Against) -> FloatArray:
    first = readings[0]
    if isinstance(first, Strip):
        return _log_strips([each for each in readings if isinstance(each, Strip)], against)
    if isinstance(first, Seen):
        return _log_seen([each for each in readings if isinstance(each, Seen)], against)
    if isinstance(first, Liquid):
        return _log_liquid([each for each in readings if isinstance(each, Liquid)], against)
    return log_of(first, against)


def at_day(values: FloatArray, day: float) -> FloatArray:
    """Return a course on a day, between the ends of two days in a straight line."""
    last = values.shape[1] - 1
    held = min(max(day, 0.0), float(last))
    before = int(held)
    after, part = min(before + 1, last), held - before
    return np.asarray((1.0 - part) * values[:, before] + part * values[:, after])


def ph_at(courses: Courses, day: float, where: Where) -> FloatArray:
    """Return the pH that a strip would meet."""
    values = {Where.LEACHATE: courses.liquid_ph, Where.TOP: courses.top_ph}.get(where, courses.core_ph)
    return at_day(values, day)


def _log_strips(strips: Sequence[Strip], against: Against) -> FloatArray:
    """Return the likelihood of all strips of a box: they share what the box and the model are off by.

    With residuals r, own variance s² and shared variance b², and n of them,
    r'(s² I + b² 11')⁻¹ r = (Σr² − b² (Σr)² ÷ (s² + n b²)) ÷ s².
    """
    known, count = against.known, len(strips)
    own = (known.meter_ph if strips[0].is_meter else known.strip_ph).value ** 2
    box = 0.0 if strips[0].is_meter else known.box_ph.value**2
    shared = box + known.model_ph.value**2
    off = np.stack([each.ph - ph_at(against.courses, each.day, each.where) for each in strips])
    total = off.sum(axis=0)
    square = (np.sum(off**2, axis=0) - shared * total**2 / (own + count * shared)) / own
    size = (count - 1) * np.log(own) + np.log(own + count * shared)
    return np.asarray(-0.5 * (square + size + count * np.log(2.0 * np.pi)))


def _log_seen(seen: Sequence[Seen], against: Against) -> FloatArray:
    """Return the likelihood of a sign that was seen once or more: by how often it was in each column."""
    sign = against.signs.by_id[seen[0].sign]
    columns = np.stack([_column(against.courses, each.day) for each in seen])
    times = np.stack([(columns == at).sum(axis=0) for at in range(len(sign.chances))], axis=1).astype(float)
    return np.asarray(np.log(np.prod(seen_times(sign, times), axis=1) + LEAST))


def _column(courses: Courses, day: float) -> NDArray[np.int64]:
    return courses.column[:, min(round(day), courses.last_d)]


def _log_liquid(drawn: Sequence[Liquid], against: Against) -> FloatArray:
    """Return the likelihood of volumes: each is what came since the one before."""
    known, courses = against.known, against.courses
    total, before = np.zeros(courses.column.shape[0]), np.zeros(courses.column.shape[0])
    spread = known.liquid_times.value
    for each in drawn:
        so_far = at_day(courses.liquid_l, each.day)
        came = np.maximum(so_far - before, 0.0) + known.liquid_l.value
        off = (np.log(each.litres + known.liquid_l.value) - np.log(came)) / spread
        total = total + _student(off) - np.log(spread)
        before = so_far
    return np.asarray(total)


def _student(off: FloatArray) -> FloatArray:
    return np.asarray(-0.5 * (STUDENT + 1.0) * np.log1p(off**2 / STUDENT))


@singledispatch
def log_of(reading: Reading, against: Against) -> FloatArray:
    """Return the logarithm of the likelihood of one reading under each member. Raises TypeError where it has none."""
    raise TypeError(f"{type(reading).__name__} has no likelihood")


@log_of.register
def _fizz(reading: Fizz, against: Against) -> FloatArray:
    chance = fizzes_frac(ph_at(against.courses, reading.day, reading.where), against.known)
    return np.asarray(np.log(chance if reading.fizzes else 1.0 - chance))


def fizzes_frac(ph: FloatArray, known: WatchParameters) -> FloatArray:
    """Return the chance that soda fizzes at a pH."""
    slip = known.fizz_slip_frac.value
    spread = np.hypot(known.fizz_sd.value, known.model_ph.value)
    return np.asarray(slip + (1.0 - 2.0 * slip) * _normal_below((known.fizz_ph.value - ph) / spread))


def _normal_below(z: FloatArray) -> FloatArray:
    return np.asarray(0.5 * (1.0 + np.vectorize(erf)(np.asarray(z) / np.sqrt(2.0))))


@log_of.register
def _thermometer(reading: Thermometer, against: Against) -> FloatArray:
    courses, spread = against.courses, against.known.warmth_k.value
    there = courses.room_c if reading.where is Where.ROOM else courses.core_c
    off = (reading.celsius - at_day(there, reading.day)) / spread
    return np.asarray(_student(off) - np.log(spread))


@log_of.register
def _weight(reading: Weight, against: Against) -> FloatArray:
    spread = against.known.weight_times.value
    off = np.log(reading.mass_kg / at_day(against.courses.mass_kg, reading.day)) / spread
    return np.asarray(_student(off) - np.log(spread))


@log_of.register
def _caddy(reading: Caddy, against: Against) -> FloatArray:
    """What lay long is so many times as often spoiled; what did not, as much less."""
    times = against.known.caddy_times.value
    is_long = reading.caddy_d >= against.known.caddy_d.value
    is_spoiled = against.faults.of == Fault.SPOILED
    return np.where(is_spoiled, np.log(times if is_long else 1.0 / times), 0.0)


@log_of.register
def _bran(reading: Bran, against: Against) -> FloatArray:
    """Where bran was left out, or was old, dead bran is so many times as likely."""
    times = against.known.no_bran_times if reading.was_none else against.known.old_bran_times
    return np.where(against.faults.of == Fault.DEAD, np.log(times.value), 0.0)


def topics(readings: Iterable[Reading]) -> Counter[str]:
    """Return how often each thing was read."""
    return Counter(each.topic for each in readings)
