"""The day on which no vessel is free, and what each way out of it gains."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Final

from sourloam.base.days import after
from sourloam.base.figure import Figure
from sourloam.fleet.arrivals import usual_day
from sourloam.fleet.life import BatchLife, Life
from sourloam.plan.question import Question
from sourloam.plan.words import days, when

FREEZER_L: Final = 10.0  # a drawer of a freezer, for a comparison


def clash_hints(question: Question, life: Life, figures: Mapping[str, Figure]) -> Iterator[str]:
    """Say what to do about the first time in which no vessel is free.

    That a ripe batch may wait in a barrel or be finished in a box or a trench is
    common practice, no source.
    """
    if not life.stalls():
        return
    first = life.stalls()[0][0]
    a_day = usual_day(question.site.streams, question.knowledge.materials)
    gains = (
        f"{question.speech.size(FREEZER_L)} in the freezer gain {days(FREEZER_L / a_day.loose_l)}, "
        f"one more vessel {days(figures['holds_kg'].value / a_day.scraps_kg)}"
    )
    ripe = ((each, _ripe_on(question, each)) for each in _sealed(life, first))
    soonest = min(((on, each.vessel, each) for each, on in ripe if on), default=None)
    early = _early(question, soonest[2], soonest[0]) if soonest else ""
    yield (f"From {when(first)} no vessel is free: {gains}. {early}A part-filled vessel may be sealed too.")


def _sealed(life: Life, on: date) -> list[BatchLife]:
    """Return the batches that lie sealed on a day."""
    return [
        each
        for each in life.batches
        if each.sealed_on and each.sealed_on <= on and not (each.placed_on and each.placed_on < on)
    ]


def _ripe_on(question: Question, batch: BatchLife) -> date | None:
    """Return from when a batch may leave its vessel: ready, and sealed for the keeper's least time."""
    if batch.sealed_on is None or batch.ready_on is None:
        return None
    return max(after(batch.sealed_on, question.site.keeper.least_d), batch.ready_on)


def _early(question: Question, batch: BatchLife, on: date) -> str:
    """Say from when a batch may leave its vessel for a place that is no place of the plan."""
    sealed_d = days((on - (batch.sealed_on or on)).days)
    may = f"{question.site.name_of(batch.vessel)} may be emptied from {when(on)}, {sealed_d} after it was sealed"
    return f"{may}, into a barrel, a box of soil or a trench if no place is ready. "
