"""Years that were lived by chance, for the eye: how often each week stalls, a usual year and a bad one."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, NamedTuple

import numpy as np

from sourloam.base.days import Span
from sourloam.fleet.life import BatchLife, Binding, Life
from sourloam.fleet.outcome import Outcome
from sourloam.site.site import Site

BAD_FRAC: Final = 0.95  # of all years are better than a bad one


class Stay(NamedTuple):
    """One filling of a vessel in a lived year."""

    first_layer: date
    sealed: date | None
    ready: date | None
    gone: date | None
    is_failed: bool


class YearRow(NamedTuple):
    """A vessel through a lived year."""

    vessel: str
    stays: tuple[Stay, ...]


@dataclass(frozen=True)
class LivedYear:
    """One lived year as rows of vessels."""

    number: int  # of the life, from which its chance was drawn
    stalled_days: int
    rows: tuple[YearRow, ...]
    stalls: tuple[tuple[Span, Binding], ...]


@dataclass(frozen=True)
class LivedYears:
    """What is shown of many lived years."""

    years: int
    first: date
    last: date
    level: float  # stalled weeks that are allowed
    by_week: tuple[float, ...]  # part of the years in which each week has a stalled day
    usual: LivedYear
    bad: LivedYear


def by_week(outcomes: Sequence[Outcome]) -> tuple[float, ...]:
    """Return the chance of a stalled day in each week of the year."""
    return tuple(np.mean([each.weeks for each in outcomes], axis=0).tolist())


def lived_years(outcomes: Sequence[Outcome], live: Callable[[int], Life], site: Site, *, level: float) -> LivedYears:
    """Return what is shown of years; `live` gives the life of a number again.

    The usual year is the middle one by its stalled days, the bad one is worse than nineteen of twenty.
    """
    order = sorted(range(len(outcomes)), key=lambda number: (outcomes[number].stalled_days, number))
    usual, bad = order[(len(order) - 1) // 2], order[round(BAD_FRAC * (len(order) - 1))]
    life = live(usual)
    return LivedYears(
        len(outcomes),
        life.days[0].on,
        life.days[-1].on,
        level,
        by_week(outcomes),
        lived_year(life, site, usual),
        lived_year(live(bad), site, bad),
    )


def lived_year(life: Life, site: Site, number: int) -> LivedYear:
    """Return a life as rows of vessels."""
    stays: dict[str, list[Stay]] = {each.id: [] for each in site.vessels}
    for batch in life.batches:
        stays[batch.vessel].append(_stay(batch))
    rows = tuple(YearRow(name, tuple(sorted(held, key=lambda each: each.first_layer))) for name, held in stays.items())
    stalls = tuple((Span(first, last), binding) for first, last, binding in life.stalls())
    return LivedYear(number, life.stalled_days, rows, stalls)


def _stay(batch: BatchLife) -> Stay:
    gone = batch.failed_on or (batch.placed_on if batch.is_placed else None)
    return Stay(batch.first_layer_on, batch.sealed_on, batch.ready_on, gone, batch.failed_on is not None)
