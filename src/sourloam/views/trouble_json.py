"""What is wrong and what to do as a plain object for JSON."""

from typing import Any, Final

from sourloam.views.trouble import TroubleView
from sourloam.views.watch_json import watch_object

WRONG: Final = "sourloam.wrong/1"


def trouble_object(view: TroubleView) -> dict[str, Any]:
    """Return an answer; `watch` holds the vessel that it was worked out for."""
    return {
        "schema": WRONG,
        "trouble": view.trouble,
        "answers": dict(view.answers),
        "heading": view.heading,
        "says": view.says,
        "well": view.is_well,
        "do": [{"do": each.do, "amount": each.amount, "unit": each.unit, "because": each.because} for each in view.do],
        "look_next": list(view.look_next),
        "worry_if": list(view.worry_if),
        "route": view.route,
        "hints": list(view.hints),
        "watch": watch_object(view.watch),
    }
