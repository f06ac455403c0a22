"""How large a vessel fits, what a full one weighs, and how much slack there is: figures of their own."""

from collections.abc import Mapping

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law, leaf, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.fleet.arrivals import DENSITY_HIGH, DENSITY_LOW, usual_kg
from sourloam.plan.question import Question


@law("what a full vessel holds ÷ room for scraps in it", unit="kg/L")
def packed_kg_per_l(holds_kg: ArrayLike, usable_l: ArrayLike) -> float | FloatArray:
    """Return what a litre of a full vessel weighs, pressed and settled."""
    return keep_shape(np.asarray(holds_kg, dtype=float) / np.asarray(usable_l, dtype=float))


@law("scraps a day × two weeks ÷ what a litre of a full vessel weighs ÷ how full it must be", unit="L")
def fitting_l(
    scraps_kg_per_year: ArrayLike,
    year_d: ArrayLike,
    packed_kg_per_l: ArrayLike,
    *,
    fills_in_d: ArrayLike,
    filled_frac: ArrayLike,
) -> float | FloatArray:
    """Return the volume of the largest vessel that is as full as it must be in time."""
    a_day = np.asarray(scraps_kg_per_year, dtype=float) / np.asarray(year_d, dtype=float)
    packed_l = a_day * np.asarray(fills_in_d, dtype=float) / np.asarray(packed_kg_per_l, dtype=float)
    return keep_shape(packed_l / np.asarray(filled_frac, dtype=float))


@law("(all vessels − 1) × days to fill one − days from sealing until it may be emptied", unit="d")
def spare_d(
    fill_days: ArrayLike, ferment_days: ArrayLike, least_d: ArrayLike, vessels: ArrayLike
) -> float | FloatArray:
    """Return for how many days one stands empty before it is needed; scraps wait for as many where it is negative."""
    others_d = (np.asarray(vessels, dtype=float) - 1.0) * np.asarray(fill_days, dtype=float)
    return keep_shape(others_d - np.maximum(np.asarray(ferment_days, dtype=float), np.asarray(least_d, dtype=float)))


def sizes(question: Question, known: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the figures of size, from the figures of flow."""
    pace = dict(known["fill_days"].inputs)
    holds = pace["holds_kg"]
    room = dict(holds.inputs)
    packed = derive(
        "packed_kg_per_l",
        packed_kg_per_l,
        words="a litre of scraps in a full vessel, settled",
        holds_kg=holds,
        usable_l=room["usable_l"],
    )
    found = (
        _loose(question),
        room["pressed_kg_per_l"].called("a litre of scraps, freshly pressed"),
        packed,
        holds,
        _fitting(pace, packed),
        _spare(question, known),
    )
    return {each.name: each for each in found}


def _loose(question: Question) -> Figure:
    """Return what a litre of the usual scraps weighs before they are pressed."""
    value = 1.0 / usual_kg(question.site.streams, question.knowledge.materials).loose_l
    return leaf(
        "loose_kg_per_l",
        Spread(value, value * DENSITY_LOW, value * DENSITY_HIGH, "lognormal"),
        "kg/L",
        words="a litre of scraps, loose in the caddy",
        source="materials_table",
        place="loose_kg_per_l",
        basis=Basis.JUDGEMENT,
    )


def _fitting(pace: Mapping[str, Figure], packed: Figure) -> Figure:
    rule = "the largest that is 80 % full in two weeks; others fill over four without trouble"
    return derive(
        "two_week_vessel_l",
        fitting_l,
        words="largest vessel that fills in two weeks",
        scraps_kg_per_year=pace["scraps_kg_per_year"],
        year_d=pace["year_d"],
        packed_kg_per_l=packed,
        fills_in_d=_practice("fills_in_d", 14.0, "d", words="days to fill it in", place=rule),
        filled_frac=_practice("filled_frac", 0.8, "1", words="how full it must be", place=rule),
    )


def _practice(name: str, value: float, unit: str, *, words: str, place: str) -> Figure:
    return leaf(name, Spread.exactly(value), unit, words=words, source="practice", place=place, basis=Basis.PRACTICE)


def _spare(question: Question, known: Mapping[str, Figure]) -> Figure:
    vessels = question.site.vessels
    equal = sum(each.usable_l for each in vessels) / max(each.usable_l for each in vessels)
    return derive(
        "spare_days",
        spare_d,
        words="days to spare before a vessel is needed again, in the coldest month; below 0 it is late",
        fill_days=known["fill_days"],
        ferment_days=known["ferment_days_coldest"],
        least_d=written("least_d", question.site.keeper.least_d, "d", words="shortest time that you leave it sealed"),
        vessels=written("vessels", equal, "{vessel}", words="vessels, counted by the room of the largest"),
    )
