"""The year as a table: the same data as the drawing, for who does not see it or wants to search it."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from sourloam.draw.scale import day_words
from sourloam.draw.year import BOUND_BY, lots, vessels
from sourloam.plan.answer import Batch, Ground
from sourloam.views.plan import PlanView

Row = tuple[str, str, str, str]
COLUMNS: Final[Row] = ("What", "From", "To", "What happens")


def year_table(view: PlanView) -> tuple[Row, ...]:
    """Return the rows under `COLUMNS`: vessels, places, shut ground, stalls, bran; each in the order of its days."""
    return (*_stalls(view), *_vessels(view), *_shut(view), *_places(view), *_bran(view))


def _day(day: date | None) -> str:
    return f"{day_words(day)} {day.year}" if day else ""


def _stalls(view: PlanView) -> Iterator[Row]:
    for each in view.stalls:
        yield "No room", _day(each.first), _day(each.last), BOUND_BY.get(each.binding, each.binding)


def _vessels(view: PlanView) -> Iterator[Row]:
    for vessel in vessels(view):
        if not vessel.batches:
            yield vessel.name, "", "", "not used"
        for batch in vessel.batches:
            yield from _batch(view, vessel.name, batch)


def _batch(view: PlanView, name: str, batch: Batch) -> Iterator[Row]:
    yield name, _day(batch.first_layer), _day(batch.sealed), f"filling, {view.speech.kg(batch.scraps_kg)} of scraps"
    if batch.sealed and batch.ready is None:
        yield name, _day(batch.sealed), "", "fermenting; we do not know when it is ready"
    elif batch.sealed:
        low, late = _day(batch.ready_low), _day(batch.ready_high) or "later than we looked"
        yield name, _day(batch.sealed), _day(batch.ready), f"fermenting; ready between {low} and {late}, 9 in 10"
    for each in batch.placings:
        yield name, _day(each.on), "", f"{view.speech.kg(each.mass_kg)} to {view.names.get(each.place, each.place)}"
    if batch.waits_for:
        yield name, _day(batch.ready), "", f"waits: {batch.waits_for}"


def _shut(view: PlanView) -> Iterator[Row]:
    for word, spans in (("frozen", view.frozen), ("closed", view.closed)):
        for span in spans:
            yield "All beds", _day(span.first), _day(span.last), word


def _places(view: PlanView) -> Iterator[Row]:
    for each in view.ground:
        name = view.names.get(each.place, each.place)
        if not each.got_kg:
            yield name, "", "", "gets none"
        yield from _received(view, name, each)
        for crop, on, warning in each.plantings:
            yield name, _day(on), "", f"{crop} is planted" + (f"; {warning}" if warning else "")


def _received(view: PlanView, name: str, place: Ground) -> Iterator[Row]:
    placings = (each for batch in view.batches for each in batch.placings if each.place == place.place)
    for each in sorted(placings, key=lambda each: each.on):
        rests = each.usable_on > each.on and place.kind != "taker"
        yield (
            name,
            _day(each.on),
            _day(each.usable_on) if rests else "",
            f"gets {view.speech.kg(each.mass_kg)}" + (", then rests" if rests else ""),
        )


def _bran(view: PlanView) -> Iterator[Row]:
    for each in lots(view):
        yield "Bran", _day(each.begin), _day(each.dry) if each.dry > each.begin else "", ", ".join(each.words)
    lowest = min(view.bran_on_hand, key=lambda each: each[1], default=None)
    if lowest:
        yield "Bran", _day(lowest[0]), "", f"least in the bag: {view.speech.kg(lowest[1])}"
