"""How often a chain stalls by chance, how many vessels are enough, and what would help: figures and a table."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derived, law, leaf, written
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.base.spread import NINETY, Spread, normal_steps
from sourloam.fleet.cures import EFFORTS, Effort
from sourloam.fleet.options import Option
from sourloam.fleet.outcome import Outcome
from sourloam.fleet.replicate import Chances, stall_chance
from sourloam.fleet.rows import Run
from sourloam.fleet.setting import STRONGEST, uncertain
from sourloam.fleet.simulate import room_l
from sourloam.fleet.what_if import WhatIf
from sourloam.plan.lived import LivedYears
from sourloam.plan.question import Question
from sourloam.site.site import Site

LEVEL_FRAC: Final = 0.01  # stalled in fewer than 1 week in 100: what a keeper who says nothing is held to
FAILING: Final = "failing_share"


@dataclass(frozen=True)
class Tried:
    """A change, lived on the same lots, and what is left of the stalls with it."""

    kind: str
    what: str
    effort: Effort
    cost: float | None  # in the keeper's money; nothing where no price is known
    chance: float
    low: float
    high: float
    turned_away_l: float
    mass_kg: float  # the heaviest full vessel, itself included

    def is_within(self, level: float) -> bool:
        """Whether it brings the chance within the level."""
        return self.chance <= level


@dataclass(frozen=True)
class Happened:
    """Something that may befall the site, lived on the same chance, and how often it stalls with it."""

    kind: str
    what: str
    chance: float
    low: float
    high: float
    turned_away_l: float


@dataclass(frozen=True)
class Fleet:
    """The fewest vessels of one size that are within the level."""

    volume_l: float
    vessels: int | None
    mass_kg: float


@dataclass(frozen=True)
class Fullness:
    """What to know where no vessel is open today."""

    free_in_d: int
    free_late_d: int
    comes_l: float
    holds_l: float
    settled: str  # the vessel that has sunk the most
    settled_l: float  # and by how much
    ready: tuple[str, ...]


@dataclass(frozen=True)
class Sizing:
    """The answer to: will it ever stall, and what is the cheapest cure."""

    figures: Mapping[str, Figure]
    lived: LivedYears
    binds: tuple[tuple[int, str, float], ...]  # month, what binds, part of the lives in which it does
    options: tuple[Tried, ...]
    what_ifs: tuple[Happened, ...]
    winter: tuple[str, ...]  # what to do before the ground freezes, where beds are the only way out
    fleets: tuple[Fleet, ...]
    vessels: tuple[tuple[str, float, float], ...]  # id, days to fill one, part of the days it stands empty
    mass_kg: float
    full: Fullness | None
    level: float
    outcomes: tuple[Outcome, ...]


def chances_of(question: Question, *, seed: int, failing_frac: float | None = None, run: Run | None = None) -> Chances:
    """Return the lots of a question's year, lived by `run` where it is given."""
    failing = question.knowledge.ferment.failing_share.value if failing_frac is None else failing_frac
    return Chances(question.site, question.year, question.situation, seed, failing, run)


@law("mean of the stalled weeks of all lives ÷ weeks of a life; its interval is that of the mean", unit="1")
def chance_per_week(stalled_weeks: ArrayLike, weeks: ArrayLike) -> FloatArray:
    """Return the chance that a week has a stalled day, spread as the mean of so many lives is."""
    found = np.atleast_1d(np.asarray(stalled_weeks, dtype=float) / np.asarray(weeks, dtype=float))
    with_one = np.append(found, 1.0 / float(np.atleast_1d(np.asarray(weeks, dtype=float))[0]))
    error = with_one.std(ddof=1) / np.sqrt(with_one.size)
    return np.asarray(np.clip(found.mean() + error * normal_steps(found.size), 0.0, 1.0))


LIVES: Final = "lives of a year, day by day, each with its own chance (fleet/replicate.py)"
READ: Final[tuple[tuple[str, str, str, str, Callable[[Outcome], float]], ...]] = (
    (
        "stall_days_per_year",
        "stalled days, counted in each life",
        "d",
        "days of the year on which scraps have nowhere to go",
        lambda each: each.stalled_days,
    ),
    (
        "turned_away_l_per_year",
        "litres turned away, summed over each life",
        "L",
        "scraps of the year that have nowhere to go, as in the caddy",
        lambda each: each.turned_away_l,
    ),
    (
        "failed_l_per_year",
        "litres of the batches that went wrong, summed over each life",
        "L",
        "scraps of the year whose batch goes wrong",
        lambda each: each.failed_l,
    ),
    (
        "loaded_after_d",
        "litres that wait at the end of each day, summed ÷ litres that came",
        "d",
        "how long scraps have waited when they are loaded",
        lambda each: each.age_d,
    ),
    (
        "waiting_batch_d",
        "days on which a finished batch waits, counted in each life",
        "d",
        "days of the year on which a finished batch waits for a place",
        lambda each: each.queue_d,
    ),
)


def bran_figure(question: Question, empty: Sequence[int], *, failing_frac: float) -> Figure:
    """Return on how many days of the year the bag of bran is empty, counted in each life."""
    formula = (
        "days on which the bag holds less than is loaded, counted in each life; another lot is begun when the bag "
        "lasts as long as a lot takes and a week"
    )
    held = _of_lives(empty, formula, unit="d")
    inputs = _inputs(question, len(empty), failing_frac)
    words = "days of the year on which the bag of bran is empty"
    return derived("bran_out_days_per_year", held, inputs, words=words, runs=len(empty))


def chance_figures(question: Question, outcomes: Sequence[Outcome], *, failing_frac: float) -> dict[str, Figure]:
    """Return the figures that are read off the lives."""
    lives = len(outcomes)
    inputs = _inputs(question, lives, failing_frac)
    stalled = derived(
        "stalled_weeks",
        _of_lives([sum(each.weeks) for each in outcomes], "weeks with a stalled day, counted in each life", unit="wk"),
        inputs,
        words="weeks of the year in which scraps have nowhere to go",
        runs=lives,
    )
    weeks = written("weeks", float(len(outcomes[0].weeks)), "wk", words="weeks of a life", members=lives)
    chance = derived(
        "stall_chance_per_week",
        chance_per_week,
        {"stalled_weeks": stalled, "weeks": weeks},
        words="chance that in a week scraps have nowhere to go",
        runs=lives,
    )
    others = (
        derived(name, _of_lives(list(map(value, outcomes)), formula, unit=unit), inputs, words=words, runs=lives)
        for name, formula, unit, words, value in READ
    )
    found = (replace(chance, at_medians=stall_chance(outcomes)[0]), stalled, *others)
    return {each.name: each for each in found}


def _of_lives(counted: Sequence[float], formula: str, *, unit: str) -> Callable[..., FloatArray]:
    """Return the law by which a number of each life is read off it; of one life alone it is the middle of all."""
    held = np.array(counted, dtype=float)

    @law(formula, unit=unit, model=LIVES)
    def of_lives(life: ArrayLike, **others: ArrayLike) -> FloatArray:
        numbers = np.atleast_1d(np.asarray(life, dtype=float))
        return np.asarray(held[numbers.astype(int)]) if numbers.size > 1 else np.array([float(np.median(held))])

    return of_lives


def _inputs(question: Question, lives: int, failing_frac: float) -> dict[str, Figure]:
    known = question.knowledge
    number = leaf(
        "life",
        Spread.exactly(0.0),
        "1",
        words="number of the life, from which its chance is drawn",
        source="sourloam_derivation",
        place="fleet/chance.py",
        basis=Basis.DERIVED,
        members=lives,
    )
    failing = known.ferment.failing_share
    if failing_frac != failing.value:
        failing = written(FAILING, failing_frac, "1", words=failing.words)
    moving = {name: figure for name, figure in uncertain(known).items() if name in STRONGEST}
    chance = {"day_cv": known.chance.day_cv, "kept_frac": known.chance.kept_frac, "site_frac": known.chance.site_frac}
    return {"life": replace(number, members=np.arange(lives, dtype=float)), **moving, **chance, FAILING: failing}


def needed_figure(question: Question, needed: int | None, level: float) -> Figure:
    """Return how many vessels are within the level, found by trying."""

    @law(
        "the fewest vessels with which no more weeks are stalled than the level allows",
        unit="{vessel}",
        model="lives of a year on the same lots, with more and fewer vessels (fleet/replicate.py)",
    )
    def fewest(level: ArrayLike) -> FloatArray:
        return np.full(np.asarray(level).shape, np.nan if needed is None else float(needed))

    allowed = written("level", level, "1", words="stalled weeks that are allowed")
    return derived("vessels_needed", fewest, {"level": allowed}, words="vessels with which it stalls no more than that")


def binds(
    outcomes: Sequence[Outcome], empty_months: Sequence[frozenset[int]] = ()
) -> tuple[tuple[int, str, float], ...]:
    """Return what binds most often in each month, and in what part of the lives it does.

    `empty_months` are those in which the bag of bran was empty, life by life.
    """
    found: Counter[tuple[int, str]] = Counter()
    for each in outcomes:
        found.update(set(each.stalls))
    for months in empty_months:
        found.update((month, "bran") for month in months)
    worst: dict[int, tuple[str, int]] = {}
    for (month, link), lives in sorted(found.items()):
        if month not in worst or lives > worst[month][1]:
            worst[month] = link, lives
    return tuple((month, link, lives / len(outcomes)) for month, (link, lives) in sorted(worst.items()))


def full_mass_kg(site: Site, outcomes: Sequence[Outcome], question: Question) -> float:
    """Return what the heaviest full vessel weighs in half of the lives, the vessel itself included."""
    largest = max(each.volume_l for each in site.vessels)
    held = float(np.median([each.heaviest_kg for each in outcomes]))
    return held + largest * question.knowledge.chance.empty_kg_per_l.value


def tried(option: Option, outcomes: Sequence[Outcome], question: Question, *, bran_kg_per_year: float) -> Tried:
    """Return what an option leaves of the stalls."""
    chance, low, high = _between(outcomes)
    return Tried(
        option.kind,
        question.speech.told(option.what),
        option.effort,
        _cost(option, question, bran_kg_per_year),
        chance,
        low,
        high,
        _turned_away_l(outcomes),
        full_mass_kg(option.site, outcomes, question),
    )


def _cost(option: Option, question: Question, bran_kg_per_year: float) -> float | None:
    """Return what an option costs in its first year, as far as the site file says what things cost."""
    if option.effort != "thing":
        return 0.0
    stock = question.site.stock
    if option.kind == "vessel":
        return stock.vessel_price
    if option.kind == "bran":
        per_kg = stock.bran_price_per_kg if stock.bran_from == "bought" else stock.carrier_price_per_kg
        return None if per_kg is None else (option.change.dose_times - 1.0) * bran_kg_per_year * per_kg
    return None


def happened(what_if: WhatIf, outcomes: Sequence[Outcome]) -> Happened:
    """Return how often a site stalls to which something happened."""
    return Happened(what_if.kind, what_if.what, *_between(outcomes), _turned_away_l(outcomes))


def _between(outcomes: Sequence[Outcome]) -> tuple[float, float, float]:
    chance, error = stall_chance(outcomes)
    return chance, max(0.0, chance - NINETY * error), min(1.0, chance + NINETY * error)


def _turned_away_l(outcomes: Sequence[Outcome]) -> float:
    return float(np.mean([each.turned_away_l for each in outcomes]))


def vessel_rows(site: Site, outcomes: Sequence[Outcome]) -> tuple[tuple[str, float, float], ...]:
    """Return of each vessel how long it takes to fill, and what part of the days it stands empty."""
    rows = []
    for index, vessel in enumerate(site.vessels):
        fills = [each.fill_d[index] for each in outcomes if np.isfinite(each.fill_d[index])]
        idle = float(np.mean([each.idle_frac[index] for each in outcomes]))
        rows.append((vessel.id, float(np.mean(fills)) if fills else float("nan"), idle))
    return tuple(rows)


def fullness(question: Question, chances: Chances, outcomes: Sequence[Outcome]) -> Fullness | None:
    """Return what to know where no vessel is open today; nothing where one is."""
    situation, world = chances.world(question.site, 0)
    if not situation.vessels or any(each.phase in ("empty", "filling") for each in situation.vessels):
        return None
    free = sorted(each.free_in_d for each in outcomes)
    sunk = max(situation.vessels, key=lambda each: world.vessels[each.vessel].usable_l - room_l(each, world))
    return Fullness(
        free_in_d=free[len(free) // 2],
        free_late_d=free[int(0.95 * (len(free) - 1))],
        comes_l=float(np.median([each.until_free_l for each in outcomes])),
        holds_l=max(0.0, world.habits.holding_l - situation.waiting.loose_l),
        settled=sunk.vessel,
        settled_l=max(0.0, world.vessels[sunk.vessel].usable_l - room_l(sunk, world)),
        ready=tuple(each.vessel for each in situation.vessels if each.phase == "ready"),
    )


def ranked(found: Sequence[Tried], level: float) -> tuple[Tried, ...]:
    """Return the options: first those that are within the level, the cheapest first, then by what they leave."""
    return tuple(
        sorted(
            found,
            key=lambda each: (
                not each.is_within(level),
                EFFORTS.index(each.effort) if each.is_within(level) else 0,
                each.chance,
                EFFORTS.index(each.effort),
            ),
        )
    )
