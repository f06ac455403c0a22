"""Use case: will a chain ever stall, and what is the cheapest cure."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.fleet.cures import MOST_MORE, fewest_from, with_vessels
from sourloam.fleet.options import fleet_of, near_sizes_l, options
from sourloam.fleet.outcome import Outcome
from sourloam.fleet.replicate import UNCHANGED, Chances, Change, is_enough
from sourloam.fleet.rows import Run
from sourloam.plan.question import Question
from sourloam.plan.sizing import (
    LEVEL_FRAC,
    Fleet,
    Sizing,
    Tried,
    binds,
    by_week,
    chance_figures,
    chances_of,
    full_mass_kg,
    fullness,
    needed_figure,
    ranked,
    tried,
    vessel_rows,
)
from sourloam.service.named import site_named
from sourloam.site.site import Site
from sourloam.views.size import SizeView, size_view

SEARCHED: Final = 4  # fleets that a search is reckoned to try, for the time that is left
LEAST_LIVES: Final = 2  # fewer say nothing of chance

Tells = Callable[[int, int], None]  # years lived, years to live


@dataclass(frozen=True)
class AskedSize:
    """What a sizing is asked with."""

    site: Path
    today: date | None = None
    replications: int = 100
    seed: int = 1
    level: float = LEVEL_FRAC
    failing: float | None = None
    is_bare: bool = False  # the chance alone, without fleets and options


class _Counted:
    """Lives years, and tells how many of how many."""

    def __init__(self, chances: Chances, whole: int, tells: Tells | None) -> None:
        self.chances, self.whole, self.tells, self.done = chances, whole, tells, 0

    def live(self, site: Site, number: int, change: Change = UNCHANGED) -> Outcome:
        if self.tells is not None:
            self.tells(self.done, max(self.whole, self.done + 1))
        self.done += 1
        return self.chances.outcome(site, number, change)


def size_site(asked: AskedSize, *, tells: Tells | None = None, run: Run | None = None) -> SizeView:
    """Say how often a site stalls, how many vessels are enough, and what would help.

    A keyboard interrupt ends the work early: what is done so far comes back, said as such.

    Years are lived by `run`, the compiled life, where it is given; they are the same without it.

    Raises
    ------
    BadInput
        If the file holds faults.
    KeyboardInterrupt
        If not even two years were lived.
    """
    question = site_named(asked.site).question(asked.today)
    if not question.site.vessels or not question.site.streams:
        raise BadInput(str(asked.site), (Problem("", "it has no vessel or no stream;", "add one of each."),))
    chances = chances_of(question, seed=asked.seed, failing_frac=asked.failing, run=run)
    names = {each.id: question.site.name_of(each.id) for part in question.site.parts().values() for each in part}
    sizing, lived = _sized(question, chances, asked, tells)
    return size_view(sizing, question, names=names, seed=asked.seed, asked=asked.replications, lived=lived)


def _sized(question: Question, chances: Chances, asked: AskedSize, tells: Tells | None) -> tuple[Sizing, bool]:
    """Return the sizing, and whether it came to its end."""
    site = question.site
    tabled = options(site, question.knowledge, question.climate.indoors_c, is_place_bound=True)
    steps = 1 if asked.is_bare else 1 + len(tabled) + SEARCHED
    counted = _Counted(chances, asked.replications * steps, tells)
    found: list[Outcome] = []
    helping: list[Tried] = []
    fleets: list[Fleet] = []
    needed: int | None = None
    is_whole = False
    try:
        found.extend(counted.live(site, number) for number in range(asked.replications))
        if not asked.is_bare:
            needed = _needed(site, counted, asked)
            for option in tabled:
                lives = [counted.live(option.site, each, option.change) for each in range(asked.replications)]
                helping.append(tried(option, lives, question))
            fleets.extend(_fleet(question, counted, asked, volume_l) for volume_l in near_sizes_l(site))
        is_whole = True
    except KeyboardInterrupt:
        if len(found) < LEAST_LIVES:
            raise
    figures = chance_figures(question, found, failing_frac=chances.failing_frac)
    if not asked.is_bare:
        figures["vessels_needed"] = needed_figure(question, needed, asked.level)
    sizing = Sizing(
        figures=figures,
        by_week=by_week(found),
        binds=binds(found),
        options=ranked(helping, asked.level),
        fleets=tuple(fleets),
        vessels=vessel_rows(site, found),
        mass_kg=full_mass_kg(site, found, question),
        full=fullness(question, chances, found),
        level=asked.level,
        outcomes=tuple(found),
    )
    return sizing, is_whole


def _needed(site: Site, counted: _Counted, asked: AskedSize) -> int | None:
    """Return the fewest vessels within the level: the first of those owned, or more of the commonest."""
    owned = len(site.vessels)

    def enough(number: int) -> bool:
        changed = with_vessels(site, number)
        return is_enough(lambda each: counted.live(changed, each), level=asked.level, lives=asked.replications)

    return fewest_from(owned, enough, most=owned + MOST_MORE)


def _fleet(question: Question, counted: _Counted, asked: AskedSize, volume_l: float) -> Fleet:
    """Return the fewest equal vessels of one size that are within the level."""
    site = question.site
    total = sum(each.volume_l for each in site.vessels)

    def enough(number: int) -> bool:
        made = fleet_of(site, volume_l, number)
        return is_enough(lambda each: counted.live(made, each), level=asked.level, lives=asked.replications)

    near = max(1, round(total / volume_l))
    number = fewest_from(near, enough, most=near + MOST_MORE)
    made = fleet_of(site, volume_l, number or near)
    return Fleet(volume_l, number, full_mass_kg(made, [counted.live(made, each) for each in range(3)], question))
