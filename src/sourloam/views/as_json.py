"""Views as plain objects for JSON: fields are added, never changed; numbers are finite; dates are ISO 8601."""

from datetime import date
from typing import Any, Final

from sourloam.base.days import Span
from sourloam.plan.answer import Batch, BranLot, Ground, Task
from sourloam.plan.matter import Part
from sourloam.views.plan import PlanView
from sourloam.views.reason import Number, Reason

PLAN: Final = "sourloam.plan/1"
REASON: Final = "sourloam.reason/1"


def plan_object(view: PlanView) -> dict[str, Any]:
    """Return a plan."""
    return {
        "schema": PLAN,
        "site": view.site,
        "first": _day(view.first),
        "last": _day(view.last),
        "summary": " ".join(view.summary),
        "enough": view.enough,
        "figures": {each.name: figure_object(each) for each in view.numbers},
        "batches": [_batch(each) for each in view.batches],
        "tasks": [_task(each) for each in view.tasks],
        "bran": [_lot(each) for each in view.bran],
        "places": [_ground(each) for each in view.ground],
        "matter": {
            "came": [_part(each) for each in view.matter.came],
            "became": [_part(each) for each in view.matter.became],
        },
        "closed": [_span(each) for each in view.closed],
        "frozen": [_span(each) for each in view.frozen],
        "stalls": [
            {"first": _day(each.first), "last": _day(each.last), "binding": each.binding} for each in view.stalls
        ],
        "cures": [{"kind": each.kind, "what": each.what, "stalled_days": each.stalled_days} for each in view.cures],
        "cautions": list(view.cautions),
        "assumptions": list(view.assumptions),
        "hints": list(view.hints),
        "asks": list(view.asks),
    }


def reason_object(reason: Reason) -> dict[str, Any]:
    """Return a reason with all that it rests on."""
    return {"schema": REASON, **_reason(reason)}


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "name": reason.number.name,
        "words": reason.number.words,
        "figure": figure_object(reason.number),
        "formula": reason.formula,
        "source": reason.source,
        "place": reason.place,
        "basis": reason.basis,
        "typed": reason.typed,
        "model": reason.model,
        "strongest": list(reason.strongest),
        "inputs": [_reason(each) for each in reason.inputs],
    }


def figure_object(number: Number) -> dict[str, Any] | None:
    """Return a number with its interval; nothing where it never comes."""
    if number.value is None:
        return None
    held = {"value": number.value, "low": number.low, "high": number.high, "unit": number.unit}
    return held | ({"never": number.never_frac} if number.never_frac else {})


def _batch(batch: Batch) -> dict[str, Any]:
    return {
        "id": batch.id,
        "vessel": batch.vessel,
        "first_layer": _day(batch.first_layer),
        "sealed": _day(batch.sealed),
        "ready": _day(batch.ready),
        "ready_low": _day(batch.ready_low),
        "ready_high": _day(batch.ready_high),
        "placed": _day(batch.placed),
        "place": batch.place,
        "scraps_kg": batch.scraps_kg,
        "bran_kg": batch.bran_kg,
        "placings": [
            {"place": each.place, "on": _day(each.on), "kg": each.mass_kg, "usable": _day(each.usable_on)}
            for each in batch.placings
        ],
        "waits_for": batch.waits_for,
    }


def _task(task: Task) -> dict[str, Any]:
    return {"id": task.id, "subject": task.subject, "date": _day(task.date), "what": task.what, "because": task.because}


def _lot(lot: BranLot) -> dict[str, Any]:
    return {
        "id": f"bran/{lot.number}",
        "bran_kg": lot.bran_kg,
        "usable": _day(lot.usable_on),
        "lasts_until": _day(lot.lasts_until),
        "bought_kg": lot.bought_kg,
        "steps": [{"kind": kind, "on": _day(on), "what": what} for kind, on, what in lot.steps],
        "cost": lot.cost,
        "shopping": [{"thing": thing, "amount": amount, "unit": unit} for thing, amount, unit in lot.shopping],
    }


def _ground(place: Ground) -> dict[str, Any]:
    return {
        "id": place.place,
        "kind": place.kind,
        "got_kg": place.got_kg,
        "nitrogen_g": place.nitrogen_g,
        "nitrogen_g_per_m2": place.nitrogen_g_per_m2,
        "free_on": _day(place.free_on),
        "plantings": [
            {"crop": crop, "on": _day(on), "warning": warning, "harvest": harvest}
            for (crop, on, warning), harvest in zip(place.plantings, place.harvests, strict=True)
        ],
    }


def _part(part: Part) -> dict[str, Any]:
    return {"what": part.what, "subject": part.subject, "kg": part.mass_kg}


def _span(span: Span) -> dict[str, Any]:
    return {"first": _day(span.first), "last": _day(span.last)}


def _day(day: date | None) -> str | None:
    return day.isoformat() if day else None
