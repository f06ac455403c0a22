"""A making worked out: from bran that is wanted, or from what is on hand."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import Figure, derive, written
from sourloam.evidence.sources import load_sources
from sourloam.plan.loads import week_of
from sourloam.science.inoculum.belief import keeps_figure, least_figure
from sourloam.science.inoculum.bench import Start
from sourloam.science.inoculum.calendar import Calendar, backwards, forwards, named, total_d
from sourloam.science.inoculum.carrier import Carrier, blend, in_air, kept_dry, with_moisture
from sourloam.science.inoculum.chain import Recipe, bran_batch, reaches_kg
from sourloam.science.inoculum.dose import bran_dose_kg, dose_g_per_kg
from sourloam.science.inoculum.made import NOTHING_BUT, ON_HAND, Made, Part
from sourloam.science.inoculum.making import count_figures, day_figures, making_figures, per_weeks
from sourloam.science.inoculum.recipe import blended_with, part_of, recipe_for
from sourloam.science.inoculum.starts import generations_for, heel_kg
from sourloam.service.assemble import knowledge
from sourloam.service.culture_ask import USUAL_CARRIER, Read
from sourloam.service.culture_cost import cost_figures
from sourloam.service.culture_kept import disagreements_of
from sourloam.views.culture import CultureView
from sourloam.views.culture_made import made_view

EMERGENCY_KG: Final = 2.0  # bran that a keeper without any is shown how to make; judgement
LEAST_STEP_KG: Final = 0.1
ENOUGH: Final = 0.98  # of the serum that is needed


def make(read: Read) -> CultureView:
    """Return the answer on a making.

    Raises
    ------
    BadInput
        If nothing is wanted and nothing is on hand, or the carrier cannot be made that wet.
    """
    carrier, parts, share = _carrier(read)
    asked = _asked(read)
    recipe = _recipe(read, carrier)
    reaches = _reaches(read, recipe, parts)
    bran, extra, is_forward = _bran(read, asked, reaches)
    if _has_serum(read, recipe, bran.value):
        read = replace(read, start=next(each for each in read.bench.starts if each.id == "serum"))
    on_hand = read.told("serum_on_hand_l", read.held.get("serum_l", 0.0), "L", words="serum on hand")
    figures = making_figures(bran, read.known, recipe, carrier, kitchen=read.kitchen, on_hand=on_hand)
    days = day_figures(read.known, read.kitchen, figures["drying_d"])
    if not np.isfinite(days.drying.value):
        days = days._replace(drying=read.known.inoculum.drying_d)
    steps = named(days, read.start.from_link)
    figures |= count_figures(read.known, figures, read.kitchen, days, heel=read.start.from_link == "heel")
    figures = extra | _as_started(figures, read.start)
    calendar, is_late = _calendar(read, steps)
    figures["days_ahead"] = calendar.days
    figures["least_log10"] = least_figure(read.bench.stores[0], read.known)
    figures |= _after(read, figures)
    figures |= cost_figures(read, figures) | ({"sheets": read.sheets} if read.sheets is not None else {})
    return made_view(
        Made(
            known=read.known,
            bench=read.bench,
            carrier=carrier,
            parts=parts,
            blended_by=share,
            sugar=read.sugar,
            milk=read.milk,
            start=read.start,
            recipe=recipe,
            kitchen=read.kitchen,
            figures=figures,
            days=steps,
            calendar=calendar,
            is_late=is_late,
            held=read.held,
            reaches=reaches,
            binds=_binds(reaches, bran.value),
            is_forward=is_forward,
            ways={each.id: total_d(named(days, each.from_link)) for each in read.bench.starts},
            prices=read.prices,
            has_bran=read.asked.has_bran,
            by=read.by,
            today=read.today,
        ),
        speech=read.speech,
        disagreements=disagreements_of(read, ("dried-room", "serum-cold", "wet-sealed")),
        assumptions=_assumed(read, is_forward=is_forward),
        sources=load_sources(),
    )


def _carrier(read: Read) -> tuple[Carrier, tuple[Part, ...], Figure | None]:
    """Return the carrier at rest with the air, its parts, and how much dry carrier had to be blended in."""
    humidity = read.kitchen.humidity_frac if read.kitchen.is_air_known else None
    found = [(in_air(each, humidity, read.known.gab), mass) for each, mass in read.parts]
    if read.carrier_moisture is not None:
        found = [(with_moisture(each, read.carrier_moisture), mass) for each, mass in found]
    if len(found) > 1:
        whole = sum(mass or 0.0 for _, mass in found)
        shares = [(each, (mass or 0.0) / whole) for each, mass in found]
        mixed = blend([(each, read.told("share", share, "1", words=f"{each.name} in it")) for each, share in shares])
        parts = tuple(Part(each, share, mass or 0.0) for (each, share), (_, mass) in zip(shares, found, strict=True))
        _check_target(read, mixed)
        return kept_dry(mixed, read.target), parts, None
    alone, held_kg = found[0]
    dry = in_air(read.carriers[USUAL_CARRIER], humidity, read.known.gab)
    if not alone.is_wet:
        _check_target(read, alone)
        return alone, (Part(alone, 1.0, held_kg or 0.0),), None
    mixed, share = blended_with(alone, dry, members=read.members)
    if share is None:
        return kept_dry(alone, read.target), (Part(alone, 1.0, held_kg or 0.0),), None
    part = part_of(share)
    return kept_dry(mixed, read.target), (Part(alone, 1.0 - part, held_kg or 0.0), Part(dry, part, 0.0)), share


def _check_target(read: Read, carrier: Carrier) -> None:
    """Refuse a moisture that the carrier does not hold, and one that it has already."""
    least, most, drips = (100.0 * carrier[each].value for each in ("least_wb_frac", "most_wb_frac", "drips_wb_frac"))
    target = 100.0 * (read.target or carrier["target_wb_frac"]).value
    own = 100.0 * carrier["moisture_wb_frac"].value
    if target >= drips:
        found = f"{carrier.name} does not hold {target:.0f} % of water: it drips from about {drips:.0f} %;"
        raise BadInput("culture", (Problem("--moisture", found, f"write {least:.0f} to {most:.0f} %."),))
    if target <= own:
        found = f"{carrier.name} holds {own:.0f} % of water as it is, and {target:.0f} % is aimed at;"
        dry = 'dry it first, or name something dry beside it, such as --carrier "2 kg wheat bran".'
        raise BadInput("culture", (Problem("--carrier", found, dry),))


def _recipe(read: Read, carrier: Carrier) -> Recipe:
    known = read.known.inoculum
    return recipe_for(carrier, read.sugar, read.milk, known, start=read.start, target=read.target, ratio=read.ratio)


def _has_serum(read: Read, recipe: Recipe, bran_kg: float) -> bool:
    """Whether the serum on hand does for all of it, so that the chain starts there, where nobody said otherwise."""
    if read.asked.start is not None or read.start.id != "rice":
        return False
    needed = bran_batch(bran_kg, read.known.inoculum, recipe=recipe).serum_l
    return read.held.get("serum_l", 0.0) >= ENOUGH * needed


def _reaches(read: Read, recipe: Recipe, parts: tuple[Part, ...]) -> dict[str, float]:
    """Return the bran that each thing on hand would do for; milk counts as the serum that parts from it."""
    held = {name: read.held[name] for name in ON_HAND if name in read.held}
    if "carrier_kg" in held and len(read.parts) == 1:
        held["carrier_kg"] /= parts[0].share  # with the dry carrier that is blended in
    unused = NOTHING_BUT[read.start.from_link]
    held = {name: amount for name, amount in held.items() if name not in unused}
    if "rice_wash_l" in held and read.start.from_link == "rice_only":
        held["serum_l"] = held.pop("rice_wash_l")
    if "serum_l" in held and "milk_l" in held:
        held["serum_l"] += held.pop("milk_l") * recipe.serum_yield_l_per_l.value
    found = reaches_kg(read.known.inoculum, held, recipe=recipe)
    if "heel_kg" in read.held:
        one = bran_batch(1.0, read.known.inoculum, recipe=recipe).carrier_kg * read.known.culture.heel_frac.value
        found["heel_kg"] = read.held["heel_kg"] / one
    return found


def _asked(read: Read) -> Mapping[str, Figure]:
    """Return the bran that scraps will need, where some were named: the need has an interval, the batch has none."""
    known = read.known.inoculum
    scraps, animal = read.scraps, 0.0
    if scraps is None and read.site is not None:
        held = knowledge(read.site.materials).materials
        portions = week_of(read.site.streams, held, members=read.members)
        whole = sum(each.mass.value for each in portions)
        animal = sum(each.mass.value for each in portions if each.material.animal) / whole if whole else 0.0
        scraps = read.told("scraps_kg", whole, "kg", words="scraps of a week at that site")
    if scraps is None:
        return {}
    dose = derive(
        "dose_g_per_kg",
        dose_g_per_kg,
        words="bran on a kilogram of scraps",
        animal_frac=read.told("animal_frac", animal, "1", words="share of meat, fish, egg and dairy"),
        plain_dose_g_per_kg=known.plain_dose_g_per_kg,
        animal_dose_g_per_kg=known.animal_dose_g_per_kg,
        least_dose_g_per_kg=known.least_dose_g_per_kg,
    )
    in_week = derive(
        "bran_week_kg", bran_dose_kg, words="bran for a week of scraps", scraps_kg=scraps, dose_g_per_kg=dose
    )
    weeks = read.told("weeks", float(read.weeks), "wk", words="weeks")
    need = derive("needed_kg", per_weeks, words=f"bran for {read.weeks} weeks", week_kg=in_week, weeks=weeks)
    return {"scraps_kg": scraps, "dose_g_per_kg": dose, "needed_kg": need}


def _bran(
    read: Read, asked: Mapping[str, Figure], reaches: Mapping[str, float]
) -> tuple[Figure, dict[str, Figure], bool]:
    """Return the bran that is made, what it follows from, and whether it follows from what is on hand."""
    tell = partial(read.told, "bran_kg", unit="kg")
    if read.wanted_kg is not None:
        return tell(read.wanted_kg, words="dry bran that is wanted", typed=read.asked.bran or ""), dict(asked), False
    if asked:
        whole = float(np.ceil(asked["needed_kg"].value / LEAST_STEP_KG - 1e-9) * LEAST_STEP_KG)
        return tell(whole, words="dry bran, rounded up from what the scraps need"), dict(asked), False
    if reaches:
        return tell(min(reaches.values()), words="dry bran from what is on hand"), {}, True
    if not read.asked.has_bran or read.asked.without or read.asked.start or read.parts[0][0].id != USUAL_CARRIER:
        return tell(EMERGENCY_KG, words="dry bran, an example"), {}, False
    found = "nothing is wanted, and nothing is in the cupboard;"
    remedy = 'say what you want, --bran "8 kg", or what you have, --milk "2 L" or --serum "350 ml".'
    raise BadInput("culture", (Problem("", found, remedy),))


def _as_started(figures: Mapping[str, Figure], start: Start) -> dict[str, Figure]:
    """Return the amounts of a start: what it has no use for is nothing, and what stands in for serum is named."""
    found = dict(figures)
    members = figures["water_l"].members.size
    for name in NOTHING_BUT[start.from_link]:
        found[name] = written(
            name, 0.0, found[name].unit, words=f"{found[name].words}: none with this start", members=members
        )
    if start.from_link == "rice_only":
        found["rice_water_l"] = found["serum_l"].called("soured rice water, in the place of serum")
    elif start.id in ("brine", "culture"):
        found["serum_l"] = found["serum_l"].called(f"{start.name}, in the place of serum")
    return found


def _calendar(read: Read, steps: Mapping[str, Figure]) -> tuple[Calendar, bool]:
    """Return the dates: backwards from the day it is needed, or forwards from today where that is too late."""
    if read.by is None:
        return forwards(read.today, steps), False
    calendar = backwards(read.by, steps)
    if calendar.start < read.today:
        return forwards(read.today, steps), True
    return calendar, False


def _after(read: Read, figures: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return what comes after: how long the bran keeps, and the heel of a making that starts from one."""
    dried = next(each for each in read.bench.stores if each.matter == "bran")
    found = {"keeps_d": keeps_figure(dried, read.kitchen.room_c, read.known)}
    if read.start.from_link != "heel":
        return found
    share = read.known.culture.heel_frac
    found["heel_kg"] = derive(
        "heel_kg", heel_kg, words="heel for this making", carrier_kg=figures["carrier_kg"], heel_frac=share
    )
    if "heel_kg" in read.held:
        found["generations"] = derive(
            "generations",
            generations_for,
            words="makings from what you have",
            wanted_kg=figures["bran_kg"],
            at_hand_kg=read.told("at_hand_kg", read.held["heel_kg"], "kg", words="bran that you have"),
            heel_frac=share,
        )
    return found


def _binds(reaches: Mapping[str, float], bran_kg: float) -> str:
    """Return what of the things on hand gives out first; nothing where they all do."""
    short = {name: reach for name, reach in reaches.items() if reach <= bran_kg * (1.0 + 1e-9)}
    return min(short, key=lambda each: short[each]) if short else ""


def _assumed(read: Read, *, is_forward: bool) -> tuple[str, ...]:
    told = list(read.assumptions)
    if not read.kitchen.is_air_known:
        told.append("Drying takes what is usual indoors; the air of the room was not given (--air or --outdoors).")
    if not read.asked.carriers:
        told.append("The carrier is wheat bran (--carrier).")
    if read.asked.scraps and read.asked.weeks is None:
        told.append(f"It is to last {read.weeks} weeks (--weeks).")
    if read.wanted_kg is None and not is_forward and read.scraps is None and read.site is None:
        told.append(f"{read.speech.kg(EMERGENCY_KG)} of bran are an example (--bran or --scraps).")
    if is_forward:
        told.append("What is not named is not short.")
    return tuple(told)
