"""A vessel that is watched as a plain object for JSON."""

from collections.abc import Sequence
from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.ferment_json import ferment_object
from sourloam.views.mix import ToDo
from sourloam.views.watch import WatchView

WATCH: Final = "sourloam.watch/1"


def watch_object(view: WatchView) -> dict[str, Any]:
    """Return what is going on in a vessel, with its corrected forecast."""
    forecast = ferment_object(view.forecast)
    first = view.look_next[0] if view.look_next else None
    return {
        "schema": WATCH,
        "name": view.batch.name,
        "day": view.day,
        "heading": view.heading,
        "says": view.says,
        "sound": view.is_sound,
        "known": view.is_known,
        "effective": view.effective,
        "diagnosis": [
            {"state": each.state, "chance": figure_object(each.chance), "often": each.often, "because": each.because}
            for each in view.diagnosis
        ],
        "twenty": dict(view.twenty),
        "causes": list(view.causes),
        "contradictions": list(view.conflicts),
        "readings": [
            {"day": each.day, "words": each.words, "ph": each.ph, "typed": each.typed, "mark": each.mark}
            for each in view.readings
        ],
        "do": _acts(view.do),
        "next_time": _acts(view.next_time),
        "look_next": first.what if first else "",
        "looks": [{"what": each.what, "gain_bits": each.gain_bits, "buys": each.buys} for each in view.look_next],
        "worry_if": list(view.worry_if),
        "route": view.route,
        "hints": list(view.hints),
        "figures": forecast["figures"],
        "course": forecast["course"],
        "forecast": forecast["says"],
        "failing": forecast["failing"],
        "cautions": forecast["cautions"],
        "assumptions": list(view.assumptions),
    }


def _acts(acts: Sequence[ToDo]) -> list[dict[str, Any]]:
    return [{"do": each.do, "amount": each.amount, "unit": each.unit, "because": each.because} for each in acts]
