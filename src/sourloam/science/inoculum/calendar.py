"""The dates of a making, whatever it starts from: backwards from the day it is needed, or forwards from today."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.days import after, before
from sourloam.base.figure import Figure, derived
from sourloam.science.inoculum.schedule import Steps, days_in_all

ORDER: Final = ("rice", "milk", "strain", "ferment", "dry")
NEEDED: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "rice_wash": ORDER,
        "rice_only": ("rice", "ferment", "dry"),
        "milk": ("milk", "strain", "ferment", "dry"),
        "serum": ("ferment", "dry"),
        "heel": ("ferment", "dry"),
    }
)
SAFE: Final = 0.9  # share of cases in which a safe start is in time
HARDLY: Final = 0.25  # share of cases in which the latest start is


@dataclass(frozen=True)
class Dated:
    """A step and its days: when by usual times, and after which day it is hardly in time."""

    id: str
    start: date
    latest_start: date
    days: Figure


@dataclass(frozen=True)
class Calendar:
    """All steps of a making."""

    steps: tuple[Dated, ...]
    ready: date  # by usual times
    ready_low: date
    ready_high: date
    safe_start: date  # in time in nine cases of ten
    days: Figure  # from the start to dry bran

    @property
    def start(self) -> date:
        """Return the first day by usual times."""
        return self.steps[0].start


def named(steps: Steps, from_link: str) -> dict[str, Figure]:
    """Return the days of the steps that a start still needs, by name, in the order of making."""
    days = dict(zip(ORDER, steps, strict=True))
    return {each: days[each] for each in NEEDED[from_link]}


def total_d(steps: Mapping[str, Figure]) -> Figure:
    """Return the days of all steps together."""
    return derived("days_ahead", days_in_all, dict(steps), words="days from the start to dry bran")


def backwards(by: date, steps: Mapping[str, Figure]) -> Calendar:
    """Return the dates that give dry bran on a day, by usual times."""
    return _dated(before(by, sum(_whole(list(steps.values())))), by, steps, has_slack=True)


def forwards(first: date, steps: Mapping[str, Figure]) -> Calendar:
    """Return the dates that follow from beginning on a day, by usual times."""
    return _dated(first, after(first, sum(_whole(list(steps.values())))), steps, has_slack=False)


def _dated(first: date, by: date, steps: Mapping[str, Figure], *, has_slack: bool) -> Calendar:
    names, figures = list(steps), list(steps.values())
    on, dated = first, []
    for place, whole in enumerate(_whole(figures)):
        latest = before(by, _quantile(figures[place:], HARDLY)) if has_slack else on
        dated.append(Dated(names[place], on, max(latest, on), figures[place]))
        on = after(on, whole)
    ends = [after(first, _quantile(figures, share)) for share in (0.05, 0.95)]
    safe = before(by, _quantile(figures, SAFE))
    return Calendar(tuple(dated), on, min(ends[0], on), max(ends[1], on), min(safe, first), total_d(steps))


def _whole(figures: Sequence[Figure]) -> list[int]:
    """Return whole days of each step; no step takes less than one."""
    return [max(1, int(np.floor(each.value + 0.5))) for each in figures]


def _quantile(figures: Sequence[Figure], share: float) -> float:
    total = np.sum([each.members for each in figures], axis=0)
    finite = total[np.isfinite(total)]
    return float(np.quantile(finite, share)) if finite.size else 0.0
