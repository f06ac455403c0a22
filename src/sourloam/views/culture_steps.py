"""The steps of a making: dates, amounts, signs; the chain as it is drawn."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.plan.words import Speech
from sourloam.science.inoculum.bench import StepSigns
from sourloam.science.inoculum.calendar import Dated
from sourloam.science.inoculum.made import Made
from sourloam.views.culture import Link, StepLine
from sourloam.views.culture_words import area, depth, with_measure
from sourloam.views.reason import number_of

NO_BREAK: Final = "\u00a0"
HEELED: Final = ". Rub the heel in first, evenly"
LEAST_MILK_L: Final = 0.5  # common practice, no source: less is not worth a jar, and the serum keeps in the cold
HALF_FULL, ROOM_ABOVE = 2.0, 1.25  # a jar of rice water is no more than half full; milk rises
YOGHURT_PARTS: Final = 20.0
INSTEAD: Final = MappingProxyType(
    {"rice-sugar": "soured rice water", "brine": "live brine or whey", "culture": "woken culture"}
)
SOURED: Final = ("rice_water_l", "rice_kg", "milk_l", "curd_kg")


def jar_times(made: Made) -> float:
    """Return how many times the milk that is needed goes into the smallest jar that is worth it; 1 where it is more."""
    milk = made.figures["milk_l"].value
    return max(1.0, LEAST_MILK_L / milk) if milk > 0.0 else 1.0


def instead_of_serum(made: Made) -> str:
    """Return what is stirred into the water where the chain starts there."""
    if made.start.from_link == "heel":
        return "the heel"
    return INSTEAD.get(made.start.id, "serum")


def in_batch(made: Made) -> dict[str, float]:
    """Return every amount of what is made at first; what stands in jars is not made smaller."""
    part = made.batch_frac
    return {name: each.value * (1.0 if name in SOURED else part) for name, each in made.figures.items()}


def step_lines(made: Made, speech: Speech) -> Iterator[StepLine]:
    """Give the steps in the order of making; wetting and shutting are one day's work."""
    signs = {each.id: each for each in made.bench.steps}
    for dated in made.calendar.steps:
        if dated.id == "ferment":
            yield _line(
                "mix",
                _as_started(signs["mix"], made),
                dated,
                _amounts("mix", made, speech),
                speech=speech,
                is_long=False,
            )
        yield _line(dated.id, signs[dated.id], dated, _amounts(dated.id, made, speech), speech=speech, is_long=True)
    last = signs["bag"]
    ready = made.calendar.ready
    yield StepLine(
        "bag",
        ready,
        made.by or ready,
        last.what,
        _amounts("bag", made, speech),
        last.ready_when,
        last.throw_away_when,
        last.meanwhile,
        None,
    )


def _as_started(mix: StepSigns, made: Made) -> StepSigns:
    """Return how the carrier is wetted, with what there is in the place of serum."""
    if made.start.from_link == "heel":
        return replace(
            mix, what=mix.what.replace("Stir serum and sugar into the water", "Stir sugar into the water") + HEELED
        )
    return replace(mix, what=mix.what.replace("serum", instead_of_serum(made)))


def _line(name: str, signs: StepSigns, dated: Dated, amounts: str, *, speech: Speech, is_long: bool) -> StepLine:
    days = number_of(dated.days) if is_long else None
    return StepLine(
        name,
        dated.start,
        dated.latest_start,
        speech.told(signs.what),
        amounts,
        speech.told(signs.ready_when),
        speech.told(signs.throw_away_when),
        speech.told(signs.meanwhile),
        days,
    )


def _amounts(step: str, made: Made, speech: Speech) -> str:
    """Return the amounts of a step in a sentence."""
    f, times = in_batch(made), jar_times(made)
    litres, kg = speech.litres, speech.kg
    match step:
        case "rice":
            wash = f["rice_water_l"] * times
            rinsed = max(f["rice_kg"] * times, wash * made.known.inoculum.rice_kg_per_l.value)
            return (
                f"{with_measure(wash, speech)} of cloudy water, from {kg(rinsed)} of rice; a jar of "
                f"{litres(HALF_FULL * wash)} or more"
            )
        case "milk":
            milk = f["milk_l"] * times
            more = f" ({litres(f['milk_l'])} would do, and is not worth a jar)" if times > 1.0 else ""
            start = f"{with_measure(f['rice_water_l'] * times, speech)} of rice water"
            if made.start.from_link == "milk":
                start = f"{with_measure(milk / YOGHURT_PARTS, speech)} of {made.start.name}"
            return f"{litres(milk)} of {made.milk.name}{more}, {start}; a jar of {litres(ROOM_ABOVE * milk)} or more"
        case "strain":
            serum = f["milk_l"] * times * made.recipe.serum_yield_l_per_l.value
            spare = max(serum - f["serum_l"], 0.0)
            kept = f"; {litres(spare)} are left over for the cold" if spare > 0.05 * serum else ""
            return f"about {litres(serum)} of serum and {kg(f['curd_kg'] * times)} of curd{kept}"
        case "mix":
            return _mixed(made, speech)
        case "ferment":
            return f"{kg(f['wet_kg'])}, packed hard: bags or a bucket of {litres(f['packed_l'])}"
        case "dry":
            return f"{area(f['drying_m2'], speech)} at {depth(made.kitchen.layer_m.value, speech)} deep, or in turns"
        case _:
            heel = made.known.culture.heel_frac.value * f["bran_kg"]
            return f"{kg(f['bran_kg'])} of dry bran; {kg(heel)} of it are the next heel"


def _mixed(made: Made, speech: Speech) -> str:
    f = in_batch(made)
    stirred = [
        f"{with_measure(f['water_l'], speech)} of water",
        f"{speech.kg(f['sugar_g'] / 1000.0)} of {made.sugar.name}",
    ]
    if f["serum_l"] > 0.0:
        stirred.insert(0, f"{with_measure(f['serum_l'], speech)} of {instead_of_serum(made)}")
    if made.start.from_link == "heel":
        heel = made.known.culture.heel_frac.value * f["carrier_kg"]
        stirred.append(f"{speech.kg(heel)} of heel")
    carriers = " and ".join(f"{speech.kg(each.share * f['carrier_kg'])} of {each.carrier.name}" for each in made.parts)
    held = speech.litres(f["hold_back_l"])
    return f"{', '.join(stirred)}: {speech.litres(f['liquid_l'])} in all, of which {held} wait; {carriers}"


def chain_links(made: Made, speech: Speech) -> Iterator[Link]:
    """Give the links of the chain as they stand on the bench, each with its day."""
    on: dict[str, date] = {each.id: each.start for each in made.calendar.steps}
    f, times = made.figures, jar_times(made)
    log10 = {name: number_of(f[name]) for name in ("rice_log10", "serum_log10", "wet_log10", "log10_cfu_per_g")}
    if "rice" in on:
        yield Link("rice", "rice water", f["rice_water_l"].value * times, "", on["rice"], log10["rice_log10"])
    if "milk" in on:
        yield Link("milk", made.milk.name, f["milk_l"].value * times, "", on["milk"])
        serum = f["milk_l"].value * times * made.recipe.serum_yield_l_per_l.value
        yield Link("serum", "serum", serum, "", on["strain"], log10["serum_log10"])
    loose, part = made.carrier["loose_kg_per_l"].value, made.batch_frac
    wet, dry = (speech.kg(part * f[name].value).replace(" ", NO_BREAK) for name in ("wet_kg", "bran_kg"))
    yield Link("bag", "wetted, shut", part * f["packed_l"].value, wet, on["ferment"], log10["wet_log10"])
    yield Link("tray", "drying", part * f["bran_kg"].value / loose, "", on["dry"])
    yield Link("bin", "dry bran", part * f["bran_kg"].value / loose, dry, made.calendar.ready, log10["log10_cfu_per_g"])
