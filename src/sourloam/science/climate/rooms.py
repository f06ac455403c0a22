"""From outdoors and the soil to the rooms in which vessels stand."""

from collections.abc import Callable, Mapping
from datetime import date, timedelta
from difflib import get_close_matches
from types import MappingProxyType
from typing import Final

from sourloam.base.errors import NotFound
from sourloam.science.climate.climate import Climate


def room_c(room: str, on: date, climate: Climate) -> float:
    """Return the mean temperature of a day in a room.

    Raises
    ------
    NotFound
        If there is no such room; the names are those of `ROOMS`.
    """
    rule = ROOMS.get(room)
    if rule is None:
        raise NotFound("room", room, tuple(get_close_matches(room, ROOMS)) or tuple(ROOMS))
    return rule(on, climate)


def _indoors_c(on: date, climate: Climate) -> float:
    return climate.indoors_c


def _cellar_c(on: date, climate: Climate) -> float:
    """Return a value between the soil around the walls and the rooms above."""
    share = climate.parameters.cellar_indoors_share.value
    soil = climate.soil_c(on, climate.parameters.cellar_depth_m.value)
    return soil + share * (climate.indoors_c - soil)


def _shed_c(on: date, climate: Climate) -> float:
    """Return the mean air of the last days, and what the sun on the roof adds."""
    days = max(1, round(climate.parameters.shed_smoothing_d.value))
    air = sum(climate.air_c(on - timedelta(days=each)) for each in range(days)) / days
    return air + climate.parameters.shed_above_air_k.value


def _outdoors_c(on: date, climate: Climate) -> float:
    return climate.air_c(on)


ROOMS: Final[Mapping[str, Callable[[date, Climate], float]]] = MappingProxyType(
    {"kitchen": _indoors_c, "indoors": _indoors_c, "cellar": _cellar_c, "shed": _shed_c, "outdoors": _outdoors_c}
)
