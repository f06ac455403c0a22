"""A pile worked out: its recipe, its course, what is short, what equal parts would be, and the rules."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.places.pile.compose import GREEN_RATIO, Aims, Composed, compose, lifted
from sourloam.science.places.pile.figures import Laid, heat_figures, recipe_figures, with_error
from sourloam.science.places.pile.heat import Course, Weather, by_calendar, calendar_of, follow
from sourloam.science.places.pile.heat_parameters import PileHeatParameters
from sourloam.science.places.pile.lay import laid
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.rates import Rates
from sourloam.science.places.pile.sanitation import Logged, Rule, Verdict, judged, likely
from sourloam.science.places.pile.stuff import Stuff

RATIO_MOST: Final = 40.0  # nraes54_targets; a later edition goes to 60 for woody mixes
AIR: Final = (0.35, 0.65)  # free air space; handbooks say 35 to 60 % of a built pile, more while it is loose
TURNED_D: Final = 35  # after which a pile is left to cure; judgement
TRIED: Final = 200  # members that a rule is tried on


@dataclass(frozen=True)
class Equal:
    """What the same volumes of green and brown would come to."""

    c_to_n: float
    moisture_frac: float
    missed: tuple[str, ...]


@dataclass(frozen=True)
class Ruled:
    """One rule: what the readings show, and how likely the forecast keeps it."""

    verdict: Verdict
    likely: str


@dataclass(frozen=True)
class Tending:
    """How a pile is kept."""

    days: int
    weather: Weather
    turn_every_d: float | None = None  # by what is seen of it, where nothing is set
    first_turn_d: float | None = None
    room_l: float | None = None
    is_as_it_is: bool = False  # all that there is goes in


@dataclass(frozen=True)
class Answer:
    """A pile worked out."""

    stuffs: tuple[Stuff, ...]
    made: Composed
    short_kg: Mapping[str, float]  # what would have to be added, by id
    wider: tuple[Stuff, ...]  # with what could be got
    figures: Mapping[str, Figure]
    course: Course
    core_c: FloatArray  # with the known error; times by members
    edge_c: FloatArray
    equal: Equal | None
    rules: tuple[Ruled, ...]


def work_out(
    stuffs: Sequence[Stuff],
    more: Mapping[str, Stuff],
    given: tuple[PileParameters, PileHeatParameters],
    tending: Tending,
    *,
    rules: Sequence[Rule] = (),
    readings: Sequence[Logged] = (),
    turned_h: Sequence[float] = (),
) -> Answer:
    """Return a pile of what is at hand; `more` is what could be got for it."""
    p, heat = given
    aims = Aims.of(p, ratio_most=RATIO_MOST, air=AIR, room_l=tending.room_l or 1e9)
    held = [
        replace(each, least_kg=each.most_kg) if tending.is_as_it_is and each.id != "water" else each for each in stuffs
    ]
    made = compose(held, aims)
    count = min(each.all("water").size for each in stuffs)
    start = laid(held, made.kg, blend_frac=p.blend_frac.members[:count])
    of_recipe = Laid(held, made.kg, start)
    rates = Rates.of(heat, count)
    course = follow(
        start, rates, tending.weather, days=tending.days, decide=by_calendar(*_calendar(of_recipe, rates, tending))
    )
    core, edge = with_error(course, tending.weather.air_c, heat)
    figures = recipe_figures(of_recipe, p) | heat_figures(course, tending.weather.air_c, of_recipe, heat)
    wider = lifted(made, held, more)
    ruled = _ruled(rules, readings, turned_h, (course, core, edge), ratio=figures["c_to_n"].value)
    short = _short(made, wider, aims)
    return Answer(tuple(held), made, short, tuple(wider), figures, course, core, edge, equal_parts(held, aims), ruled)


def _calendar(of_recipe: Laid, rates: Rates, tending: Tending) -> tuple[list[float], list[float]]:
    """Return when it is turned and watered."""
    turned, watered = calendar_of(of_recipe.start, rates, tending.weather, tending.days)
    if tending.turn_every_d is not None:
        first = tending.first_turn_d or tending.turn_every_d
        turned = list(np.arange(first, min(tending.days, TURNED_D), tending.turn_every_d))
    return turned, watered


def _short(made: Composed, wider: Sequence[Stuff], aims: Aims) -> dict[str, float]:
    """Return what else would have to go in, so that every want but that of size is met."""
    if made.is_met:
        return {}
    middle = (sum(aims.moisture_frac) / 2.0, aims.moisture_frac[1])  # what is watered is watered well
    goal = replace(aims, wanted_l=made.whole["volume_l"], room_l=1e9, air_frac=(aims.air_frac[0], 1.0))
    with_more = compose(wider, replace(goal, moisture_frac=middle if "dry" in made.missed else aims.moisture_frac))
    extra = {name: kg - made.kg.get(name, 0.0) for name, kg in with_more.kg.items()}
    return {name: kg for name, kg in extra.items() if kg > 0.01 * made.whole["one"]}


def equal_parts(stuffs: Sequence[Stuff], aims: Aims) -> Equal | None:
    """Return what as much brown as green by loose volume comes to; nothing where there is only one of the two."""
    kinds: tuple[list[Stuff], list[Stuff]] = ([], [])
    for each in stuffs:
        if each.id != "water" and each.most_kg > 0.0:
            is_green = each.middle("carbon") < GREEN_RATIO * each.middle("nitrogen")
            kinds[0 if is_green else 1].append(each)
    if not kinds[0] or not kinds[1]:
        return None
    loose = [sum(each.most_kg * each.middle("loose_l") for each in kind) for kind in kinds]
    scaled = [
        replace(each, least_kg=each.most_kg * 100.0 / litres, most_kg=each.most_kg * 100.0 / litres)
        for kind, litres in zip(kinds, loose, strict=True)
        for each in kind
    ]
    found = compose(scaled, aims)
    whole = found.whole
    missed = tuple(each for each in found.missed if each not in ("small", "loose"))
    return Equal(whole["carbon"] / whole["nitrogen"], whole["water"] / whole["one"], missed)


def _ruled(
    rules: Sequence[Rule],
    readings: Sequence[Logged],
    turned_h: Sequence[float],
    forecast: tuple[Course, FloatArray, FloatArray],
    *,
    ratio: float,
) -> tuple[Ruled, ...]:
    """Return what the readings show of each rule, and how often the forecast keeps it; the base is as the edge."""
    course, core, edge = forecast
    turned = [24.0 * each for each in course.turned]
    hours = 24.0 * np.array(course.day)
    tried = range(min(core.shape[1], TRIED))
    runs = [_forecast(hours, core[:, member], edge[:, member]) for member in tried]
    found = []
    for rule in rules:
        kept = [judged(rule, run, turned, every_h=48.0, ratio=ratio, is_confirmed=True).is_met for run in runs]
        verdict = judged(rule, readings, turned_h, ratio=ratio)
        found.append(Ruled(verdict, likely(float(np.mean(kept)))))
    return tuple(found)


def _forecast(hours: FloatArray, core: FloatArray, edge: FloatArray) -> list[Logged]:
    """Return a forecast as if it had been read off; what turning brings in from the edge is not counted as hot."""
    least = max(int(np.argmax(core)), 1)
    until = min(len(hours), least + 200)
    return [
        Logged(float(hour), zone, float(value))
        for hour, one, two in zip(hours[:until], core, edge, strict=False)
        for zone, value in (("core", one), ("edge", two), ("base", two))
    ]
