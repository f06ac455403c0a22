"""Use case: what is so now and what to do, from the logbook and the forecasts that are kept beside it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.evidence.cautions import load_cautions
from sourloam.logbook.state import Impossible, State
from sourloam.plan.answer import Batch, Task
from sourloam.plan.soon import soon
from sourloam.service.book import Book, Known, moment, now_utc
from sourloam.service.forecast_kept import by_forecast, kept_forecasts
from sourloam.service.named import question_of_state
from sourloam.service.so_far import state_of
from sourloam.views.forecast import KeptForecast
from sourloam.views.status import StatusView, status_view
from sourloam.views.today import TodayView, today_view

FAILED: Final = "a-batch-that-failed"
AHEAD_D = 120  # a batch begun today is placed by then; what lies later is the year's plan to say


@dataclass(frozen=True)
class Ahead:
    """What lies ahead: the jobs, the batches as they are planned, and the forecasts that both go by."""

    tasks: tuple[Task, ...]
    planned: tuple[Batch, ...]
    forecasts: Mapping[str, KeptForecast]


def today(book: Book, on: date | None = None, *, known: Known | None = None) -> TodayView:
    """Return what is so on a day, today if none is named, and what to do from then on.

    Raises
    ------
    BadInput
        If the book holds no site.
    """
    known = known or Known()
    state = _state(book, known, on)
    day = on or moment(state.must()[0], now_utc(), None).date()
    return today_of(state, looked_ahead(book, known, state, day), day, now_utc())


def looked_ahead(book: Book, known: Known, state: State, day: date) -> Ahead:
    """Return what is to do from a day on, by the forecasts that are kept."""
    forecasts = kept_forecasts(book, known, state=state)
    question = replace(question_of_state(state, day), days=AHEAD_D)
    tasks, planned = soon(replace(question, situation=by_forecast(question, forecasts, known)))
    return Ahead(tasks, planned, forecasts)


def today_of(state: State, ahead: Ahead, day: date, now: datetime) -> TodayView:
    """Return what is shown on a day; forecasts with their age at a moment."""
    return today_view(state, ahead.tasks, ahead.planned, day, forecasts=ahead.forecasts, failed=_advice(), now=now)


def status(book: Book, on: date | None = None, *, known: Known | None = None) -> StatusView:
    """Return how everything stands on a day, today if none is named.

    Raises
    ------
    BadInput
        If the book holds no site.
    """
    state = _state(book, known or Known(), on)
    day = moment(state.must()[0], now_utc(), None).date()
    return status_view(state, on or max(day, state.last.on if state.last else day))  # a record may run ahead


def _advice() -> str:
    """Return what the table of cautions says of a batch that failed."""
    return next(each.text for each in load_cautions() if each.id == FAILED)


def _state(book: Book, known: Known, on: date | None) -> State:
    state = state_of(book, known, until=on)
    try:
        state.must()
    except Impossible:
        remedy = "name a later day, or take the site in with an earlier first one."
        raise BadInput("logbook", (Problem("", f"nothing stands in it yet on {on};", remedy),)) from None
    return state
