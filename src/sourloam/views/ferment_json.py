"""The forecast of a batch as a plain object for JSON."""

from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.ferment import CourseView, FermentView

FERMENT: Final = "sourloam.ferment/1"


def ferment_object(view: FermentView) -> dict[str, Any]:
    """Return a forecast."""
    first = view.batch.first
    return {
        "schema": FERMENT,
        "name": view.batch.name,
        "first": first.isoformat() if first else None,
        "last_layer_day": view.batch.last_d,
        "says": view.says,
        "likely": view.is_likely,
        "goes_wrong": view.goes_wrong,
        "figures": {each.name: figure_object(each) for each in view.numbers},
        "course": {"day": list(view.day)} | {name: _course(each) for name, each in view.course.items()},
        "failing": [
            {"kind": each.kind, "rank": each.rank, "word": each.word, "often": each.often, "because": each.because}
            for each in view.failing
        ],
        "because": view.because,
        "advice": [
            {"do": each.do, "amount": each.amount, "unit": each.unit, "because": each.because} for each in view.advice
        ],
        "layers": [
            {"number": each.number, "day": each.day, "kg": each.kg, "what": each.what, "ph": each.ph}
            for each in view.vessels[-1].layers
        ],
        "hints": list(view.hints),
        "cautions": list(view.cautions),
        "assumptions": list(view.assumptions),
    }


def _course(course: CourseView) -> dict[str, Any]:
    return {
        "median": list(course.median),
        "low": list(course.low),
        "high": list(course.high),
        "inner_low": list(course.inner_low),
        "inner_high": list(course.inner_high),
        "unit": course.unit,
    }
