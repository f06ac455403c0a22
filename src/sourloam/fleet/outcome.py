"""What is kept of one life of a site."""

import math
from datetime import date
from typing import Final, NamedTuple

from sourloam.fleet.life import BatchLife, Life
from sourloam.site.site import Site

WEEK_D: Final = 7


class Outcome(NamedTuple):
    """What is kept of one life."""

    weeks: tuple[bool, ...]  # whether each week has a stalled day
    stalls: tuple[tuple[int, str], ...]  # of each stalled day: its month and what binds
    scraps_l: float
    turned_away_l: float
    placed_l: float
    failed_l: float
    age_d: float  # of scraps when they are loaded
    heaviest_kg: float  # what the fullest vessel held
    fill_d: tuple[float, ...]  # of each vessel: mean days from first layer until sealed; nan where it never was
    idle_frac: tuple[float, ...]  # of each vessel: part of the days on which it stood empty
    queue_d: int  # days on which a finished batch waited for a place
    free_in_d: int  # days until the first vessel is emptied
    until_free_l: float  # litres that come until then

    @property
    def stalled_days(self) -> int:
        """Return the days on which scraps had nowhere to go."""
        return len(self.stalls)

    @property
    def week_frac(self) -> float:
        """Return the part of the weeks that have a stalled day."""
        return sum(self.weeks) / len(self.weeks)


def outcome_of(life: Life, site: Site) -> Outcome:
    """Return what is kept of a life."""
    weeks = max(1, len(life.days) // WEEK_D)
    stalled = [False] * weeks
    for index, day in enumerate(life.days):
        stalled[min(index // WEEK_D, weeks - 1)] |= day.is_stalled
    scraps_l = sum(each.scraps_l for each in life.days)
    emptied = [gone for each in life.batches if (gone := _gone_on(each))]
    free = (min(emptied) - life.days[0].on).days if emptied else len(life.days)
    return Outcome(
        weeks=tuple(stalled),
        stalls=tuple((each.on.month, each.binding) for each in life.days if each.is_stalled),
        scraps_l=scraps_l,
        turned_away_l=life.turned_away_l,
        placed_l=sum(each.placed_l for each in life.days),
        failed_l=sum(each.failed_l for each in life.days),
        age_d=sum(each.waiting_l for each in life.days) / scraps_l if scraps_l else 0.0,
        heaviest_kg=max((each.contents.mass_kg for each in life.batches), default=0.0),
        fill_d=tuple(_fill_d(life, each.id) for each in site.vessels),
        idle_frac=tuple(_idle_frac(life, each.id) for each in site.vessels),
        queue_d=sum(each.queue > 0 for each in life.days),
        free_in_d=free,
        until_free_l=sum(each.scraps_l for each in life.days[:free]),
    )


def _fill_d(life: Life, vessel: str) -> float:
    own = [each for each in life.batches if each.vessel == vessel]
    found = [(each.sealed_on - each.first_layer_on).days for each in own if each.sealed_on]
    return sum(found) / len(found) if found else math.nan


def _idle_frac(life: Life, vessel: str) -> float:
    first, last = life.days[0].on, life.days[-1].on
    own = [each for each in life.batches if each.vessel == vessel]
    held_d = sum(((_gone_on(each) or last) - max(each.first_layer_on, first)).days for each in own)
    return max(0.0, 1.0 - held_d / len(life.days))


def _gone_on(batch: BatchLife) -> date | None:
    return batch.failed_on or (batch.placed_on if batch.is_placed else None)
