"""Use case: what became of a task of today's list, by its id: done, put off, or not needed.

A task that says what was done by itself (a vessel sealed, a batch placed, liquid drawn off, a step of the culture) is
written down as that too, so that the record says what happened and not only that a task is off the list.
"""

from dataclasses import replace
from datetime import date, timedelta
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.logbook.entries import STEPS, Culture, DrawOff, Placed, Sealed, TaskKept, Value
from sourloam.logbook.state import State
from sourloam.plan.soon import soon
from sourloam.service.book import Book, Known, moment, now_utc
from sourloam.service.forecast_kept import by_forecast, kept_forecasts
from sourloam.service.named import question_of_state
from sourloam.service.record import By, log_value
from sourloam.service.so_far import state_of
from sourloam.views.logbook import RecordView

LOOKED_D: Final = 120
WANTS: Final = {"bag": "bran_kg", "strain": "serum_l", "mix": "serum_l", "milk": "milk_l", "rice": "water_l"}


def task_done(
    book: Book, task: str, by: By, *, amount: float | None = None, known: Known | None = None
) -> tuple[RecordView, ...]:
    """Keep that a task was done, and what it says was done; `amount` in kg or L where it took or gave one.

    Sent twice with the same id, it is kept once.

    Raises
    ------
    BadInput
        If there is no such task, or it cannot have been done.
    """
    known, by = known or Known(), replace(by, id=by.named())
    state = state_of(book, known)
    said = _said(book, task, state, amount, known=known, on=_day(state, by))
    views = []
    if said is not None:
        views.append(log_value(book, said, replace(by, id=f"{by.id}-did"), known=known))
    return (*views, log_value(book, TaskKept(task, "done"), by, known=known))


def task_put_off(book: Book, task: str, until: date, by: By, *, known: Known | None = None) -> RecordView:
    """Keep that a task was put off until a day.

    Raises
    ------
    BadInput
        If that day has passed.
    """
    known = known or Known()
    today = _day(state_of(book, known), by)
    if until <= today:
        problem = Problem("", f"{until} is not after {today};", "name a later day.")
        raise BadInput(f"task {task}", (problem,))
    return log_value(book, TaskKept(task, "put-off", until), by, known=known)


def task_not_needed(book: Book, task: str, by: By, *, known: Known | None = None) -> RecordView:
    """Keep that a task is not needed: it is on no list any more."""
    return log_value(book, TaskKept(task, "not-needed"), by, known=known or Known())


def _day(state: State, by: By) -> date:
    return by.on or moment(state.must()[0], now_utc(), None).date()


def _said(book: Book, task: str, state: State, amount: float | None, *, known: Known, on: date) -> Value | None:
    """Return the entry that a task stands for, or nothing where it stands for none, or what it says is so already."""
    kind, _, subject = task.partition(":")
    vessel = subject.partition("/")[0]
    if kind == "seal":
        return Sealed(vessel) if state.vessel(vessel).phase == "filling" else None
    if kind == "draw":
        return DrawOff(vessel, amount) if amount is not None else None
    if kind == "place":
        return _placing(book, task, state, amount, known=known, on=on)
    if kind in STEPS:
        return _step(kind, amount)
    return None


def _step(kind: str, amount: float | None) -> Value | None:
    if kind == "bag" and amount is None:
        problem = Problem("", "how much bran came dry is not said;", "say how many kilograms.")
        raise BadInput("bag", (problem,))
    given = {WANTS[kind]: amount} if amount is not None and kind in WANTS else {}
    return Culture(kind, **given)  # type: ignore[arg-type]


def _placing(book: Book, task: str, state: State, amount: float | None, *, known: Known, on: date) -> Value | None:
    """Return where a batch went by the plan of that day: all of it, or the part that the task names."""
    question = question_of_state(state, on)
    situation = by_forecast(question, kept_forecasts(book, known, state=state), known)
    _, planned = soon(replace(question, situation=situation, days=LOOKED_D))
    vessel, _, number = task.partition(":")[2].partition("/")
    filling, _, part = number.partition("/")
    batch = next((each for each in planned if each.id == f"{vessel}/{filling}"), None)
    if state.vessel(vessel).phase == "empty":
        return None
    if batch is None or not batch.placings or batch.placings[0].on > on + timedelta(days=LOOKED_D):
        problem = Problem("", "where it went is not planned;", f'write "{vessel} to PLACE".')
        raise BadInput(f"task {task}", (problem,))
    chosen = batch.placings[min(int(part or 1), len(batch.placings)) - 1]
    is_whole = len(batch.placings) == 1 and amount is None
    return Placed(vessel, chosen.place, None if is_whole else amount or chosen.mass_kg)
