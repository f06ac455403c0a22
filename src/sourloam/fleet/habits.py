"""What a keeper does when: how often the caddy is emptied, and what may wait in the cold."""

from typing import Final

from sourloam.fleet.arrivals import usual_day
from sourloam.fleet.knowledge import Knowledge
from sourloam.fleet.world import Habits
from sourloam.site.people import Keeper
from sourloam.site.site import Site

OFTEN_D: Final = 2  # common practice, no source: a caddy on the worktop is emptied every day or two
TWICE_A_WEEK_D: Final = 3
WEEKLY_D: Final = 7


def habits_of(site: Site, knowledge: Knowledge) -> Habits:
    """Return the habits that the plan goes by.

    Each opening lets air in, so loading once or twice a week is better than
    every day, as long as the scraps wait in the cold: a vessel that is opened
    once a week takes in a seventh of the air of one that is opened daily. In a
    caddy that is not cold, scraps wait a few days and no longer.
    """
    keeper = site.keeper
    daily_l = usual_day(site.streams, knowledge.materials).loose_l
    keeps_d = knowledge.vessel.caddy_keeps_d.value
    every = keeper.loads_every_d if keeper.loads_every_d is not None else _chosen(keeper, daily_l)
    in_caddy_l = min(keeper.caddy_l, max(keeps_d, every) * daily_l)
    return Habits(keeper.days, max(1, round(every)), keeper.cold_l + in_caddy_l, keeper.least_d)


def _chosen(keeper: Keeper, daily_l: float) -> int:
    if keeper.cold_l >= WEEKLY_D * daily_l:
        return WEEKLY_D
    if keeper.cold_l >= TWICE_A_WEEK_D * daily_l:
        return TWICE_A_WEEK_D
    return OFTEN_D if keeper.caddy_l >= OFTEN_D * daily_l else 1
