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
KINDS: Final = ("buy", "place", "draw", "seal", "fill", "rice", "milk", "strain", "mix", "dry", "bag", "plant")
SERUM_STEPS: Final = ("rice", "milk", "strain")


def tasks(
    question: Question, life: Life, batches: tuple[Batch, ...], *, lots: tuple[BranLot, ...], places: tuple[Ground, ...]
) -> tuple[Task, ...]:
    """Return the tasks of the year, earliest first."""
    found = [
        *_of_batches(question, batches),
        *_draw_offs(question, life),
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
                f"It is full, with {speech.kg(batch.scraps_kg)} of scraps and {speech.kg(batch.bran_kg)} of bran.",
            )
        yield from _placings(question, batch)


def _why_now(batch: Batch, batches: tuple[Batch, ...]) -> str:
    before = any(each.sealed == batch.first_layer for each in batches)
    return "The one before it is full." if before else "It is empty, and next in the row."


def _placings(question: Question, batch: Batch) -> Iterator[Task]:
    name = question.site.name_of(batch.vessel)
    several = len(batch.placings) > 1
    for number, placing in enumerate(batch.placings, start=1):
        ordinal = f"/{number}" if several else ""
        act, after = place_words(question.site, placing.place)
        ready = f"Ready about {when(batch.ready)}" if batch.ready else "Ready"
        then = after.format(day=when(placing.usable_on))
        yield Task(
            f"place:{batch.id}{ordinal}",
            batch.id,
            placing.on,
            f"{act.format(what=question.speech.kg(placing.mass_kg), vessel=name)}",
            f"{ready}. {then}".strip(),
        )


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
        for number, (crop, on, warning) in enumerate(place.plantings, start=1):
            name = question.site.name_of(place.place)
            because = warning[:1].upper() + warning[1:] + "." if warning else "The bed has rested."
            what = f"{crop[:1].upper()}{crop[1:]} goes into {name}"
            yield Task(f"plant:{place.place}/{number}", place.place, on, what, because)
