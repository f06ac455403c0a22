"""What is wrong at a place, as a plain object for JSON."""

from typing import Any, Final

from sourloam.views.ails import AilsView

WRONG: Final = "sourloam.ails/1"


def ails_object(view: AilsView) -> dict[str, Any]:
    """Return what is wrong."""
    return {
        "schema": WRONG,
        "place": view.place,
        "sign": view.sign,
        "says": view.says,
        "causes": [
            {"id": each.id, "what": each.words, "chance": each.chance, "do": each.do, "look": each.look}
            for each in view.guesses
        ],
        "do": list(view.do),
        "look": view.look,
        "thing": view.thing,
        "assumptions": list(view.assumptions),
    }
