"""The same site lived many times, each life with its own chance, and what is gathered from them."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final, NamedTuple

import numpy as np

from sourloam.fleet.arrivals import kg_per_d, uneven_arrivals
from sourloam.fleet.chance import day_shape, luck_of, stream_of, uneven_days
from sourloam.fleet.fast import live_fast, outcome_of_rows
from sourloam.fleet.life import Life
from sourloam.fleet.outcome import Outcome, outcome_of
from sourloam.fleet.rows import D_BRAN, Run
from sourloam.fleet.setting import STRONGEST, Year, numbers_of, set_up, uncertain
from sourloam.fleet.simulate import simulate
from sourloam.fleet.world import Luck, Numbers, World
from sourloam.site.site import Site
from sourloam.site.situation import Situation

CHECKED_EVERY: Final = 20  # lives after which a fleet may be known to be enough, or too few
SURE_SE: Final = 3.0  # standard errors that a chance must lie off the service level for that


class Lot(NamedTuple):
    """All that chance does in one life, drawn before it is lived."""

    year: Year
    numbers: Numbers
    luck: Luck


class Change(NamedTuple):
    """What of a world is changed beside its site."""

    dose_times: float = 1.0
    takes_times: float = 1.0
    density_times: float = 1.0


UNCHANGED: Final = Change()


@dataclass(frozen=True)
class Chances:
    """The lots of a year: those of one number are the same for every site that is tried on them."""

    site: Site  # whose streams bring the scraps
    year: Year
    situation: Situation
    seed: int
    failing_frac: float
    run: Run | None = None  # the compiled life, where one is at hand; else the readable one, with the same days

    @cached_property
    def _drawn(self) -> dict[int, Lot]:
        return {}

    def lot(self, number: int) -> Lot:
        """Return the lot of one life."""
        if number not in self._drawn:
            self._drawn[number] = self._draw(number)
        return self._drawn[number]

    def live(self, site: Site, number: int, change: Change = UNCHANGED) -> Life:
        """Live one life of a site on the lot of that number."""
        situation, world = self.world(site, number, change)
        return simulate(situation, self.year.days, world)

    def outcome(self, site: Site, number: int, change: Change = UNCHANGED) -> Outcome:
        """Live one life, and keep what counts."""
        if self.run is None:
            return outcome_of(self.live(site, number, change), site)
        situation, world = self.world(site, number, change)
        return outcome_of_rows(live_fast(self.run, situation, world))

    def bran_kg(self, site: Site, number: int) -> list[float]:
        """Return the bran that one life of a site takes on each day."""
        if self.run is None:
            return [each.bran_kg for each in self.live(site, number).days]
        situation, world = self.world(site, number)
        used: list[float] = live_fast(self.run, situation, world).held.days[:, D_BRAN].tolist()
        return used

    def with_streams_of(self, site: Site) -> "Chances":
        """Return the same chance for a site whose streams are others; those of the same name stay as uneven."""
        return replace(self, site=site)

    def world(self, site: Site, number: int, change: Change = UNCHANGED) -> tuple[Situation, World]:
        """Return the situation and the world of one life."""
        lot = self.lot(number)
        numbers = lot.numbers._replace(
            ready_at_20c_d=lot.numbers.ready_at_20c_d * change.takes_times,
            density_times=lot.numbers.density_times * change.density_times,
        )
        situation, world = set_up(site, lot.year, numbers, situation=self.situation)
        return situation, replace(
            world,
            luck=lot.luck,
            scatter=self._scatter(site),
            plant_dose_kg_per_kg=world.plant_dose_kg_per_kg * change.dose_times,
            animal_dose_kg_per_kg=world.animal_dose_kg_per_kg * change.dose_times,
        )

    def _draw(self, number: int) -> Lot:
        known = self.year.knowledge
        figures = uncertain(known)
        values = {name: each.value for name, each in figures.items()}
        values |= {name: float(figures[name].members[number % figures[name].members.size]) for name in STRONGEST}
        times = {each.id: self._uneven(each.id, number) for each in self.site.streams}
        came = uneven_arrivals(self.site.streams, known.materials, self.year.first, days=self.year.days, times=times)
        luck = luck_of(self.seed, number, days=self.year.days, failing_frac=self.failing_frac)
        return Lot(replace(self.year, arrivals=came), numbers_of(values), luck)

    def _uneven(self, stream: str, number: int) -> Sequence[float]:
        chance = self.year.knowledge.chance
        flow = next(each for each in self.site.streams if each.id == stream)
        shape = day_shape(
            kg_per_d(flow, self.year.knowledge.materials),
            day_cv=chance.day_cv.value,
            home_kg_per_d=chance.home_kg_per_d.value,
        )
        random = stream_of(self.seed, number, f"stream: {stream}")
        drawn: list[float] = uneven_days(shape, chance.kept_frac.value, days=self.year.days, stream=random).tolist()
        return drawn

    def _scatter(self, site: Site) -> dict[str, tuple[float, ...]]:
        """Return how far batches of each vessel scatter, day by day: the part of the model's that is a batch's own."""
        own = math.sqrt(1.0 - self.year.knowledge.chance.site_frac.value)
        series: dict[tuple[str, float | None], tuple[float, ...]] = {}
        for vessel in site.vessels:
            spot = (vessel.stands, vessel.temperature_c)
            if spot not in series:
                rooms = self.year.rooms[vessel.stands]
                warmth = rooms if vessel.temperature_c is None else (vessel.temperature_c,) * self.year.days
                series[spot] = tuple((own * self.year.knowledge.response.log_sd_at(np.asarray(warmth))).tolist())
        return {each.id: series[each.stands, each.temperature_c] for each in site.vessels}


def stall_chance(outcomes: Iterable[Outcome]) -> tuple[float, float]:
    """Return the chance that a week has a stalled day, and its standard error over the lives.

    One more life with one stalled week is counted for the error, so that none in a hundred is not taken for never.
    """
    parts = list(outcomes)
    fracs = np.array([each.week_frac for each in parts])
    with_one = np.append(fracs, 1.0 / len(parts[0].weeks))
    return float(fracs.mean()), float(with_one.std(ddof=1) / math.sqrt(with_one.size))


def is_enough(live: Callable[[int], Outcome], *, level: float, lives: int) -> bool:
    """Whether the chance of a stalled week is within the level; fewer lives are lived where it is plain."""
    found: list[Outcome] = []
    for number in range(lives):
        found.append(live(number))
        if len(found) % CHECKED_EVERY == 0:
            chance, error = stall_chance(found)
            if abs(chance - level) > SURE_SE * error:
                return chance <= level
    return stall_chance(found)[0] <= level
