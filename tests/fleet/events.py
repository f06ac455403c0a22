"""A life of vessels written once more with a general library of events in time, from what a keeper does alone.

Each vessel is a process that waits to be filled, to be ready, to be fetched; the day is divided so that scraps come in
the morning, vessels are fetched at noon and loaded in the evening. It counts litres only.
"""

import math
from dataclasses import dataclass, field

import simpy

TICK, NOON, EVENING = 0.1, 0.2, 0.3  # of a day


@dataclass
class Yard:
    """One household with equal vessels that a taker fetches whole on some days."""

    loose_l: list[float]  # of each day
    room_l: float
    count: int
    pressed_per_loose: float
    settles_frac: float
    settling_d: float
    pace: float
    ready_d: float
    steps: list[float]  # how many times the usual each batch takes, in the order in which they are sealed
    least_d: float
    fetch_days: frozenset[int]  # of the week, the first day of all being 0
    every_d: int
    holding_l: float
    caddy_l: float = 0.0
    sealed: int = 0
    empty: int = 0
    filling: "Filling | None" = None
    away_l: dict[int, float] = field(default_factory=dict)
    ready: list[int] = field(default_factory=list)
    fetched: list[int] = field(default_factory=list)


class Filling:
    """A vessel that is open."""

    def __init__(self, yard: Yard, now: float) -> None:
        self.yard, self.pressed, self.still_up, self.at = yard, 0.0, 0.0, now

    def level(self, now: float) -> float:
        self.still_up *= math.exp(-(now - self.at) / self.yard.settling_d)
        self.at = now
        return self.pressed * (1.0 - self.yard.settles_frac) + self.still_up


def live(yard: Yard) -> Yard:
    """Let all days pass."""
    env = simpy.Environment()
    yard.empty = yard.count
    env.process(_household(env, yard))
    env.run(until=len(yard.loose_l))
    return yard


def _household(env, yard):
    for day, litres in enumerate(yard.loose_l):
        yard.caddy_l += litres
        yield env.timeout(EVENING)
        if day % yard.every_d == 0 or yard.caddy_l > yard.holding_l:
            _load(env, yard)
            is_open = yard.filling is not None or yard.empty > 0
            if yard.caddy_l > yard.holding_l + 1e-6 and not is_open:
                yard.away_l[day] = yard.caddy_l - yard.holding_l
                yard.caddy_l = yard.holding_l
        yield env.timeout(day + 1 - env.now)


def _load(env, yard):
    while yard.caddy_l > 1e-9:
        if yard.filling is None:
            if not yard.empty:
                return
            yard.empty -= 1
            yard.filling = Filling(yard, env.now)
        vessel = yard.filling
        whole = yard.caddy_l * yard.pressed_per_loose
        goes = min(whole, max(yard.room_l - vessel.level(env.now), 0.0))
        vessel.pressed += goes
        vessel.still_up += goes * yard.settles_frac
        yard.caddy_l -= goes / yard.pressed_per_loose
        is_over = goes < whole
        if not is_over:
            yard.caddy_l = 0.0
        if is_over or vessel.level(env.now) >= 0.98 * yard.room_l:
            yard.filling = None
            env.process(_ferment(env, yard, round(env.now - EVENING)))


def _ferment(env, yard, sealed_on):
    needs = yard.ready_d * yard.steps[yard.sealed]
    yard.sealed += 1
    yield env.timeout(1.0 - EVENING + TICK)
    passed = yard.pace
    while passed < needs:
        yield env.timeout(1.0)
        passed += yard.pace
    yard.ready.append(round(env.now - TICK))
    yield env.timeout(NOON - TICK)
    while True:
        today = round(env.now - NOON)
        if today - sealed_on >= yard.least_d and today % 7 in yard.fetch_days:
            break
        yield env.timeout(1.0)
    yard.fetched.append(today)
    yard.empty += 1
