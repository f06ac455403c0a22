"""The plan as dated tasks. An id is KIND:SUBJECT and stays when its day moves; a repeated one adds its ordinal."""

from collections import Counter
from collections.abc import Iterator
from datetime import date
from typing import Final

from sourloam.fleet.life import Life
from sourloam.plan.answer import Batch, BranLot, Ground, Task
from sourloam.plan.question import Question
from sourloam.plan.words import place_words, when

# In the order in which a keeper goes about a day: what is in the way first, then what fills up again.
KINDS: Final = ("buy", "hold", "place", "draw", "seal", "fill", "rice", "milk", "strain", "mix", "dry", "bag", "plant")
SLOW_D: Final = 45  # JUDGEMENT: about three times the fortnight that a warm place takes
SERUM_STEPS: Final = ("rice", "milk", "strain")


def tasks(
    question: Question, life: Life, batches: tuple[Batch, ...], *, lots: tuple[BranLot, ...], places: tuple[Ground, ...]
) -> tuple[Task, ...]:
    """Return the tasks of the year, earliest first."""
    found = [
        *_of_batches(question, batches),
        *_draw_offs(question, life),
        *_stalls(question, life),
        *_of_bran(lots),
        *_plantings(question, places),
    ]
    return tuple(sorted((each for each in found if each.date >= question.first), key=_in_the_order_of_a_day))


def _in_the_order_of_a_day(task: Task) -> tuple[date, int, str]:
    kind = task.id.partition(":")[0]
    return task.date, KINDS.index(kind), task.id


def _of_batches(question: Question, batches: tuple[Batch, ...]) -> Iterator[Task]:
    speech = question.speech
    for batch in batches:
        name = question.site.name_of(batch.vessel)
        if batch.first_layer >= question.first:
            yield Task(
                f"fill:{batch.id}", batch.id, batch.first_layer, f"Begin to fill {name}", _why_now(batch, batches)
            )
        if batch.sealed is not None:
            yield Task(
                f"seal:{batch.id}",
                batch.id,
                batch.sealed,
                f"Press {name} down and seal it",
                f"It is full, with {speech.kg(batch.scraps_kg)} of scraps and {speech.kg(batch.bran_kg)} of bran."
                f"{_in_the_cold(batch)}",
            )
        yield from _placings(question, batch)


def _in_the_cold(batch: Batch) -> str:
    """Say where a vessel stands too cold to sour in a reasonable time."""
    if batch.sealed is None or (batch.ready is not None and (batch.ready - batch.sealed).days <= SLOW_D):
        return ""
    until = f"before {when(batch.ready)}" if batch.ready else "this year"
    return f" Where it stands it does not get ready {until}: let it ferment indoors."


def _why_now(batch: Batch, batches: tuple[Batch, ...]) -> str:
    before = any(each.sealed == batch.first_layer for each in batches)
    return "The one before it is full." if before else "It is empty, and next in the row."


def _placings(question: Question, batch: Batch) -> Iterator[Task]:
    name = question.site.name_of(batch.vessel)
    several = len(batch.placings) > 1
    for number, placing in enumerate(batch.placings, start=1):
        ordinal = f"/{number}" if several else ""
        act, after = place_words(question.site, placing.place)
        then = after.format(day=when(placing.usable_on))
        rest = (
            "The rest waits: press it down and shut it. " if batch.waits_for and number == len(batch.placings) else ""
        )
        yield Task(
            f"place:{batch.id}{ordinal}",
            batch.id,
            placing.on,
            f"{act.format(what=question.speech.kg(placing.mass_kg), vessel=name)}",
            f"{_ready(batch, placing.on)} {rest}{then}{_terms(question, placing.place)}".strip(),
        )


def _terms(question: Question, place: str) -> str:
    """Return what a taker asks for, as the keeper wrote it."""
    terms = next((each.terms for each in question.site.takers if each.id == place), "")
    return f'Agreed: "{terms.rstrip(".")}".' if terms else ""


def _ready(batch: Batch, on: date) -> str:
    """Say when it was forecast to be ready, and what to do if it is not: the nose goes before the forecast."""
    if batch.ready is None or batch.ready_high is None or batch.ready_high <= on:
        return f"Ready about {when(batch.ready)}." if batch.ready else "Ready."
    again = f"shut it and look again on {when(batch.ready_high)}"
    return f"Ready about {when(batch.ready)}; if it does not smell sour yet, {again}."


def _stalls(question: Question, life: Life) -> Iterator[Task]:
    """Give what to do when scraps have nowhere to go."""
    for number, (first, last, binding) in enumerate(life.stalls(), start=1):
        why = "finished batches wait for a place" if binding == "places" else "all vessels are still fermenting"
        what = f"No vessel is free until {when(last)}: keep scraps in the freezer, or give them away"
        yield Task(f"hold:scraps/{number}", "scraps", first, what, f"{why[0].upper()}{why[1:]}.")


def _draw_offs(question: Question, life: Life) -> Iterator[Task]:
    count: Counter[str] = Counter()
    for draw in life.draw_offs:
        count[draw.batch] += 1
        name = question.site.name_of(draw.batch.partition("/")[0])
        yield Task(
            f"draw:{draw.batch}/{count[draw.batch]}",
            draw.batch,
            draw.on,
            f"Draw off {name}",
            f"About {question.speech.litres(draw.litres)} stand below the grid; liquid that stands turns foul.",
        )


def _of_bran(lots: tuple[BranLot, ...]) -> Iterator[Task]:
    for lot in lots:
        for kind, on, what in lot.steps:
            subject = f"{'serum' if kind in SERUM_STEPS else 'bran'}/{lot.number}"
            yield Task(
                f"{kind}:{subject}",
                subject,
                on,
                what,
                f"For the bran from {when(lot.usable_on)} to {when(lot.lasts_until)}.",
            )


def _plantings(question: Question, places: tuple[Ground, ...]) -> Iterator[Task]:
    for place in places:
        told = zip(place.plantings, place.harvests, strict=True)
        for number, ((crop, on, warning), harvest) in enumerate(told, start=1):
            name = question.site.name_of(place.place)
            sentences = (warning or "the bed has rested", harvest)
            because = " ".join(f"{each[:1].upper()}{each[1:]}." for each in sentences if each)
            what = f"{crop[:1].upper()}{crop[1:]} goes into {name}"
            yield Task(f"plant:{place.place}/{number}", place.place, on, what, because)
