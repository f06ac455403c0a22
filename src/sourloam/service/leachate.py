"""Use case: the liquid that is drawn off a batch."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.errors import NotFound, Problem
from sourloam.base.figure import Figure, derive, written
from sourloam.base.units import Dimension
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.crops import crop_lookup
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.science.load.members import members_of, value_figure
from sourloam.science.places.leachate.feed import let_go_l, strength_ds_per_m
from sourloam.science.places.leachate.judge import Liquid, judge_liquid
from sourloam.science.places.leachate.parameters import LeachateParameters
from sourloam.science.vessel.leachate import drained_frac, leachate_l_per_kg
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.service.asking import Quantities, read_quantities, refuse
from sourloam.service.ferment import Compiler
from sourloam.service.measures import parts_of_water
from sourloam.service.product import AskedProduct, Given, product_of
from sourloam.views.leachate import ByDay, LeachateCase, leachate_view
from sourloam.views.place import PlaceView

BROWNS: Final = ("cardboard", "dry-leaves", "straw", "sawdust")
NEAT: Final = ("undiluted", "neat")
DAYS: Final = (2, 4, 7, 14, 21)
RIPE_D: Final = 14.0  # a sour batch, where no day is said
QUANTITIES: Final[Quantities] = {
    "liquid": ("--liquid", Dimension.VOLUME, (0.001, 10_000.0), 'write how much there is, such as "500 ml".'),
    "area": ("--area", Dimension.AREA, (0.05, 1e5), 'write a tenth of a square metre or more, such as "4 m2".'),
    "drawn": ("--drawn", Dimension.TIME, (0.0, 365.0), 'write how long ago, such as "6 hours" or "2 days".'),
    "day": ("--day", Dimension.TIME, (0.0, 365.0), 'write how long after the first layer, such as "5 days".'),
}


@dataclass(frozen=True)
class AskedLeachate:
    """What the liquid is asked with, beside the product."""

    product: AskedProduct
    liquid: str | None = None
    for_what: str = "bed"
    crop: str | None = None
    area: str | None = None
    drawn: str | None = None
    day: str | None = None
    dilute: str | None = None
    ec: float | None = None
    water_ec: float | None = None
    target_ec: float | None = None
    soil: str | None = None


def judge_leachate(asked: AskedLeachate, compiler: Compiler | None = None) -> PlaceView:
    """Return the answer for a liquid.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    problems: list[Problem] = []
    read = read_quantities(asked, QUANTITIES, problems)
    for option, value, most in (("--ec", asked.ec, 60.0), ("--water-ec", asked.water_ec, 10.0)):
        if value is not None and not 0.0 <= value <= most:
            problems.append(Problem(option, f"{value:g} dS/m cannot be;", f"write 0 to {most:g}."))
    water = asked.water_ec if asked.water_ec is not None else 0.4
    if asked.target_ec is not None and asked.target_ec <= water:
        found = f"{asked.target_ec:g} dS/m is not above the {water:g} of the water: no water thins it to that;"
        problems.append(Problem("--target-ec", found, "use rain water, or aim higher."))
    crop = None
    if asked.crop is not None:
        try:
            crop = crop_lookup().find(asked.crop)
        except NotFound as missing:
            problems.append(missing.problem("--crop", otherwise="Write another word for it."))
    refuse(problems)
    parts = 0.0 if asked.dilute in NEAT else parts_of_water(asked.dilute)
    given = product_of(asked.product, compiler)
    members = given.members
    known = load_parameters(LeachateParameters, "leachate", members=members)
    litres = _litres(given, read.get("liquid"), members)
    liquid = Liquid(
        litres, asked.for_what, crop, day_d=read.get("day", RIPE_D), ec_ds_per_m=asked.ec, asked_parts=parts
    )
    liquid = liquid.with_water(asked.water_ec, asked.target_ec)
    figures = judge_liquid(liquid, known, _browns(members))
    case = LeachateCase(
        for_what=asked.for_what,
        parts=parts,
        drawn_d=read.get("drawn"),
        area_m2=read.get("area"),
        soil=asked.soil or ("frozen" if given.climate.is_frozen(given.on) else "moist"),
        assumptions=(*_assumed(asked), *given.assumptions),
        speech=given.speech,
        sources=load_sources(),
        cautions={each.id: each for each in load_cautions()},
        by_day=_by_day(litres, known, members),
        browns={name: load_materials()[name].name for name in BROWNS},
    )
    return leachate_view(figures, known, case)


def _litres(given: Given, typed: float | None, members: int) -> Figure:
    """Return how much there is: as written, else what such a batch lets go."""
    if typed is not None:
        return written("liquid_l", typed, "L", words="liquid that there is", members=members)
    if "leachate_l" in given.content.figures:
        return given.content["leachate_l"]
    vessel = load_parameters(VesselParameters, "vessel", members=members)
    per_kg = derive(
        "leachate_l_per_kg",
        leachate_l_per_kg,
        words="liquid that a kilogram lets go in the end",
        dry_wb_frac=given.content["dry_wb_frac"],
        softness=vessel.softness,
        bran_kg_per_kg=written("bran", 0.02, "1", words="bran to a kilogram", members=members),
        bran_holds_kg_per_kg=vessel.bran_holds_kg_per_kg,
    )
    return derive(
        "liquid_l", let_go_l, words="liquid that it lets go", mass_kg=given.content["mass_kg"], l_per_kg=per_kg
    )


def _by_day(litres: Figure, known: LeachateParameters, members: int) -> tuple[ByDay, ...]:
    """Return how much has come by some days after the first layer, and how strong what comes then is."""
    vessel = load_parameters(VesselParameters, "vessel", members=members)
    found = []
    for day in DAYS:
        share = drained_frac(day, vessel.draining_d.members)
        strength = strength_ds_per_m(
            known.leachate_ds_per_m.members, known.first_frac.members, day, known.ripens_d.members
        )
        found.append(ByDay(day, *(float(np.median(each)) for each in (litres.members * share, np.asarray(strength)))))
    return tuple(found)


def _browns(members: int) -> dict[str, tuple[Figure, Figure]]:
    """Return of each dry brown what a kilogram soaks up, and what a litre weighs."""
    table = load_materials()
    found = {}
    for name in BROWNS:
        drawn = members_of(table[name], members)
        found[name] = (value_figure(table[name], "soaks", drawn), value_figure(table[name], "loose", drawn))
    return found


def _assumed(asked: AskedLeachate) -> tuple[str, ...]:
    told = []
    if asked.liquid is None:
        told.append("There is as much liquid as a usual batch lets go (--liquid).")
    if asked.day is None:
        told.append("The batch is sour, two weeks after its first layer (--day).")
    if asked.drawn is None:
        told.append("It is drawn off and used on the same day (--drawn).")
    if asked.ec is None:
        told.append("Nobody measured it: liquids differ more than threefold (--ec).")
    return tuple(told)
