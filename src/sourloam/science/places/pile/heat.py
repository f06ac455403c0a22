"""A pile in time: what it burns, how warm its core and its edge are, its air, water, room and acid.

Half of the volume is the core, the half around it the edge. Decay is of the
first order in what can rot, after Haug; acid is eaten first where it is not too
warm, and slows everything while it lasts and the core is warm. All members are
followed at once; the state is one array of zones by members for each substance.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Final, NamedTuple

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.places.pile.rates import (
    HOUR_D,
    Rates,
    air_of,
    enthalpy,
    humidity,
    oxygen_pct,
    slowed,
    warmed,
)
from sourloam.science.places.pile.stuff import ACIDS_KG_PER_MOL, CARBON

CORE, EDGE = 0, 1
HALF: Final = 0.5  # of the volume is core
SIDE_CORE: Final = HALF ** (1.0 / 3.0)  # side of the core, of the side of the pile
FACES: Final = 5.5  # of a cube; the ground counts half
KG_PER_L: Final = (1.55, 2.65)  # of what burns, of ash; agnew_leonard2003
WATER_HOLDS, DRY_HOLDS = 4.19, 1.2  # to warm a kilogram by a degree; water, and dry matter as of wood
WET_AGAIN: Final = 0.55  # moisture that watering goes for; the middle of what is wanted
Spells: Final = ((12.0, 2.0), (40.0, 4.0), (100.0, 8.0), (1e9, 24.0))  # until which day by how many hours


@dataclass(frozen=True)
class Start:
    """A pile on its first day; arrays over members, kg unless a name says otherwise."""

    acid: FloatArray
    fast: FloatArray
    slow: FloatArray
    rest: FloatArray  # dry matter that stays, with its ash
    ash: FloatArray
    water: FloatArray
    carbon: FloatArray
    nitrogen: FloatArray
    fast_carbon: FloatArray  # of all that rots fast
    buffer_mol: FloatArray  # acid for a step of pH
    volume_l: FloatArray

    @property
    def members(self) -> int:
        """Return how many there are."""
        return int(self.water.size)

    def few(self, count: int) -> "Start":
        """Return the first members."""
        return Start(*(getattr(self, name)[:count] for name in self.__dataclass_fields__))

    def middle(self) -> "Start":
        """Return the one in the middle."""
        return Start(*(np.array([float(np.median(getattr(self, name)))]) for name in self.__dataclass_fields__))


class Weather(NamedTuple):
    """How warm it is outside, day by day from the first, and whether walls keep the warmth in."""

    air_c: FloatArray
    is_walled: bool = False


@dataclass
class Zones:
    """What is in core and edge now: arrays of zones by members."""

    acid: FloatArray
    fast: FloatArray
    slow: FloatArray
    rest: FloatArray
    water: FloatArray
    warm_c: FloatArray

    @property
    def dry(self) -> FloatArray:
        """Return the dry matter."""
        return np.asarray(self.acid + self.fast + self.slow + self.rest)

    def mix(self) -> None:
        """Make both alike."""
        for name in ("acid", "fast", "slow", "rest", "water", "warm_c"):
            held = getattr(self, name)
            held[:] = held.mean(axis=0)


@dataclass(frozen=True)
class Now:
    """What a keeper could see on a day, at the middle members."""

    day: float
    core_c: float
    oxygen_pct: float
    ph: float
    moisture_frac: float


Decide = Callable[[Now], tuple[bool, bool]]  # whether to turn, whether to water


@dataclass
class Course:
    """A pile through its days: arrays of times by members."""

    day: list[float] = field(default_factory=list)
    core_c: list[FloatArray] = field(default_factory=list)
    edge_c: list[FloatArray] = field(default_factory=list)
    oxygen_pct: list[FloatArray] = field(default_factory=list)
    moisture_frac: list[FloatArray] = field(default_factory=list)
    volume_l: list[FloatArray] = field(default_factory=list)
    ph: list[FloatArray] = field(default_factory=list)
    turned: list[float] = field(default_factory=list)
    watered: list[float] = field(default_factory=list)
    end: "Ends | None" = None

    def table(self, name: str) -> FloatArray:
        """Return one of its courses as times by members."""
        return np.asarray(getattr(self, name))


@dataclass(frozen=True)
class Ends:
    """Where everything went: in the pile, and lost from it; kg over members."""

    dry: FloatArray
    water: FloatArray
    carbon: FloatArray
    nitrogen: FloatArray
    lost_carbon: FloatArray
    lost_nitrogen: FloatArray
    lost_dry: FloatArray
    dried: FloatArray  # water that went off with the air
    made: FloatArray  # water that burning made
    poured: FloatArray


def follow(start: Start, rates: Rates, weather: Weather, *, days: int, decide: Decide, fine: float = 1.0) -> Course:
    """Return the course of a pile; `fine` divides the steps, for a test of them."""
    zones = _laid(start, float(weather.air_c[0]))
    paths = _paths(start, rates, weather)
    course, burnt = Course(), np.zeros((3, start.members))
    evaporated, poured = np.zeros(start.members), np.zeros(start.members)
    whole = np.maximum(start.acid + start.fast + start.slow, 1e-12)
    day = 0.0
    while day < days:
        hours = next(step for until, step in Spells if day < until) / fine
        air_c = float(np.interp(day, np.arange(weather.air_c.size), weather.air_c))
        volume = _volume_l(start, zones, rates, day)
        seen = _step(zones, rates, paths, volume=volume, air_c=air_c, hours=hours, start=start)
        burnt += seen.burnt
        evaporated += seen.evaporated
        day += hours * HOUR_D
        _kept(course, zones, seen, day=day, volume=volume)
        if abs(day - round(day)) < 1e-6:
            turn, water = decide(_now(course, zones))
            poured += _tended(zones, rates, course, air_c=air_c, turn=turn, water=water)
    course.end = _ends(start, zones, rates, burnt, whole=whole, evaporated=evaporated, poured=poured)
    return course


def _laid(start: Start, warm_c: float) -> Zones:
    acid, fast, slow, rest, water = (
        np.tile(HALF * each, (2, 1)) for each in (start.acid, start.fast, start.slow, start.rest, start.water)
    )
    return Zones(acid, fast, slow, rest, water, np.full((2, start.members), max(warm_c, 1.0)))


class _Paths(NamedTuple):
    """How warmth gets out, W/K, and through how much surface, m2; of the pile as it is laid."""

    within: FloatArray
    out: FloatArray
    surface_m2: FloatArray


def _paths(start: Start, rates: Rates, weather: Weather) -> _Paths:
    """Return the conductances from core to edge and from edge to air, of a cube that stands on the ground."""
    side = np.cbrt(start.volume_l / 1000.0)
    surface = FACES * side**2
    half_edge = side * (1.0 - SIDE_CORE) / 4.0
    core_side = SIDE_CORE * side
    wall = rates.wall_m2_k_per_w if weather.is_walled else 0.0
    within = 6.0 * core_side**2 * rates.conducts / (core_side / 4.0 + half_edge)
    out = surface / (half_edge / rates.conducts + 1.0 / rates.outside + wall)
    return _Paths(within, out, surface)


class _Seen(NamedTuple):
    """What happened in a step."""

    burnt: FloatArray  # acid, fast, slow
    evaporated: FloatArray
    oxygen_pct: FloatArray
    ph: FloatArray


def _step(
    zones: Zones, rates: Rates, paths: _Paths, *, volume: FloatArray, air_c: float, hours: float, start: Start
) -> _Seen:
    """Move the zones by some hours, in place."""
    dry, warm = zones.dry, zones.warm_c
    moisture = zones.water / (zones.water + dry)
    pores = _pores_frac(zones, start, volume)
    ph = np.clip(rates.sweet_ph - zones.acid / ACIDS_KG_PER_MOL / (HALF * start.buffer_mol), 3.4, None)
    pace = warmed(warm, rates) * slowed(moisture, pores) * rates.sour(warm, ph) * HOUR_D
    pools = np.stack((zones.acid, zones.fast, zones.slow))
    speeds = rates.per_d[:, None, :] * pace
    cubic_m = volume / 1000.0
    drawn = rates.draws * cubic_m * (pores / 0.5) ** 2 * np.maximum(warm[CORE] - air_c, 0.0)
    breathed = rates.breathes * paths.surface_m2 * (pores / 0.5) ** 2
    oxygen = oxygen_pct((pools * speeds).sum(axis=(0, 1)) * rates.oxygen_kg_per_kg, drawn + breathed)
    burnt = pools * -np.expm1(-speeds * (oxygen / (oxygen + 2.0)) * hours)
    zones.acid, zones.fast, zones.slow = pools - burnt
    heat = burnt.sum(axis=0) * rates.heat_of_burning / hours
    evaporated = _warmed_on(zones, rates, paths, heat=heat, drawn=drawn, breathed=breathed, air_c=air_c, hours=hours)
    zones.water += rates.water_kg_per_kg * burnt.sum(axis=0)
    return _Seen(burnt.sum(axis=1), evaporated, oxygen, ph[CORE])


def _warmed_on(
    zones: Zones,
    rates: Rates,
    paths: _Paths,
    *,
    heat: FloatArray,
    drawn: FloatArray,
    breathed: FloatArray,
    air_c: float,
    hours: float,
) -> FloatArray:
    """Move warmth and vapour, in place, and return the water that left; conduction is implicit."""
    core, edge = zones.warm_c[CORE].copy(), zones.warm_c[EDGE].copy()
    holds = WATER_HOLDS * zones.water + DRY_HOLDS * zones.dry
    wet = np.clip(zones.water / (zones.water + zones.dry) / 0.2, 0.0, 1.0)  # dry pores are not full of vapour
    air = air_of(air_c, rates.humid_frac)
    damp_core, damp_edge = wet[CORE] * humidity(core), wet[EDGE] * humidity(edge)
    by_edge = (drawn + breathed) * (enthalpy(edge, damp_edge) - air.enthalpy)
    by_core = drawn * (enthalpy(core, damp_core) - enthalpy(edge, damp_edge))
    within, out = 3.6 * paths.within, 3.6 * paths.out  # kJ in an hour, for a degree
    steep_core = drawn * (enthalpy(core + 1.0, wet[CORE] * humidity(core + 1.0)) - enthalpy(core, damp_core))
    steep_edge = (drawn + breathed) * (
        enthalpy(edge + 1.0, wet[EDGE] * humidity(edge + 1.0)) - enthalpy(edge, damp_edge)
    )
    a11 = holds[CORE] / hours + within + steep_core
    a22 = holds[EDGE] / hours + within + out + steep_edge
    b1 = holds[CORE] / hours * core + heat[CORE] - by_core + steep_core * core
    b2 = holds[EDGE] / hours * edge + heat[EDGE] - by_edge + steep_edge * edge + out * air_c
    det = a11 * a22 - within**2
    zones.warm_c[CORE] = (b1 * a22 + within * b2) / det
    zones.warm_c[EDGE] = (a11 * b2 + within * b1) / det
    dries = np.stack((drawn * (damp_core - damp_edge), (drawn + breathed) * (damp_edge - air.humidity))) * hours
    dries = np.minimum(dries, 0.5 * zones.water)
    zones.water -= dries
    return np.asarray(dries.sum(axis=0))


def _pores_frac(zones: Zones, start: Start, volume: FloatArray) -> FloatArray:
    """Return the part of the pile that is air."""
    burns = zones.dry.sum(axis=0) - start.ash
    filled = burns / KG_PER_L[0] + start.ash / KG_PER_L[1] + zones.water.sum(axis=0)
    return np.asarray(np.clip(1.0 - filled / volume, 0.02, 0.95))


def _volume_l(start: Start, zones: Zones, rates: Rates, day: float) -> FloatArray:
    """Return its room: it shrinks with its dry matter, and settles."""
    first = start.acid + start.fast + start.slow + start.rest
    settled = 1.0 - rates.settles_frac * -np.expm1(-day / rates.settles_d)
    return np.asarray(start.volume_l * settled * zones.dry.sum(axis=0) / first)


def _kept(course: Course, zones: Zones, seen: _Seen, *, day: float, volume: FloatArray) -> None:
    course.day.append(day)
    course.core_c.append(zones.warm_c[CORE].copy())
    course.edge_c.append(zones.warm_c[EDGE].copy())
    course.oxygen_pct.append(seen.oxygen_pct)
    water = zones.water.sum(axis=0)
    course.moisture_frac.append(water / (water + zones.dry.sum(axis=0)))
    course.volume_l.append(volume)
    course.ph.append(seen.ph)


def _now(course: Course, zones: Zones) -> Now:
    return Now(
        round(course.day[-1], 6),
        *(float(np.median(each[-1])) for each in (course.core_c, course.oxygen_pct, course.ph, course.moisture_frac)),
    )


def _tended(zones: Zones, rates: Rates, course: Course, *, air_c: float, turn: bool, water: bool) -> FloatArray:
    """Turn and water, in place; return the water that was poured."""
    poured = np.zeros(zones.water.shape[1])
    if turn:
        zones.mix()
        zones.warm_c -= rates.turning_frac * np.maximum(zones.warm_c - air_c, 0.0)
        course.turned.append(round(course.day[-1], 6))
    if water:
        wanted = zones.dry * WET_AGAIN / (1.0 - WET_AGAIN)
        added = np.maximum(wanted - zones.water, 0.0)
        zones.water += added
        poured = added.sum(axis=0)
        course.watered.append(round(course.day[-1], 6))
    return poured


def _ends(
    start: Start,
    zones: Zones,
    rates: Rates,
    burnt: FloatArray,
    *,
    whole: FloatArray,
    evaporated: FloatArray,
    poured: FloatArray,
) -> Ends:
    """Return what is left and what is gone."""
    per_kg = (CARBON["acid"], start.fast_carbon / np.maximum(start.fast, 1e-12), CARBON["slow"])
    gone = sum((each * part for each, part in zip(burnt, per_kg, strict=True)), np.zeros(start.members))
    lost = rates.nitrogen_lost(start.carbon, start.nitrogen) * start.nitrogen * burnt.sum(axis=0) / whole
    return Ends(
        dry=zones.dry.sum(axis=0),
        water=zones.water.sum(axis=0),
        carbon=start.carbon - gone,
        nitrogen=start.nitrogen - lost,
        lost_carbon=gone,
        lost_nitrogen=lost,
        lost_dry=burnt.sum(axis=0),
        dried=evaporated,
        made=rates.water_kg_per_kg * burnt.sum(axis=0),
        poured=poured,
    )


def by_calendar(turned: Sequence[float], watered: Sequence[float]) -> Decide:
    """Return a keeper who turns and waters on set days."""
    turns, waters = {round(each) for each in turned}, {round(each) for each in watered}
    return lambda now: (round(now.day) in turns, round(now.day) in waters)


def by_eye(rates: Rates, *, most_turns: int = 8) -> Decide:
    """Return a keeper who turns when it is too hot, airless, sour and warm, or past its height, and waters when dry."""
    seen = {"last": 0.0, "height": 0.0, "turns": 0.0}
    dry_frac = float(np.median(rates.watered_frac))

    def decide(now: Now) -> tuple[bool, bool]:
        seen["height"] = max(seen["height"], now.core_c)
        is_due = now.day - seen["last"] >= 3.0 and seen["turns"] < most_turns
        is_fading = seen["height"] >= 45.0 and now.core_c < seen["height"] - 8.0
        is_sour = now.ph < 6.0 and now.core_c > 40.0
        turn = is_due and (now.core_c > 65.0 or now.oxygen_pct < 5.0 or is_fading or is_sour)
        if turn:
            seen.update(last=now.day, height=0.0, turns=seen["turns"] + 1.0)
        return turn, now.moisture_frac < dry_frac

    return decide


def left_alone(_: Now) -> tuple[bool, bool]:
    """Do nothing."""
    return False, False


def calendar_of(start: Start, rates: Rates, weather: Weather, days: int) -> tuple[list[float], list[float]]:
    """Return when to turn and to water, by what the one in the middle would be seen to need."""
    course = follow(start.middle(), rates.middle(), weather, days=days, decide=by_eye(rates))
    return course.turned, course.watered
