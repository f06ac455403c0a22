"""What the answer of a bed may show."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from sourloam.base.source import Source
from sourloam.plan.words import Speech, days, enumerated
from sourloam.science.batch.cautions import Caution
from sourloam.science.batch.content import Content
from sourloam.science.places.bed.dig import Dug, bears_of, cover_of, need_of
from sourloam.science.places.bed.spot import Known
from sourloam.science.places.ground.crops import Crop
from sourloam.science.places.ground.salinity import relative_yield_frac
from sourloam.science.places.offer import rough
from sourloam.views.bed_lore import ABOVE, CROWDED, custom_lines, digging_lines, left_lines
from sourloam.views.bed_verdict import (
    Ground,
    Objection,
    amount,
    binding,
    date_after,
    objections,
    passed,
    planting,
    rest_of,
)
from sourloam.views.place import Decision, PlaceView, Section, caution_lines, numbers_of, reasons_of

FIRST: Final = (  # what a keeper asks
    "dose_kg_per_m2",
    "area_m2",
    "trench_m",
    "rest_days_transplant",
    "rest_days_sowing",
    "rest_days_root_crop",
    "earliest_harvest_days",
    "nitrogen_g_per_m2",
    "available_n_g_per_m2",
    "salt_g_per_m2",
)
THEN: Final = (  # what somebody asks who wants to know why
    "takes_kg",
    "holes",
    "gone_days",
    "n_first_third_g_per_m2",
    "n_second_third_g_per_m2",
    "n_last_third_g_per_m2",
    "phosphorus_g_per_m2",
    "potassium_g_per_m2",
    "sodium_g_per_m2",
    "soil_ds_per_m",
    "shift_ph",
)
RESTS: Final = ("rest_days_transplant", "rest_days_sowing", "rest_days_root_crop", "earliest_harvest_days")
BRIEF: Final = 5  # crops that are told of, where none is named
OFTEN: Final = ("tomato", "courgette", "cabbage", "lettuce", "carrot", "bean")


@dataclass(frozen=True)
class Told:
    """What the answer of a bed rests on beside its figures."""

    sources: Mapping[str, Source]
    cautions: Mapping[str, Caution]
    crops: Mapping[str, Crop]
    assumptions: tuple[str, ...]
    speech: Speech
    next_bed: str = ""  # which bed of the site should get the next batch, and why


def bed_view(content: Content, dug: Dug, ground: Ground, *, known: Known, told: Told) -> PlaceView:
    """Return the answer of a bed."""
    against = tuple(objections(content, dug, ground, known))
    decision, says, limit, because = _decided(dug, ground, known, against=against, speech=told.speech)
    credit = credits_of(dug, told.crops, known)
    is_yes = decision is Decision.YES
    first: tuple[Section, ...] = ()
    later = _which(told)
    if ground.is_dug:
        seen = (("What is left to see", left_lines(dug)), ("What digs", digging_lines(dug)))
        later = tuple(Section(title, tuple(lines)) for title, lines in seen)
    elif ground.standing:
        later += (Section("Every bed is planted?", (CROWDED,)),)
    if is_yes and not ground.is_dug:
        first += (Section("Do this", tuple(_steps(dug, ground, known, told.speech))),)
        later = tuple(_later(dug, ground, known, credit)) + _which(told)
    if is_yes or ground.is_dug:
        first += (Section("When", tuple(_when(content, dug, ground, known))),)
    shown = [each for each in FIRST if ground.is_dug is (each in RESTS)] if ground.is_dug else FIRST if is_yes else ()
    behind = [each for each in (*FIRST, *THEN) if each not in shown]
    return PlaceView(
        "bed",
        ground.name,
        decision,
        says,
        because,
        caution_lines(tuple(_cautions(content, ground)), told.cautions),
        numbers_of(dug.figures, shown),
        reasons_of(dict(dug.figures) | dict(dug.limits), told.sources),
        told.speech,
        first,
        later,
        {"limit": limit, "takes_kg": _takes(dug, decision), "crops": credit},
        told.assumptions,
        numbers_of(dug.figures, behind),
    )


def _later(dug: Dug, ground: Ground, known: Known, credit: Sequence[Mapping[str, Any]]) -> Iterator[Section]:
    """Give what else is worth knowing of what is dug in."""
    yield Section("What it feeds", tuple(_feeds(dug, ground, credit)))
    yield Section("Salt and acid", tuple(_salt_and_acid(dug, ground, known)))
    yield Section("What is left to see", tuple(left_lines(dug)))
    yield Section("How much others give", tuple(custom_lines(dug)))
    yield Section("What digs", tuple(digging_lines(dug)))


def _which(told: Told) -> tuple[Section, ...]:
    return (Section("Which bed next", (told.next_bed,)),) if told.next_bed else ()


def _decided(
    dug: Dug, ground: Ground, known: Known, *, against: Sequence[Objection], speech: Speech
) -> tuple[Decision, str, str, tuple[str, ...]]:
    """Return the decision, what it says, the limit that binds, and why."""
    if against:
        first, *rest = against
        return first.decision, f"{first.words}.", first.limit, tuple(f"Besides, {each.words}." for each in rest)
    if ground.is_dug:
        decision, says, limit = planting(dug, ground, known)
        return decision, says, limit, tuple(_why_rest(dug, ground))
    goes, there = dug.figures.get("takes_kg"), content_kg(dug)
    if goes is None:
        area = dug.figures["area_m2"].value
        each = f"{rough(there / area)} kg to each square metre"
        says = f"dig {amount(there, speech)} into {rough(area)} m2 of ground, {each}."
    elif goes.value < 0.98 * there:
        says = f"dig in {amount(goes.value, speech)}; {amount(there - goes.value, speech)} go elsewhere."
    else:
        says = f"dig in all {amount(there, speech)}."
    is_part = goes is not None and goes.value < 0.98 * there
    limit = binding(dug, ground, known)
    bound = "What sets the amount" if is_part or goes is None else "It could take more; what would end first"
    told_limit = f"{bound}: {limit}."
    return Decision.YES, says, limit, (told_limit, *_why_rest(dug, ground))


def content_kg(dug: Dug) -> float:
    """Return the mass of the batch that is asked about."""
    return float(dict(dug.figures["area_m2"].inputs)["mass_kg"].value)


def _why_rest(dug: Dug, ground: Ground) -> Iterator[str]:
    soil = float(np.mean(dug.spot.soil_c[: max(round(dug.figures[rest_of(ground.crop)].value), 1)]))
    yield f"It rests by warmth and not by the calendar: the soil is about {soil:.0f} °C until then."


def _takes(dug: Dug, decision: Decision) -> float:
    if decision is not Decision.YES:
        return 0.0
    return dug.figures["takes_kg"].value if "takes_kg" in dug.figures else content_kg(dug)


def _steps(dug: Dug, ground: Ground, known: Known, speech: Speech) -> Iterator[str]:
    figures, more = dug.figures, known.season
    cover = cover_of(dug.spot, known).value
    layer = more.layer_m.value
    deep = dug.spot.depth_m if dug.spot.depth_m is not None else cover + layer
    trench = figures["trench_m"]
    if ground.tree_m is not None:
        yield (
            f"Round the tree: {figures['holes'].value:.0f} holes of {more.hole_l.value:g} L on the ring "
            f"{speech.told(f'{ground.tree_m:g} m')} from the stem, no trench; leave roots thicker than a thumb whole, "
            "with a hand of soil round them."
        )
        again = date_after(ground, figures["gone_days"].value)
        yield f"Take one quarter of the ring now, and the next one from {again}."
        yield "Or spread soil from a tub on top as a mulch, and dig nothing."
    else:
        yield (
            f"Dig {rough(trench.value)} m of trench ({rough(trench.low)} to {rough(trench.high)} m), a spade wide and "
            f"{speech.told(f'{100 * deep:.0f} cm')} deep, or {figures['holes'].value:.0f} holes."
        )
    yield "Lay it in, chop two or three times as much soil into it with the spade, and break up lumps and long pieces."
    mesh = " Lay wire mesh or thorny twigs over it: something digs here." if dug.spot.animals_dig else ""
    yield f"Cover it with {speech.told(f'{100 * cover:.0f} cm')} of soil and tread it down.{mesh}"
    if dug.spot.moisture == "dry":
        yield "Water it: in dry soil it hardly rots."
    yield "Keep a hand's breadth of plain soil between it and any root, and set plants above it rather than in it."


def _when(content: Content, dug: Dug, ground: Ground, known: Known) -> Iterator[str]:
    if content.state != "ready" and ground.is_anyway:
        yield "Dug in before it is ready it is fresh scraps: it heats, smells, ties up more nitrogen, and is dug for."
    waits = (("transplant", "Plants"), ("sowing", "Seed"), ("root_crop", "Root crops"))
    for name, words in waits[2:] if passed(ground, known) else waits:
        rest = dug.figures[f"rest_days_{name}"]
        if not np.isfinite(rest.value):
            yield f"{words}: not within three years; the soil is too cold."
            continue
        middle, low, high = (date_after(ground, each) for each in (rest.value, rest.low, rest.high))
        yield f"{words} from {middle} ({low} to {high})."
    lain, rest = (ground.on - ground.dug_on).days, dug.figures[rest_of(ground.crop)]
    if passed(ground, known):
        yield from harvest_lines(content, dug, ground)
        return
    if ground.is_dug and lain < rest.value:
        yield ABOVE
    if ground.is_dug and rest.value <= lain < rest.high:
        yield "In a cold or wet spot it may want longer than most: let ten seedlings tell before you plant it full."
    yield "Sooner only where seedlings say so: ten cress seeds in a pot of that soil, ten in plain soil, a week."
    yield from harvest_lines(content, dug, ground)


def harvest_lines(content: Content, dug: Dug, ground: Ground) -> Iterator[str]:
    """Give what rules say of the harvest; the longest wait is the answer."""
    wait = dug.figures.get("earliest_harvest_days")
    if wait is None or wait.value <= 0.0:
        return
    waits = [f"{days(each.value)} ({each.words})" for _, each in wait.inputs if each.value > 0.0]
    yield f"Meat, fish, egg or dairy went in, and no heat was logged: harvest from {date_after(ground, wait.value)}."
    yield f"The longest of {enumerated(waits)}. Local rules go first (--local-wait)."


def credits_of(dug: Dug, crops: Mapping[str, Crop], known: Known) -> list[dict[str, Any]]:
    """Return for each crop which part of its nitrogen this covers, and what the salt costs it."""
    free, soil = dug.figures["available_n_g_per_m2"].members, dug.figures["soil_ds_per_m"].members
    found = []
    for crop in crops.values():
        need = need_of(crop, known).members
        share = np.where(need > 0.1, 100.0 * np.maximum(free, 0.0) / np.maximum(need, 0.1), 100.0)
        low, middle, high = (float(np.quantile(share, each)) for each in (0.05, 0.5, 0.95))
        slope = crop.salt_slope_frac_per_ds_per_m
        kept = None
        if slope is not None:
            kept = float(np.median(relative_yield_frac(soil, bears_of(crop, known).value, slope)))
        found.append(
            {
                "crop": crop.id,
                "name": crop.name,
                "need_g_per_m2": crop.nitrogen_g_per_m2,
                "credit_pct": {"value": middle, "low": low, "high": high, "unit": "%"},
                "salt_yield_pct": None if kept is None else 100.0 * kept,
            }
        )
    return found


def _feeds(dug: Dug, ground: Ground, credit: Sequence[Mapping[str, Any]]) -> Iterator[str]:
    first = dug.figures["n_first_third_g_per_m2"]
    wanted = (ground.crop.id,) if ground.crop else OFTEN[:BRIEF]
    for each in (one for one in credit if one["crop"] in wanted):
        share = each["credit_pct"]
        yield (
            f"{each['name'].capitalize()}: {share['value']:.0f} % of the nitrogen that it needs "
            f"({share['low']:.0f} to {share['high']:.0f} %)."
        )
    if first.low < 0.0:
        yield "In the first weeks it may take nitrogen from the soil before it gives any: pale leaves then pass."
    yield "Two published forms say how much comes free, and they differ: the range goes from one to the other."


def _salt_and_acid(dug: Dug, ground: Ground, known: Known) -> Iterator[str]:
    soil, bears = dug.figures["soil_ds_per_m"], bears_of(ground.crop, known).value
    name = f"{ground.crop.name} bears" if ground.crop else "the tenderest crops (beans, carrots, strawberries) bear"
    fits = "which it stays under" if soil.high <= bears else "which it may pass until rain has washed it"
    yield f"The soil comes to {soil.value:.1f} dS/m ({soil.low:.1f} to {soil.high:.1f}); {name} {bears:g}, {fits}."
    if dug.spot.has_free_lime:
        yield "The soil fizzes with vinegar: its lime takes up the acid, and its pH does not fall."
        return
    sour = dug.figures["shift_ph"]
    at = f" from pH {ground.ph:.1f} to {ground.ph - sour.value:.1f}" if ground.ph is not None else ""
    yield (
        f"Evenly mixed it turns the soil {sour.value:.1f} pH sourer{at} at first, by a lump one or two; microbes eat "
        "the acid within weeks. That is why it rests, but not what the rest is counted by."
    )


def _cautions(content: Content, ground: Ground) -> Iterator[str]:
    if ground.is_food:
        yield "fermented-scraps-are-not-sanitised"
    if content.animal_matter:
        yield from ("raw-manure-on-food-crops",) if ground.is_food else ()
    if content.animal_matter or ground.animals:
        yield "rodents-foxes-flies"
    yield from ("plants-of-concern", "tetanus-from-soil", "over-application-of-nitrogen")
