"""A heap as a plain object for JSON."""

from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.heap import HeapView

HEAP: Final = "sourloam.heap/1"


def heap_object(view: HeapView) -> dict[str, Any]:
    """Return a heap."""
    return {
        "schema": HEAP,
        "says": view.says,
        "figures": {each.name: figure_object(each) for each in view.numbers},
        "steps": list(view.steps),
        "notes": list(view.notes),
        "asks": list(view.asks),
    }
