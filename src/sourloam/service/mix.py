"""Use case: judge a load before the lid goes on."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, NotFound, Problem
from sourloam.base.fields import Asking, Fault, Key, declared
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.sources import load_sources
from sourloam.exchange.amounts import Amount, By, find_any, read_amounts, read_amounts_file
from sourloam.plan.loads import ABSORBENT, setting_of, week_of
from sourloam.plan.words import Speech
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.load.advice import Means
from sourloam.science.load.assess import Known, Portion
from sourloam.science.load.judge import judge
from sourloam.science.load.members import members_of
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.materials.composition import Material
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.service.assemble import site_file
from sourloam.service.portions import Pantry, portion_of
from sourloam.site.people import Keeper
from sourloam.site.site import Site
from sourloam.site.vessels import Vessel
from sourloam.views.mix import Kitchen, MixView, mix_view

MEMBERS: Final = 1000
VOLUME_L: Final = 20.0  # a usual vessel, where none is named
SUGAR, WATER, PLANTS, BRAN = "sugar", "water", "vegetable-scraps", "wheat-bran"


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
    units: str | None = None
    members: int = MEMBERS


def judge_mix(asked: Asked) -> MixView:
    """Return the judgement of a mix.

    Raises
    ------
    BadInput
        If an amount cannot be read or a name is unknown; all faults are named.
    """
    known = Known(
        load_parameters(LoadParameters, "load", members=asked.members),
        load_parameters(VesselParameters, "vessel", members=asked.members),
        load_parameters(InoculumParameters, "inoculum", members=asked.members),
    )
    if asked.stream and not asked.site:
        raise BadInput("--stream", (Problem("", "a stream is one of a site;", "name the site file: --site SITE."),))
    site = site_file(asked.site).site if asked.site else None
    materials = Pantry.of(site.materials if site else (), asked.own)
    read = _amounts(asked, materials)
    portions = [_portion(each, number, known, asked) for number, each in enumerate(read)]
    if site is not None:
        portions += _stream(site, asked, materials)
    absorbents = _absorbents(asked, materials)
    setting = setting_of(_vessel(asked, site), absorbents[0], members=asked.members)
    table = materials.table
    means = Means(table[SUGAR], table[WATER], absorbents, table[PLANTS])
    judged = judge(portions, setting, known, means, members=asked.members, is_strict=asked.is_strict)
    keeper = site.keeper if site else Keeper()
    kitchen = Kitchen(Speech(asked.units or keeper.units), keeper.handful_kg, table[BRAN].loose_kg_per_l)
    taken = _assumed(asked, read, known, kitchen.speech)
    return mix_view(
        judged,
        portions,
        assumptions=(*taken, *materials.said),
        sources=load_sources(),
        kitchen=kitchen,
        pile=load_parameters(PileParameters, "pile"),
    )


def _amounts(asked: Asked, materials: Pantry) -> tuple[Amount, ...]:
    if asked.table is not None:
        return (*read_amounts_file(asked.table, materials.find), *_typed(asked, materials))
    return _typed(asked, materials)


def _typed(asked: Asked, materials: Pantry) -> tuple[Amount, ...]:
    if not asked.amounts and (asked.table is not None or asked.site is not None):
        return ()
    return read_amounts(asked.amounts, materials.find)


def _portion(amount: Amount, number: int, known: Known, asked: Asked) -> Portion:
    return portion_of(amount, number, known.load, members=asked.members, caddy_d=asked.caddy_d)


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
    told = [f"One of {name} weighs {speech.kg(mass)}." for name, mass in _pieces(read).items()]
    if asked.vessel is None and asked.site is None:
        deep = speech.told(f"{100.0 * known.vessel.layer_m.value:.0f} cm")
        told.append(f"The vessel holds {speech.size(VOLUME_L)}, and its layers are about {deep} deep (--vessel).")
    if asked.has_drain is None and asked.site is None:
        told.append("It has a drain, and the liquid is drawn off (--no-drain).")
    if not asked.at_hand:
        told.append("Torn cardboard is at hand to soak up liquid (--at-hand).")
    if any(each.by is By.VOLUME for each in read):
        told.append("Volumes are loose, as in a cup or a caddy.")
    if any(each.by is By.HANDFUL for each in read):
        told.append(f"A handful is {speech.litres(known.load.handful_l.value)}, loosely; hands differ twofold.")
    if not asked.caddy_d:
        told.append("It is fresh, or was weighed on the day it was thrown in (--caddy-days).")
    return tuple(told)


def _pieces(read: Sequence[Amount]) -> dict[str, float]:
    """Return what one piece of each weighs that was counted."""
    return {each.material.name: each.material.piece_kg or 0.0 for each in read if each.by is By.PIECE}
