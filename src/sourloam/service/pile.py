"""Use case: a batch goes into a pile; or a pile is judged that has none in it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.rules import load_sanitation_rules
from sourloam.evidence.sources import load_sources
from sourloam.science.climate.climate import Climate
from sourloam.science.places.pile.answer import Answer, Tending, work_out
from sourloam.science.places.pile.ferment import ferment_of
from sourloam.science.places.pile.heat import Weather
from sourloam.science.places.pile.heat_parameters import PileHeatParameters
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.pile import Pile
from sourloam.science.places.pile.sanitation import ZONES, Logged, Rule
from sourloam.science.places.pile.slow import SlowParameters, cold_figures
from sourloam.science.places.pile.stuff import Stuff, stuff_of
from sourloam.service.ferment import Compiler
from sourloam.service.heaped import MOST, WATER, heaped
from sourloam.service.portions import Pantry
from sourloam.service.product import AskedProduct, Given, product_of
from sourloam.views.pile import PileTold, pile_view
from sourloam.views.place import PlaceView

LEAVES: Final = "dry-leaves"
USUAL: Final = {"brown": LEAVES, "green": "grass-clippings", "water": WATER}  # what can be got nearly anywhere
YEAR_D: Final = 365
USUAL_LEAVES_L: Final = 200.0


@dataclass(frozen=True)
class AskedPile:
    """What a pile is asked with."""

    product: AskedProduct
    at_hand: tuple[str, ...] = ()
    is_as_it_is: bool = False
    has_product: bool = True
    volume: str | None = None
    is_walled: bool = False
    days: int = 60
    turn_every: int | None = None
    first_turn: int | None = None
    readings: tuple[str, ...] = ()
    turned: str | None = None


@dataclass(frozen=True)
class Piled:
    """The answer with what a drawing of it wants."""

    view: PlaceView
    answer: Answer
    given: Given
    turned_d: tuple[float, ...]
    readings: tuple[Logged, ...]


def judge_pile(asked: AskedPile, compiler: Compiler | None = None) -> Piled:
    """Return what a pile makes of a batch and of what is at hand.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    given = product_of(asked.product, compiler)
    members = asked.product.members
    p = load_parameters(PileParameters, "pile", members=members)
    heat = load_parameters(PileHeatParameters, "pile_heat", members=members)
    pile = _pile_of(given, asked.product.place)
    room_l = _room(asked.volume) or (pile.volume_l if pile else None)
    pantry = Pantry.of(given.site.materials if given.site else ())
    hands, told = _at_hand(asked, pile, pantry, members)
    ferment = [ferment_of(given.content, heat)] if asked.has_product else []
    table = pantry.table
    water = stuff_of(table[WATER], 1e9, members=members)
    stuffs = [*ferment, *hands, *([] if asked.is_as_it_is else [water])]
    if not ferment and not hands:
        raise BadInput(
            "command line", (Problem("--at-hand", "there is nothing to pile;", 'write --at-hand "200 L dry leaves".'),)
        )
    more = {kind: stuff_of(table[each], 1e9, members=members) for kind, each in USUAL.items()}
    readings, turned_h = _readings(asked)
    tending = Tending(
        asked.days,
        _weather(given, asked),
        asked.turn_every,
        asked.first_turn,
        room_l=room_l,
        is_as_it_is=asked.is_as_it_is,
    )
    rules = [each for each in load_sanitation_rules() if _concerns(each, given)]
    answer = work_out(stuffs, more, (p, heat), tending, rules=rules, readings=readings, turned_h=turned_h)
    slow = load_parameters(SlowParameters, "slow_pile", members=members)
    mean_c = float(np.mean(_air_c(given.climate, given, YEAR_D)))
    answer = replace(answer, figures={**answer.figures, **cold_figures(mean_c, slow)})
    view = pile_view(
        answer,
        given.content if asked.has_product else None,
        PileTold(
            slow.sack_l.value,
            given.speech,
            pile.name or pile.id if pile else "the pile",
            room_l,
            is_anyway=asked.product.is_anyway,
            is_as_it_is=asked.is_as_it_is,
            on=given.on,
            heats_l=p.heats_l.value,
            has_readings=bool(readings),
        ),
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
        assumptions=(*(given.assumptions if asked.has_product else given.assumptions[-1:]), *told, *pantry.said),
    )
    return Piled(view, answer, given, tuple(answer.course.turned), tuple(readings))


def _pile_of(given: Given, place: str | None) -> Pile | None:
    """Return the pile of the site that was named, or its only one."""
    piles = given.site.piles if given.site else ()
    if place is None:
        return piles[0] if piles else None
    found = next((each for each in piles if each.id == place), None)
    if found is None:
        there = ", ".join(each.id for each in piles) or "none"
        raise BadInput("--place", (Problem("", f'"{place}" is no pile of this site;', f"there is: {there}."),))
    return found


def _room(text: str | None) -> float | None:
    if text is None:
        return None
    try:
        litres = read_quantity(text, Dimension.VOLUME).value
    except BadQuantity as bad:
        raise BadInput("--volume", (Problem("", bad.found, bad.remedy),)) from None
    if not 1.0 <= litres <= MOST:
        raise BadInput("--volume", (Problem("", f'"{text}" is no pile;', 'write one such as "1 m3".'),))
    return litres


def _at_hand(asked: AskedPile, pile: Pile | None, pantry: Pantry, members: int) -> tuple[list[Stuff], list[str]]:
    """Return what is at hand as stuff, one for each material, and what was taken as given."""
    if not asked.at_hand:
        litres = pile.browns_l if pile else USUAL_LEAVES_L
        leaves = pantry.table[LEAVES]
        told = f"{litres:.0f} L of dry leaves lie ready, loose (--at-hand)."
        return [stuff_of(leaves, litres * leaves.loose_kg_per_l, members=members)], [told]
    return [each for each in heaped(asked.at_hand, pantry, members) if each.id != WATER or asked.is_as_it_is], []


def _weather(given: Given, asked: AskedPile) -> Weather:
    return Weather(_air_c(given.climate, given, asked.days), asked.is_walled)


def _air_c(climate: Climate, given: Given, days: int) -> np.ndarray:
    return np.array([climate.air_c(given.on + timedelta(days=each)) for each in range(days + 2)])


def _concerns(rule: Rule, given: Given) -> bool:
    """Whether a rule is written for piles, and for where the site lies; without a site all are shown."""
    if not rule.is_for_piles:
        return False
    where = given.site.facts.jurisdiction if given.site else None
    return where in (None, "OTHER") or rule.jurisdiction.split("-")[0] == str(where).split("-")[0]


def _readings(asked: AskedPile) -> tuple[Sequence[Logged], Sequence[float]]:
    """Return what was read off, such as "day 3 core 57 C", and the hours of the turnings."""
    found, problems = [], []
    for text in asked.readings:
        words = text.casefold().replace("day ", "").split(maxsplit=2)
        try:
            day, zone, warm = float(words[0]), words[1], read_quantity(words[2], Dimension.TEMPERATURE).value
        except (ValueError, IndexError):
            day, zone, warm = -1.0, "", 0.0
        if zone not in ZONES or not -40.0 <= warm <= 100.0 or not 0.0 <= day <= 3650.0:
            problems.append(
                Problem("--reading", f'"{text}" is no reading;', 'write day, zone and warmth: "3 core 57 C".')
            )
            continue
        found.append(Logged(24.0 * day, zone, warm))
    try:
        turned = [24.0 * float(each) for each in (asked.turned or "").replace(",", " ").split()]
    except ValueError:
        turned = []
        problems.append(Problem("--turned", f'"{asked.turned}" is no list of days;', 'write "3, 6, 9".'))
    if problems:
        raise BadInput("command line", tuple(problems))
    return found, turned
