"""Use cases: what is so now and what to do, and the plan of the year, both from the logbook."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from sourloam.base.errors import BadInput, Problem
from sourloam.logbook.state import Impossible, State
from sourloam.plan.question import Question
from sourloam.plan.soon import soon
from sourloam.plan.year import plan_year
from sourloam.service.assemble import question_of
from sourloam.service.book import Book, Known, moment, now_utc, without_damaged
from sourloam.service.so_far import state_of
from sourloam.site.situation import Situation
from sourloam.sitefile.read import SiteFile
from sourloam.views.plan import PlanView, view_of
from sourloam.views.today import TodayView, today_view

AHEAD_D = 120  # a batch begun today is placed by then; what lies later is the year's plan to say


def today(book: Book, on: date | None = None) -> TodayView:
    """Return what is so on a day, today if none is named, and what to do from then on.

    Raises
    ------
    BadInput
        If the book holds no site.
    """
    known = Known()
    state = _state(book, known, on)
    day = on or moment(state.must()[0], now_utc(), None).date()
    tasks, planned = soon(replace(question_of_state(state, day), days=AHEAD_D))
    return today_view(state, tasks, planned, day)


def plan_book(book: Book, on: date | None = None) -> PlanView:
    """Plan a year from what is so by the book.

    Raises
    ------
    BadInput
        If the book holds no site.
    """
    state = _state(book, Known(), on)
    site = state.must()[0]
    question = question_of_state(state, on or moment(site, now_utc(), None).date())
    names = {each.id: site.name_of(each.id) for part in site.parts().values() for each in part}
    return view_of(plan_year(question), names, question.sources)


def question_of_state(state: State, on: date) -> Question:
    """Return the question of a plan from what is so: the vessels as they are, the stocks, what became of batches.

    A batch that failed is taken out of its vessel first, as today's list says; so the plan begins without it.
    """
    site, situation = state.must()
    stock = replace(site.stock, bran_kg=situation.bran_kg, serum_l=situation.serum_l)
    now = replace(without_damaged(site, state), stock=stock, past=state.past)
    asked = question_of(SiteFile(now, ()), Path(), today=on)
    return replace(asked, situation=_without_failed(state, situation)._replace(on=on))


def _without_failed(state: State, situation: Situation) -> Situation:
    vessels = tuple(
        each.emptied() if each.phase != "empty" and state.batch(each).failed else each for each in situation.vessels
    )
    return situation._replace(vessels=vessels)


def _state(book: Book, known: Known, on: date | None) -> State:
    state = state_of(book, known, until=on)
    try:
        state.must()
    except Impossible:
        remedy = "name a later day, or take the site in with an earlier first one."
        raise BadInput("logbook", (Problem("", f"nothing stands in it yet on {on};", remedy),)) from None
    return state
