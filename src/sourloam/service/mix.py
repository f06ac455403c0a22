"""Use case: judge a load before the lid goes on."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, NotFound, Problem
from sourloam.base.fields import Asking, Fault, Key, declared
from sourloam.base.figure import derive
from sourloam.evidence.apart import load_apart
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.exchange.amounts import Amount, By, find_any, read_amounts, read_amounts_file, read_as_american
from sourloam.plan.loads import ABSORBENT, setting_of, week_of
from sourloam.plan.words import Speech
from sourloam.science.ferment.parameters import FermentParameters
from sourloam.science.load.advice import Do, Means
from sourloam.science.load.assess import Known, Load, Portion, Setting
from sourloam.science.load.bed import as_planned
from sourloam.science.load.bran import Wild
from sourloam.science.load.course import Habit, deep, with_course
from sourloam.science.load.full import pressed_kg_per_l
from sourloam.science.load.judge import Judgement, judge
from sourloam.science.load.liquid import liquid_shares
from sourloam.science.load.members import members_of
from sourloam.science.materials.composition import Material
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.ground.salt import Digging, GroundParameters, salt_figures
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.soil_tub.parameters import SoilTubParameters
from sourloam.service.assemble import known_of
from sourloam.service.measures import depth_m, over_d, parts_of_water
from sourloam.service.named import site_named
from sourloam.service.portions import BRAN, SUGAR, VOLUME_L, Pantry, portion_of
from sourloam.site.people import Keeper
from sourloam.site.site import Site
from sourloam.site.vessels import Vessel
from sourloam.views.handling import Handling, Kitchen
from sourloam.views.mix import MixView, mix_view

MEMBERS: Final = 1000
WATER, PLANTS = "water", "vegetable-scraps"


@dataclass(frozen=True)
class Asked:
    """What a mix is asked with; what is left open has a default, which is said."""

    amounts: tuple[str, ...] = ()
    table: Path | None = None  # a CSV file of amounts
    own: Path | None = None  # a CSV file of the keeper's own materials
    site: Path | None = None
    stream: str | None = None  # of that site: a week of it
    vessel: str | None = None
    has_drain: bool | None = None
    at_hand: tuple[str, ...] = ()  # dry things that soak up
    caddy_d: float = 0.0  # days for which it lay in a vented caddy before it was weighed
    is_strict: bool = False
    over: str | None = None  # in what time it comes in
    loads: int | None = None  # in how many loadings, in that time
    layer: str | None = None  # how deep a layer is
    bed: str | None = None  # how deep the dry bed of a vessel without a drain is
    smells: bool = False
    has_bran: bool = True
    dilute: str | None = None  # "1:10" or "10": parts of water to one of the liquid, as the keeper means to pour it
    units: str | None = None
    members: int = MEMBERS


def judge_mix(asked: Asked) -> MixView:
    """Return the judgement of a mix.

    Raises
    ------
    BadInput
        If an amount cannot be read or a name is unknown; all faults are named.
    """
    known = deep(
        known_of(asked.members),
        layer_m=depth_m(asked.layer, "--layer", members=asked.members),
        bed_m=depth_m(asked.bed, "--bed", members=asked.members),
    )
    if asked.stream and not asked.site:
        raise BadInput("--stream", (Problem("", "a stream is one of a site;", "name the site file: --site SITE."),))
    site = site_named(asked.site).site if asked.site else None
    materials = Pantry.of(site.materials if site else (), asked.own)
    read = _amounts(asked, materials)
    portions = [
        portion_of(each, number, known.load, members=asked.members, caddy_d=asked.caddy_d)
        for number, each in enumerate(read)
    ]
    if site is not None:
        portions += _stream(site, asked, materials)
    absorbents = _absorbents(asked, materials)
    setting = setting_of(_vessel(asked, site), absorbents[0], members=asked.members)
    table = materials.table
    means = Means(table[SUGAR], table[WATER], absorbents, table[PLANTS])
    judged = _judged(portions, setting, known, means, asked=asked)
    load = _lived_with(judged, known, asked)
    judged = replace(judged, load=load, advice=as_planned(judged.advice, load) if load else judged.advice)
    keeper = site.keeper if site else Keeper()
    kitchen = Kitchen(Speech(asked.units or keeper.units), keeper.handful_kg, table[BRAN].loose_kg_per_l)
    taken = _assumed(asked, read, known, kitchen.speech)
    return mix_view(
        judged,
        portions,
        assumptions=(*taken, *materials.said),
        sources=load_sources(),
        handling=_handling(judged, known, kitchen, asked),
        pile=load_parameters(PileParameters, "pile"),
    )


def _judged(portions: Sequence[Portion], setting: Setting, known: Known, means: Means, *, asked: Asked) -> Judgement:
    """Return the judgement; the bed of a vessel without a drain is of what the advice soaks its liquid up with."""

    def judged_in(where: Setting) -> Judgement:
        return judge(
            portions, where, known, means, members=asked.members, is_strict=asked.is_strict, has_bran=asked.has_bran
        )

    judged = judged_in(setting)
    steps = judged.advice.steps if judged.advice else ()
    soaks = next((each.material for each in steps if each.do is Do.SOAK and each.material), setting.absorbent)
    if setting.has_drain or soaks == setting.absorbent:
        return judged
    return judged_in(replace(setting, absorbent=soaks))


def _handling(judged: Judgement, known: Known, kitchen: Kitchen, asked: Asked) -> Handling:
    """Return what is said of a load beside its judgement rests on."""
    usual, ground = load_parameters(FermentParameters, "ferment"), load_parameters(GroundParameters, "ground")
    return Handling(
        kitchen,
        _habit(asked),
        tender_ds_per_m=ground.tender_ds_per_m.value,
        hardy_ds_per_m=ground.hardy_ds_per_m.value,
        usual_dose_frac=known.inoculum.plain_dose_g_per_kg.value / 1000.0,
        usual_ready_d=usual.ready_at_20c_d.value,
        usual_fails_frac=usual.failing_share.value,
        safe_parts=known.load.dilution.value,
        shares=liquid_shares(judged.load, known) if judged.load else {},
        apart=load_apart(),
    )


def _habit(asked: Asked) -> Habit:
    return Habit(over_d(asked.over), asked.loads, asked.smells, asked.has_bran, parts_of_water(asked.dilute))


def _lived_with(judged: Judgement, known: Known, asked: Asked) -> Load | None:
    """Return the load with the figures of its days and of the ground that it will go to."""
    if judged.load is None:
        return None
    members = asked.members
    given = load_parameters(FermentParameters, "ferment", members=members)
    wild = Wild(given.ready_at_20c_d, given.without_bran_times, given.failing_share)
    load = with_course(judged.load, known, _habit(asked), wild)
    bed = load_parameters(BedParameters, "bed", members=members)
    tub = load_parameters(SoilTubParameters, "soil_tub", members=members)
    held = load.figures
    pressed = derive(
        "pressed_kg_per_l",
        pressed_kg_per_l,
        words="a litre of it pressed",
        mass_kg=held["mass_kg"],
        pressed_l=held["pressed_l"],
    )
    ground = load_parameters(GroundParameters, "ground", members=members)
    digging = Digging(bed.fits_kg_per_m2, bed.mixed_m, tub.soil_per_product)
    return replace(load, figures={**held, **salt_figures(held, pressed, ground, digging)})


def _amounts(asked: Asked, materials: Pantry) -> tuple[Amount, ...]:
    if asked.table is not None:
        return (*read_amounts_file(asked.table, materials.find), *_typed(asked, materials))
    return _typed(asked, materials)


def _typed(asked: Asked, materials: Pantry) -> tuple[Amount, ...]:
    if not asked.amounts and (asked.table is not None or asked.site is not None):
        return ()
    return read_amounts(asked.amounts, materials.find)


def _stream(site: Site, asked: Asked, materials: Pantry) -> list[Portion]:
    """Return a week of a stream, or of all streams of a site."""
    streams = [each for each in site.streams if asked.stream in (None, each.id)]
    if not streams:
        ids = ", ".join(each.id for each in site.streams)
        raise BadInput("--stream", (Problem("", f'"{asked.stream}" is no stream of the site.', f"There are: {ids}."),))
    return week_of(streams, materials.by_id(), members=asked.members)


def _vessel(asked: Asked, site: Site | None) -> Vessel:
    """Return the vessel: as asked, else the first of the site, else a usual one."""
    vessel = site.vessels[0] if site is not None else Vessel("usual", VOLUME_L)
    if asked.vessel is not None:
        key = next(mark for name, mark in declared(Vessel) if name == "volume_l" and isinstance(mark, Key))
        try:
            vessel = Vessel("asked", float(str(key.kind.read(asked.vessel, Asking()))), has_drain=vessel.has_drain)
        except Fault as fault:
            raise BadInput("--vessel", (Problem("", fault.found, fault.remedy),)) from None
    return vessel if asked.has_drain is None else replace(vessel, has_drain=asked.has_drain)


def _absorbents(asked: Asked, materials: Pantry) -> tuple[Material, ...]:
    """Return the dry things that are at hand; cardboard is, in every house."""
    found, problems = [], []
    for name in asked.at_hand or (ABSORBENT,):
        try:
            found.append(find_any(name, materials.find))
        except NotFound as missing:
            problems.append(missing.problem(otherwise='See "sourloam materials".'))
    problems += [
        Problem("", f"{each.name} soaks up nothing;", "name something dry, such as cardboard, bread or sawdust.")
        for each in found
        if not members_of(each, 1)["soaks"].any()
    ]
    if problems:
        raise BadInput("--at-hand", tuple(problems))
    return tuple(found)


def _assumed(asked: Asked, read: Sequence[Amount], known: Known, speech: Speech) -> tuple[str, ...]:
    """Say what was taken as given, since nothing else was said."""
    pieces = [f"one {name} {speech.kg(mass)}" for name, mass in _pieces(read).items()]
    told = [f"By count: {', '.join(pieces)}."] if pieces else []
    if asked.vessel is None and asked.site is None:
        thick = speech.told(f"{100.0 * known.vessel.layer_m.value:g} cm")
        told.append(f"The vessel holds {speech.size(VOLUME_L)}, and its layers are about {thick} deep (--vessel).")
    if asked.over is None and asked.site is None:
        told.append("As much comes in every week (--over).")
    if asked.has_drain is None and asked.site is None:
        told.append("It has a drain, and the liquid is drawn off (--no-drain).")
    if not asked.at_hand:
        told.append("Torn cardboard is at hand to soak up liquid (--at-hand).")
    if any(each.by is By.VOLUME for each in read):
        told.append("Volumes are loose, as in a cup or a caddy.")
    told += [
        f'A {name} is the American one, {speech.litres(litres)}; write "UK {name}" for the other.'
        for name, litres in read_as_american([each.typed for each in read] + [asked.vessel or ""]).items()
    ]
    if any(each.by is By.HANDFUL for each in read):
        told.append(f"A handful is {speech.litres(known.load.handful_l.value)}, loosely; hands differ twofold.")
    if not asked.caddy_d:
        told.append("It is fresh, or was weighed on the day it was thrown in (--caddy-days).")
    return tuple(told)


def _pieces(read: Sequence[Amount]) -> dict[str, float]:
    """Return what one piece of each weighs that was counted."""
    return {each.material.name: each.material.piece_kg or 0.0 for each in read if each.by is By.PIECE}
