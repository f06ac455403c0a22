"""What the forecast of a batch may show."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech, days
from sourloam.science.batch.cautions import Caution
from sourloam.science.ferment.ensemble.changes import Change
from sourloam.science.ferment.ensemble.failing import Failing
from sourloam.science.ferment.ensemble.forecast import Band, Forecast
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.views import ferment_words as words
from sourloam.views.batch import Batch
from sourloam.views.ferment_vessel import CutOpen, cut_open
from sourloam.views.mix import ToDo
from sourloam.views.reason import Number, Reason, number_of, reason_of

CHANCE: Final = "chance_not_ready"
DATES: Final = ("soured_day", "ready_day", "due_day", "hold_day")
AMOUNTS: Final = (
    "final_ph",
    "lactic_g_per_kg",
    "leachate_l",
    "dry_matter_loss_pct",
    "nitrogen_loss_pct",
    "gas_l",
)
DO: Final = MappingProxyType(
    {
        "more bran": "Strew {amount:.0f} g more bran on each kilogram",
        "sugar": "Strew {amount:.0f} g of sugar on each kilogram",
        "dry stuff": "Mix {amount:.0f} g of torn cardboard into each kilogram",
        "warmer": "Stand it where it is {warmth}",
        "tamp and seal": "Press it down with a weight, and make the lid tight to air",
        "drain": "Give the liquid a way out, and draw it off every {days}",
        "wait": "Leave it shut for {days} more",
    }
)


@dataclass(frozen=True)
class FailingView:
    """A way in which it may go wrong."""

    kind: str
    rank: int
    word: str
    because: str


@dataclass(frozen=True)
class CourseView:
    """A quantity day by day; nothing on days on which there is none."""

    median: tuple[float | None, ...]
    low: tuple[float | None, ...]
    high: tuple[float | None, ...]
    unit: str


@dataclass(frozen=True)
class FermentView:
    """The forecast of a batch."""

    batch: Batch
    heading: str
    says: str  # the heading, and how often it is otherwise
    is_likely: bool  # it gets there, and does not spoil, in more than half of all cases
    numbers: tuple[Number, ...]
    reasons: Mapping[str, Reason]
    day: tuple[int, ...]  # from the first layer
    course: Mapping[str, CourseView]
    failing: tuple[FailingView, ...]
    because: str
    advice: tuple[ToDo, ...]
    hints: tuple[str, ...]
    cautions: tuple[str, ...]
    vessels: tuple[CutOpen, ...]  # when the last layer lies, and when it is due or the days are over

    @property
    def speech(self) -> Speech:
        """Return the units in which the keeper is spoken to."""
        return self.batch.speech

    @property
    def assumptions(self) -> tuple[str, ...]:
        """Return what was taken as given."""
        return self.batch.assumptions

    def number(self, name: str) -> Number | None:
        """Return a number by its name, where there is one."""
        return next((each for each in self.numbers if each.name == name), None)


def ferment_view(
    forecast: Forecast,
    batch: Batch,
    *,
    changes: Sequence[Change],
    sources: Mapping[str, Source],
    cautions: Mapping[str, Caution],
    vessel: VesselParameters,
) -> FermentView:
    """Return what may be shown of a forecast."""
    figures = forecast.figures
    numbers = tuple(_number(figures[each]) for each in (*DATES, CHANCE, *AMOUNTS) if each in figures)
    reasons = {each.name: replace(reason_of(figures[each.name], sources), number=each) for each in numbers}
    ready = reasons["ready_day"]
    heading, chance = words.says(forecast, batch)
    return FermentView(
        batch=batch,
        heading=heading,
        says=f"{heading} {chance}",
        is_likely=max(figures["ready_day"].never_frac, words.failing_chance(forecast.failing[0])) < words.HALF,
        numbers=numbers,
        reasons=reasons,
        day=tuple(range(len(forecast.course["ph"].median))),
        course={name: _course(band) for name, band in forecast.course.items()},
        failing=tuple(_failing(each) for each in forecast.failing),
        because=" ".join(words.because(forecast, batch, ready.strongest)),
        advice=tuple(_to_do(each, batch.speech) for each in changes),
        hints=tuple(words.hints(forecast, batch)),
        cautions=tuple(words.cautions(batch, figures.get("hold_day"), cautions)),
        vessels=_vessels(forecast, batch, vessel),
    )


def _number(figure: Figure) -> Number:
    """Return a figure as it is shown; of a chance the share of cases, which is never told finer than 1 in 50."""
    if figure.name != CHANCE:
        return number_of(figure)
    share = float(np.mean(figure.members))
    low, high = words.interval_of(share, figure.members.size)
    return Number(figure.name, figure.words, share, low if low >= words.RARE else 0.0, max(high, words.RARE), "1")


def _course(band: Band) -> CourseView:
    return CourseView(words.plain(band.median), words.plain(band.low), words.plain(band.high), band.unit)


def _failing(failing: Failing) -> FailingView:
    return FailingView(failing.kind.value, failing.rank, failing.word, failing.because)


def _to_do(change: Change, speech: Speech) -> ToDo:
    """Return a remedy that was tried, with what it gives."""
    warmth = speech.celsius(change.amount) if change.unit == "Cel" else ""
    do = DO.get(change.do, change.do).format(amount=change.amount, warmth=warmth, days=days(change.amount))
    return ToDo(do, change.amount, change.unit, _gives(change))


def _gives(change: Change) -> str:
    """Say what a remedy does to the chance that something goes wrong, and to the day on which it is ready."""
    now, then = (words.chance_words(each) for each in (change.failing_before_frac, change.failing_frac))
    is_fewer = change.failing_before_frac - change.failing_frac >= words.RARE
    told = [] if now == then or not is_fewer else [f"then it goes wrong in {then} cases instead of {now}"]
    before, after = change.ready_before_d, change.ready_d
    if np.isfinite(after) and (not np.isfinite(before) or round(before) != round(after)):
        instead = f"instead of day {before:.0f}" if np.isfinite(before) else "where it was not"
        told.append(f"it is ready on day {after:.0f} {instead}")
    return ", and ".join(told) or "then it sours more surely"


def _vessels(forecast: Forecast, batch: Batch, vessel: VesselParameters) -> tuple[CutOpen, ...]:
    last, end = int(np.ceil(batch.last_d)), len(forecast.course["ph"].median) - 1
    due = forecast.figures["due_day"].value
    is_due = bool(np.isfinite(due))
    later = min(last + round(due), end) if is_due else end
    first = cut_open(forecast, batch, last, "when the last layer lies", vessel=vessel)
    then = f"{'when it is due' if is_due else 'when the days are over'}, day {round(later - batch.last_d)}"
    return (first, cut_open(forecast, batch, later, then, vessel=vessel)) if later > last else (first,)
