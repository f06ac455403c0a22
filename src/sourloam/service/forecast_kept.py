"""The kept forecasts as readers take them: the last one of each batch, and a plan that goes by them."""

import hashlib
import json
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any, Final

import numpy as np

from sourloam.fleet.setting import temperatures_c
from sourloam.logbook.kept import batch_plain
from sourloam.logbook.state import BatchRecord, State
from sourloam.plan.question import Question
from sourloam.science.ferment.clock import clock_rate
from sourloam.service.book import Book, Known
from sourloam.service.so_far import state_of
from sourloam.site.situation import Situation, VesselState
from sourloam.store.forecasts import forecasts
from sourloam.views.forecast import KeptForecast, kept_of

LEAST_TIMES: Final = 0.05  # a batch that is ready at once


def kept_forecasts(book: Book, known: Known, *, state: State | None = None) -> Mapping[str, KeptForecast]:
    """Return the last forecast of each batch, with whether it was made from what is so now."""
    now = state or state_of(book, known)
    if now.situation is None:
        return {}
    records = {each.batch: now.batch(each) for each in now.situation.vessels if each.phase != "empty"}
    found = {}
    for row in forecasts(book.where, book.site):
        record = records.get(row.batch)
        if record is not None:
            is_current = row.entry == key_of(record, now, known) and row.model.startswith(known.made_by)
            made = datetime.fromisoformat(row.made)
            found[row.batch] = kept_of(row.batch, made, json.loads(row.text), is_current=is_current)
    return found


def by_forecast(question: Question, forecasts: Mapping[str, KeptForecast], known: Known) -> Situation:
    """Return the situation of a question with each sealed batch ready when its forecast says.

    The plan lives by a thermal clock; a batch that the forecast has ready later or sooner takes so many times as long.
    """
    situation = question.situation
    for vessel in situation.vessels:
        kept = forecasts.get(vessel.batch)
        ready = kept.due.middle if kept and kept.is_current else None
        if ready is None or vessel.phase != "fermenting" or vessel.sealed_on is None:
            continue
        if ready <= question.first:
            situation = situation.with_vessel(vessel._replace(phase="ready", ready_on=ready))
            continue
        times = takes_times(question, vessel, ready, known)
        situation = situation.with_vessel(vessel._replace(takes_times=times))
    return situation


def takes_times(question: Question, vessel: VesselState, ready: date, known: Known) -> float:
    """Return how many times the usual a batch takes that is ready on a day."""
    assert vessel.sealed_on is not None  # noqa: S101 - it is sealed
    numbers = known.numbers
    where = next(each for each in question.site.vessels if each.id == vessel.vessel)
    warmth = temperatures_c(
        where, vessel.sealed_on + timedelta(days=1), (ready - vessel.sealed_on).days, question.climate
    )
    limits = {"least_c": numbers.least_c, "best_c": numbers.best_c, "most_c": numbers.most_c}
    clock_d = float(np.sum(clock_rate(np.asarray(warmth), **limits))) if warmth else 0.0
    return max(clock_d / numbers.ready_at_20c_d, LEAST_TIMES)


def key_of(record: BatchRecord, state: State | None, known: Known) -> str:
    """Return what a forecast was made from: all that the record says of a batch, where it stands, and of which site."""
    assert state is not None  # noqa: S101 - there is a batch
    stands = state.stands.get(record.vessel, "")
    past = state.past
    said: list[Any] = [batch_plain(record), stands, state.text, past.batches, past.failed]
    whole = json.dumps(said, sort_keys=True, default=str)
    return hashlib.sha256(whole.encode()).hexdigest()


def model_of(known: Known, members: int) -> str:
    """Return by what a forecast was made: this release, its tables, and in how many cases."""
    return f"{known.made_by} {members}"[:64]
