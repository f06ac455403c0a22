"""The answer of a place as a plain object for JSON."""

from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.place import PlaceView

PLACE: Final = "sourloam.place/1"


def place_object(view: PlaceView) -> dict[str, Any]:
    """Return the answer of one place."""
    return {
        "schema": PLACE,
        "place": view.place,
        "name": view.name,
        "decision": view.decision.value,
        "says": view.says,
        "because": list(view.because),
        "figures": {each.name: figure_object(each) for each in (*view.numbers, *view.behind)},
        **view.tables,
        "sections": [{"title": each.title, "lines": list(each.lines)} for each in (*view.sections, *view.later)],
        "told": [line for each in (*view.sections, *view.later) for line in each.lines],
        "cautions": list(view.cautions),
        "assumptions": list(view.assumptions),
    }
