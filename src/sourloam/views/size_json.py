"""A sizing as a plain object for JSON, and its lives as rows."""

from collections.abc import Iterator
from typing import Any, Final

from sourloam.views.as_json import figure_object
from sourloam.views.size import SizeView

SIZE: Final = "sourloam.size/1"
COLUMNS: Final = ("life", "stalled_weeks", "stalled_days", "scraps_l", "turned_away_l", "placed_l", "failed_l")


def size_object(view: SizeView) -> dict[str, Any]:
    """Return a sizing."""
    sizing = view.sizing
    return {
        "schema": SIZE,
        "says": view.says,
        "enough": view.is_enough,
        "level": sizing.level,
        "figures": {each.name: figure_object(each) for each in view.numbers},
        "by_week": list(sizing.lived.by_week),
        "binds": [{"month": month, "link": link, "chance": chance} for month, link, chance in sizing.binds],
        "options": [
            {
                "change": each.what,
                "kind": each.kind,
                "effort": each.effort,
                "stall_chance_per_week": each.chance,
                "low": each.low,
                "high": each.high,
                "cost": each.cost,
                "mass_kg": each.mass_kg,
                "too_heavy": each.mass_kg > view.lift_kg,
            }
            for each in sizing.options
        ],
        "what_ifs": [
            {
                "what_if": each.what,
                "kind": each.kind,
                "stall_chance_per_week": each.chance,
                "low": each.low,
                "high": each.high,
                "turned_away_l_per_year": each.turned_away_l,
            }
            for each in sizing.what_ifs
        ],
        "winter": list(sizing.winter),
        "fleets": [
            {"volume_l": each.volume_l, "vessels": each.vessels, "mass_kg": each.mass_kg} for each in sizing.fleets
        ],
        "today": list(view.today),
        "stopped": view.stopped,
        "replications": view.replications,
        "seed": view.seed,
    }


def rows_of_lives(view: SizeView) -> Iterator[tuple[float, ...]]:
    """Give each life as a row under `COLUMNS`."""
    for number, each in enumerate(view.sizing.outcomes):
        amounts = (each.scraps_l, each.turned_away_l, each.placed_l, each.failed_l)
        yield (number, sum(each.weeks), each.stalled_days, *(round(value, 3) for value in amounts))
