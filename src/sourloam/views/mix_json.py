"""The judgement of a load as a plain object for JSON."""

from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.mix import MixView

MIX: Final = "sourloam.mix/1"


def mix_object(view: MixView) -> dict[str, Any]:
    """Return a judgement."""
    return {
        "schema": MIX,
        "verdict": view.verdict,
        "limiting": view.limiting,
        "says": view.says,
        "why": [{"limit": each.id, "holds": each.holds_frac, "because": each.words} for each in view.why],
        "figures": {each.name: figure_object(each) for each in view.numbers},
        "fermentability_class": view.fermentability,
        "advice": [
            {"do": each.do, "amount": each.amount, "unit": each.unit, "because": each.because} for each in view.advice
        ],
        "after": view.after,
        "notes": list(view.notes),
        "hints": list(view.hints),
        "liquid": list(view.liquid),
        "fill": list(view.fill),
        "ground": list(view.ground),
        "apart": list(view.apart),
        "elsewhere": list(view.elsewhere),
        "parts": [{"typed": typed, "mass": mass} for typed, mass in view.parts],
        "assumptions": list(view.assumptions),
    }
