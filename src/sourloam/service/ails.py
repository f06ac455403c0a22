"""Use case: something is wrong with a pile, a worm bin, a tub or plants."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.causes import load_causes
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.plan.words import Speech
from sourloam.science.places.ails import chances, next_look
from sourloam.science.places.pile.answer import AIR
from sourloam.science.places.pile.compose import Aims, Composed, compose
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.stuff import Stuff, stuff_of
from sourloam.science.places.worm_bin.feed_parameters import WormFeedParameters
from sourloam.science.places.worm_bin.limits import lime_for_bed_g
from sourloam.science.places.worm_bin.parameters import WormBinParameters
from sourloam.service.heaped import heaped
from sourloam.service.portions import Pantry
from sourloam.views.ails import AilsView, Guess, ails_view

MEMBERS: Final = 200
GOAL_RATIO, GOAL_WATER = 30.0, 0.55
USUAL_L: Final = 1000.0
URINE_G_PER_L: Final = 7.0  # g/L of nitrogen; memory, 5 to 9
AREA_M2: Final = 0.25
# What a pile is taken to be where nobody says: parts by loose volume.
USUAL: Final[Mapping[str, Mapping[str, float]]] = {
    "cold": {"dry-leaves": 0.8, "grass-clippings": 0.2},
    "ammonia": {"grass-clippings": 0.7, "dry-leaves": 0.3},
    "smell": {"grass-clippings": 0.5, "mixed-household-scraps": 0.2, "dry-leaves": 0.3},
}


@dataclass(frozen=True)
class AskedAils:
    """What is asked of something that went wrong."""

    place: str
    sign: str | None
    there: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    at_hand: tuple[str, ...] = ()
    volume: str | None = None
    area: str | None = None
    units: str = "metric"


def what_ails(asked: AskedAils) -> AilsView:
    """Return the causes with their chances, what to do now, and what to look at next.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    every = [each for each in load_causes() if each.place == asked.place]
    signs = tuple(dict.fromkeys(each.sign for each in every))
    causes = [each for each in every if each.sign == asked.sign]
    problems = []
    if not causes:
        found = f'"{asked.sign}" is no such sign;' if asked.sign else "what is seen is missing;"
        problems.append(Problem("SIGN", found, f"write one of: {', '.join(signs)}."))
    else:
        known = {thing for each in causes for thing in each.seen}
        problems += [
            Problem("--seen", f'"{each}" is nothing that is asked for here;', f"there is: {', '.join(sorted(known))}.")
            for each in (*asked.there, *asked.absent)
            if each not in known
        ]
    if problems:
        raise BadInput("command line", tuple(problems))
    held = chances(causes, asked.there, asked.absent)
    fills, told = _fills(asked)
    guesses = [
        Guess(each.id, each.words, float(chance), each.do.format_map(fills), each.look)
        for each, chance in sorted(zip(causes, held, strict=True), key=lambda pair: -pair[1])
    ]
    thing = next_look(causes, held, (*asked.there, *asked.absent))
    return ails_view(
        asked.place,
        str(asked.sign),
        guesses,
        look=thing,
        assumptions=(*told, *_taken()),
        speech=Speech(asked.units),
    )


def _taken() -> Sequence[str]:
    return ("The chances are judgement, stated in the table of causes; nobody has counted such cases.",)


def _fills(asked: AskedAils) -> tuple[dict[str, str], list[str]]:
    """Return what a cure takes, worked out for the pile or the bin that was described."""
    speech = Speech(asked.units)
    fills = dict.fromkeys(("water", "greens", "browns", "lime", "size"), "some")
    if asked.place == "worms":
        return fills | {"lime": _lime(asked, speech)}, [] if asked.area else [f"The bed is {AREA_M2:g} m2 (--area)."]
    if asked.place != "pile":
        return fills, []
    pile, told = _pile(asked, speech)
    table = load_materials()
    p = load_parameters(PileParameters, "pile", members=MEMBERS)
    now = compose(pile, _aims(p))
    ratio, wet = now.whole["carbon"] / now.whole["nitrogen"], now.whole["water"] / now.whole["one"]
    leaves, grass, coffee = (
        stuff_of(table[each], 1e9, members=MEMBERS) for each in ("dry-leaves", "grass-clippings", "coffee-grounds")
    )
    water = max((now.whole["one"] - now.whole["water"]) / (1.0 - GOAL_WATER) - now.whole["one"], 0.0)
    greens = [_to_ratio(now, each, speech) for each in (grass, coffee)]
    lacks = max(now.whole["carbon"] / GOAL_RATIO - now.whole["nitrogen"], 0.0)
    told.append(f"As it lies it has C:N {ratio:.0f} and {100.0 * wet:.0f} % water, by the table.")
    fills["water"] = speech.litres(water)
    urine = speech.size(1000.0 * lacks / URINE_G_PER_L, digits=0)
    fills["greens"] = (
        f"{', '.join(greens)} or {urine} of urine ({speech.kg(lacks)} of nitrogen are missing, C:N is {ratio:.0f})"
    )
    fills["browns"] = _browns(now, leaves, speech, asked.sign)
    fills["size"] = speech.size(p.heats_l.value, digits=0)
    return fills, told


def _aims(p: PileParameters) -> Aims:
    return Aims.of(p, ratio_most=40.0, air=AIR)


def _pile(asked: AskedAils, speech: Speech) -> tuple[list[Stuff], list[str]]:
    """Return what the pile is made of, all of it laid in."""
    if asked.at_hand:
        return [
            Stuff(each.id, each.name, each.brings, each.most_kg, each.most_kg)
            for each in heaped(asked.at_hand, Pantry.of(()), MEMBERS)
        ], []
    litres = _volume(asked.volume)
    table = load_materials()
    parts = USUAL.get(str(asked.sign), USUAL["cold"])
    made = []
    for name, share in parts.items():
        kg = litres * share * table[name].loose_kg_per_l
        made.append(stuff_of(table[name], kg, members=MEMBERS, least_kg=kg))
    named = ", ".join(f"{100.0 * share:.0f} % {table[name].name}" for name, share in parts.items())
    return made, [f"It was {speech.size(litres, digits=0)}, loose, of {named} (--at-hand says yours)."]


def _volume(text: str | None) -> float:
    try:
        return USUAL_L if text is None else read_quantity(text, Dimension.VOLUME).value
    except BadQuantity as bad:
        raise BadInput("--volume", (Problem("", bad.found, bad.remedy),)) from None


def _to_ratio(now: Composed, green: Stuff, speech: Speech) -> str:
    """Return so much of a green as brings the pile to its ratio."""
    short = GOAL_RATIO * now.whole["nitrogen"] - now.whole["carbon"]
    per_kg = green.middle("carbon") - GOAL_RATIO * green.middle("nitrogen")
    kg = max(short / per_kg, 0.0) if per_kg < 0.0 else 0.0
    return f"{speech.kg(kg)} of {green.name} ({speech.size(kg * green.middle('loose_l'), digits=0)})"


def _browns(now: Composed, brown: Stuff, speech: Speech, sign: str | None) -> str:
    """Return so much of a brown as brings the pile to its ratio, or dries it to what is wanted, whichever is more."""
    per_kg = brown.middle("carbon") - GOAL_RATIO * brown.middle("nitrogen")
    by_ratio = (GOAL_RATIO * now.whole["nitrogen"] - now.whole["carbon"]) / per_kg
    by_water = (now.whole["water"] - GOAL_WATER * now.whole["one"]) / (GOAL_WATER - brown.middle("water"))
    kg = max(by_ratio if sign == "ammonia" else by_water, 0.0)
    litres = kg * brown.middle("loose_l")
    return f"{speech.kg(kg)} ({speech.size(litres, digits=0)}, {litres / 10.0:.0f} buckets of {speech.size(10.0)})"


def _lime(asked: AskedAils, speech: Speech) -> str:
    f = load_parameters(WormFeedParameters, "worm_feed", members=MEMBERS)
    p = load_parameters(WormBinParameters, "worm_bin", members=MEMBERS)
    try:
        area = AREA_M2 if asked.area is None else read_quantity(asked.area, Dimension.AREA).value
    except BadQuantity as bad:
        raise BadInput("--area", (Problem("", bad.found, bad.remedy),)) from None
    grams = lime_for_bed_g(
        area,
        f.corner_m.members,
        kg_per_l=f.bed_kg_per_l.members,
        buffer_mol_per_kg=f.bed_buffer_mol_per_kg.members,
        acts_frac=p.shell_acts_frac.members,
    )
    low, middle, high = (float(each) for each in np.quantile(grams, (0.05, 0.5, 0.95)))
    return f"{speech.kg(middle / 1000.0)} ({speech.kg(low / 1000.0)} to {speech.kg(high / 1000.0)})"
