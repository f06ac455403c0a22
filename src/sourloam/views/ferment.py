"""What the forecast of a batch may show."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech, converted, days
from sourloam.science.batch.cautions import Caution
from sourloam.science.ferment.ensemble.changes import Change
from sourloam.science.ferment.ensemble.failing import Failing
from sourloam.science.ferment.ensemble.forecast import Band, Forecast
from sourloam.science.ferment.ensemble.past import Past
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.views import ferment_words as words
from sourloam.views.batch import Batch
from sourloam.views.ferment_verdict import HALF, RARE, chance_words, is_overfilled, is_told, verdict
from sourloam.views.ferment_vessel import CutOpen, cut_open
from sourloam.views.mix import ToDo
from sourloam.views.reason import Number, Reason, number_of, reason_of

CHANCE: Final = "chance_not_ready"
DATES: Final = ("soured_day", "ready_day", "due_day", "hold_day")
AMOUNTS: Final = (
    "final_ph",
    "lactic_g_per_kg",
    "leachate_l",
    "leachate_forage_l",
    "leachate_ec_ds_m",
    "leachate_nitrogen_g_per_l",
    "leachate_potassium_g_per_l",
    "sinks_cm",
    "dry_matter_loss_pct",
    "nitrogen_loss_pct",
    "gas_l",
)
DO: Final = MappingProxyType(
    {
        "more bran": "Strew {dose} more bran on each {one}",
        "bran": "Strew {dose} of bran on each {one}",
        "sugar": "Strew {dose} of sugar on each {one}",
        "dry stuff": "Mix {dose} of cardboard, torn small, into each {one}",
        "warmer": "Stand it where it is {warmth}",
        "cooler": "Stand it in the shade or indoors, where it is {warmth}",
        "film": "Press a film onto the scraps, up to the wall, each time before the lid goes on",
        "tamp and seal": "Press it down with a weight, and make the lid tight to air",
        "drain": "Give the liquid a way out, and draw it off every {days}",
        "draw": "Draw the liquid off every {days}",
        "wait": "Leave it shut for {days} more",
    }
)


@dataclass(frozen=True)
class FailingView:
    """A way in which it may go wrong."""

    kind: str
    rank: int
    word: str
    often: str  # in how many cases: "3 of 20"
    because: str
    share: float  # of all cases, beside the words for it


@dataclass(frozen=True)
class CourseView:
    """A quantity day by day; nothing on days on which there is none."""

    median: tuple[float | None, ...]
    low: tuple[float | None, ...]
    high: tuple[float | None, ...]
    inner_low: tuple[float | None, ...]  # half of all cases lie between these two
    inner_high: tuple[float | None, ...]
    unit: str


@dataclass(frozen=True)
class FermentView:
    """The forecast of a batch."""

    batch: Batch
    heading: str
    says: str  # the heading, and how often it goes wrong
    is_likely: bool  # in more than half of all cases it gets there and nothing spoils it; it fits, and is laid in well
    goes_wrong: str  # in how many cases it is never ready or spoils: "3 of 20"
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
    beside: Mapping[str, Figure],
    changes: Sequence[Change],
    sources: Mapping[str, Source],
    cautions: Mapping[str, Caution],
    vessel: VesselParameters,
) -> FermentView:
    """Return what may be shown of a forecast, and of figures `beside` those of the model."""
    figures = {**forecast.figures, **beside}
    numbers = tuple(_number(figures[each]) for each in (*DATES, CHANCE, *AMOUNTS) if each in figures)
    reasons = {each.name: replace(reason_of(figures[each.name], sources), number=each) for each in numbers}
    ready = reasons["ready_day"]
    said = verdict(forecast, batch, vessel)
    is_over = is_overfilled(batch, vessel)
    return FermentView(
        batch=batch,
        heading=said.heading,
        says=f"{said.heading} {said.rest}",
        is_likely=said.is_likely,
        goes_wrong=chance_words(forecast.goes_wrong_frac, is_known=forecast.past.tells),
        numbers=numbers,
        reasons=reasons,
        day=tuple(range(len(forecast.course["ph"].median))),
        course={name: _course(band) for name, band in forecast.course.items()},
        failing=tuple(_failing(each, forecast.past) for each in forecast.failing),
        because=" ".join(words.because(forecast, batch, ready.strongest)),
        advice=() if is_over else tuple(_to_do(each, batch) for each in changes if _is_for(each, batch)),
        hints=tuple(words.hints(forecast, batch, is_over=is_over)),
        cautions=tuple(words.cautions(batch, figures, cautions, is_likely=said.is_likely)),
        vessels=_vessels(forecast, batch, vessel),
    )


def _number(figure: Figure) -> Number:
    """Return a figure as it is shown.

    A date stands only where half of the cases get there; a chance is the share
    of cases, which is never told finer than 1 in 50.
    """
    if figure.name in DATES and not is_told(figure):
        return Number(figure.name, figure.words, None, None, None, figure.unit, figure.never_frac)
    if figure.name != CHANCE:
        return number_of(figure)
    share = float(np.mean(figure.members))
    low, high = words.interval_of(share, figure.members.size)
    return Number(figure.name, figure.words, share, low if low >= RARE else 0.0, max(high, RARE), "1")


def _course(band: Band) -> CourseView:
    return CourseView(
        words.plain(band.median),
        words.plain(band.low),
        words.plain(band.high),
        words.plain(band.inner_low),
        words.plain(band.inner_high),
        band.unit,
    )


def _failing(failing: Failing, past: Past) -> FailingView:
    often = chance_words(failing.chance, is_known=past.tells)
    return FailingView(failing.kind.value, failing.rank, failing.word, often, failing.because, failing.chance)


def _is_for(change: Change, batch: Batch) -> bool:
    """Whether a remedy is told: where meat lies without bran, nothing else goes before bran."""
    return not batch.unguarded or change.do == "more bran"


def _to_do(change: Change, batch: Batch) -> ToDo:
    """Return a remedy that was tried, with what it gives."""
    speech, kind = batch.speech, change.do
    if kind == "drain" and batch.has_drain:
        kind = "draw"
    if kind == "more bran" and not any(each.bran for each in batch.filling.layers):
        kind = "bran"
    one = "pound" if speech.is_us else "kilogram"
    dose = speech.kg(converted(change.amount / 1000.0, "lb" if speech.is_us else "kg", "kg"))
    warmth = speech.celsius(change.amount) if change.unit == "Cel" else ""
    do = DO.get(kind, kind).format(dose=dose, one=one, warmth=warmth, days=days(change.amount))
    return ToDo(do, change.amount, change.unit, gives(change))


def gives(change: Change) -> str:
    """Say in how many cases fewer something goes wrong with a remedy, and how much sooner the others are ready.

    Differences are told, since a remedy is tried on fewer cases than the batch itself.
    """
    fewer = round(20.0 * (change.failing_before_frac - change.failing_frac))
    told = [f"then {fewer} of 20 cases fewer go wrong"] if fewer > 0 else []
    before, after = change.ready_before_d, change.ready_d
    if np.isfinite(after) and not np.isfinite(before):
        told.append(f"most cases get ready, about day {after:.0f}")
    elif np.isfinite(after) and round(before - after) > 0:
        told.append(f"it is ready {days(before - after)} sooner")
    said = ", and ".join(told) or "then it sours more surely"
    still = chance_words(change.failing_frac)
    return f"{said}, though it still goes wrong in {still} cases" if change.failing_frac >= HALF else said


def _vessels(forecast: Forecast, batch: Batch, vessel: VesselParameters) -> tuple[CutOpen, ...]:
    last, end = int(np.ceil(batch.last_d)), len(forecast.course["ph"].median) - 1
    due = forecast.figures["due_day"]
    later = min(last + round(due.value), end) if is_told(due) else end
    first = cut_open(forecast, batch, last, "when the last layer lies", vessel=vessel)
    then = f"{'when it is due' if is_told(due) else 'when the days are over'}, day {round(later - batch.last_d)}"
    return (first, cut_open(forecast, batch, later, then, vessel=vessel)) if later > last else (first,)
