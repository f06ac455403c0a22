"""Use case: will a chain ever stall, and what is the cheapest cure."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import Figure
from sourloam.evidence.parameters import load_parameters
from sourloam.fleet.bran_bag import empty_days
from sourloam.fleet.cures import MOST_MORE, fewest_from, with_vessels
from sourloam.fleet.options import fleet_of, near_sizes_l, options
from sourloam.fleet.outcome import Outcome
from sourloam.fleet.replicate import UNCHANGED, Chances, Change, is_enough
from sourloam.fleet.rows import Run
from sourloam.fleet.what_if import what_ifs
from sourloam.plan.bag import bag_rule
from sourloam.plan.figures import figures as figures_of
from sourloam.plan.lived import lived_years
from sourloam.plan.question import Question
from sourloam.plan.sizes import sizes
from sourloam.plan.sizing import (
    LEVEL_FRAC,
    Fleet,
    Happened,
    Sizing,
    Tried,
    binds,
    bran_figure,
    chance_figures,
    chances_of,
    full_mass_kg,
    fullness,
    happened,
    needed_figure,
    ranked,
    tried,
    vessel_rows,
)
from sourloam.plan.winter import winter, winter_hints
from sourloam.service.named import site_named
from sourloam.site.draft import HouseholdParameters
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

    def live(self, site: Site, number: int, change: Change = UNCHANGED, *, chances: Chances | None = None) -> Outcome:
        self._tell()
        return (chances or self.chances).outcome(site, number, change)

    def bran_kg(self, site: Site, number: int) -> list[float]:
        self._tell()
        return self.chances.bran_kg(site, number)

    def _tell(self) -> None:
        if self.tells is not None:
            self.tells(self.done, max(self.whole, self.done + 1))
        self.done += 1


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


class _Work:
    """What is found on the way, so that it can be shown when the rest is not waited for."""

    def __init__(self) -> None:
        self.found: list[Outcome] = []
        self.empty: list[tuple[int, ...]] = []  # days on which the bag of bran is empty
        self.bran_kg: list[float] = []  # of each year
        self.helping: list[Tried] = []
        self.happened: list[Happened] = []
        self.fleets: list[Fleet] = []
        self.needed: int | None = None
        self.is_whole = False


def _sized(question: Question, chances: Chances, asked: AskedSize, tells: Tells | None) -> tuple[Sizing, bool]:
    """Return the sizing, and whether it came to its end."""
    site = question.site
    tabled = options(site, question.knowledge, question.climate.indoors_c, is_place_bound=True)
    person = load_parameters(HouseholdParameters, "household").rate_kg_per_d(site.streams[0].premises).value
    befalling = what_ifs(site, question.first, question.knowledge, person_kg_per_d=person)
    steps = 2 if asked.is_bare else 2 + len(tabled) + len(befalling) + SEARCHED
    counted = _Counted(chances, asked.replications * steps, tells)
    work, rule = _Work(), bag_rule(question)
    lives = range(asked.replications)
    try:
        work.found.extend(counted.live(site, number) for number in lives)
        for number in lives:
            used = counted.bran_kg(site, number)
            work.bran_kg.append(sum(used))
            work.empty.append(empty_days(used, rule))
        if not asked.is_bare:
            work.needed = _needed(site, counted, asked)
            usual_kg = sum(work.bran_kg) / len(work.bran_kg)
            for option in tabled:
                outcomes = [counted.live(option.site, each, option.change) for each in lives]
                work.helping.append(tried(option, outcomes, question, bran_kg_per_year=usual_kg))
            for each in befalling:
                changed = each.changed(site)
                others = chances.with_streams_of(changed)
                outcomes = [counted.live(changed, number, chances=others) for number in lives]
                work.happened.append(happened(each, outcomes))
            work.fleets.extend(_fleet(question, counted, asked, volume_l) for volume_l in near_sizes_l(site))
        work.is_whole = True
    except KeyboardInterrupt:
        if len(work.found) < LEAST_LIVES:
            raise
    return _sizing(question, chances, asked, work), work.is_whole


def _sizing(question: Question, chances: Chances, asked: AskedSize, work: _Work) -> Sizing:
    """Return what was found as the answer."""
    site, found = question.site, work.found
    figures = chance_figures(question, found, failing_frac=chances.failing_frac)
    if len(work.empty) >= LEAST_LIVES:
        counts = [len(each) for each in work.empty]
        bran = bran_figure(question, counts, failing_frac=chances.failing_frac)
        figures[bran.name] = bran
    if not asked.is_bare:
        figures["vessels_needed"] = needed_figure(question, work.needed, asked.level)
    months = [frozenset((question.first + timedelta(days=day)).month for day in each) for each in work.empty]
    known = _winter_figures(question)
    return Sizing(
        figures=figures | winter(question, known),
        lived=lived_years(found, partial(chances.live, site), site, level=asked.level),
        binds=binds(found, months),
        options=ranked(work.helping, asked.level),
        what_ifs=tuple(work.happened),
        winter=tuple(winter_hints(question, known | winter(question, known))),
        fleets=tuple(work.fleets),
        vessels=vessel_rows(site, found),
        mass_kg=full_mass_kg(site, found, question),
        full=fullness(question, chances, found),
        level=asked.level,
        outcomes=tuple(found),
    )


def _winter_figures(question: Question) -> dict[str, Figure]:
    flows = figures_of(question)
    return flows | sizes(question, flows)


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
