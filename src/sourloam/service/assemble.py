"""Builds what the use cases need: the one place where evidence, files and the pure rules meet."""

from collections.abc import Iterable
from datetime import date
from functools import partial
from pathlib import Path

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Assumption
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.climates import load_climates
from sourloam.evidence.crops import load_crops
from sourloam.evidence.materials import Materials, load_materials
from sourloam.evidence.organisms import load_organisms
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.response import load_response
from sourloam.evidence.rules import load_jurisdictions
from sourloam.evidence.sources import load_sources
from sourloam.exchange.weather import read_weather
from sourloam.fleet.chance import ChanceParameters
from sourloam.fleet.knowledge import Knowledge
from sourloam.fleet.setting import first_situation
from sourloam.plan.question import Question
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.parameters import ClimateParameters
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.parameters import ModelParameters
from sourloam.science.ferment.parameters import FermentParameters
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.load.assess import Known as LoadKnown
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.materials.composition import Material, Rule
from sourloam.science.materials.stated import nearest, own_material
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.soil_tub.parameters import SoilTubParameters
from sourloam.science.places.taker import TakerParameters
from sourloam.science.places.worm_bin.parameters import WormBinParameters
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.site.own import OwnMaterial
from sourloam.site.site import Site
from sourloam.sitefile.read import SiteFile, read_site
from sourloam.sitefile.validate import Known

DEFAULT_CLIMATE = "mild-maritime"


def knowledge(own: Iterable[OwnMaterial] = ()) -> Knowledge:
    """Load everything with a provenance that the chain is handed, and a keeper's own materials."""
    table = load_materials()
    return Knowledge(
        materials={each.id: each for each in table} | own_materials(own, table),
        crops=load_crops(),
        load=load_parameters(LoadParameters, "load"),
        ferment=load_parameters(FermentParameters, "ferment"),
        vessel=load_parameters(VesselParameters, "vessel"),
        inoculum=load_parameters(InoculumParameters, "inoculum"),
        bed=load_parameters(BedParameters, "bed"),
        pile=load_parameters(PileParameters, "pile"),
        worm_bin=load_parameters(WormBinParameters, "worm_bin"),
        soil_tub=load_parameters(SoilTubParameters, "soil_tub"),
        taker=load_parameters(TakerParameters, "taker"),
        chance=load_parameters(ChanceParameters, "chance"),
        response=load_response(),
    )


def known_of(members: int) -> LoadKnown:
    """Return what is known of loads, vessels and bran."""
    return LoadKnown(
        load_parameters(LoadParameters, "load", members=members),
        load_parameters(VesselParameters, "vessel", members=members),
        load_parameters(InoculumParameters, "inoculum", members=members),
    )


def living_of(members: int) -> Living:
    """Return what is known of the life in a vessel."""
    model = load_parameters(ModelParameters, "vessel_model", members=members)
    return Living(model, load_organisms(members=members))


def own_materials(own: Iterable[OwnMaterial], table: Materials) -> dict[str, Material]:
    """Return a keeper's own materials by their id: what was not stated is that of the nearest of the table."""
    return {each.id: own_material(each.stated, stands_for(each, table)) for each in own}


def stands_for(own: OwnMaterial, table: Materials) -> Material:
    """Return the material of the table that stands for what a keeper does not know of one.

    Raises
    ------
    NotFound
        If the one that was named is not in the table.
    """
    if own.like is not None:
        return table.find(own.like)
    return nearest(own.stated, (each for each in table if each.rule is not Rule.NO))


def said_of_own(own: Iterable[OwnMaterial], table: Materials) -> tuple[Assumption, ...]:
    """Say of each of a keeper's own materials what stands for it."""
    return tuple(
        Assumption(
            each.id,
            f"What you did not state of {each.stated.name} is taken from {stands_for(each, table).name}.",
        )
        for each in own
    )


def site_file(path: Path) -> SiteFile:
    """Read a site file against the names that the tables know.

    Raises
    ------
    BadInput
        If the file holds faults; all of them are named.
    """
    return read_site(path, known_names())


def known_names() -> Known:
    """Return the names that a site file may use."""
    materials = load_materials()
    return Known(
        has_material=materials.has,
        is_liquid=lambda name: materials[name].kind == "liquid",
        is_refused=partial(_refusal, materials),
        near_materials=materials.near,
        crops=tuple(load_crops()),
        climates=tuple(load_climates()),
        jurisdictions=load_jurisdictions(),
    )


def _refusal(materials: Materials, name: str) -> str:
    material = materials[name]
    return material.reason if material.rule is Rule.NO else ""


def climate_of(site: Site, folder: Path) -> tuple[Climate, tuple[Assumption, ...]]:
    """Return the climate of a site, from what its file says, and what was assumed.

    Raises
    ------
    BadInput
        If the climate file that it names cannot be read.
    """
    facts = site.facts
    parameters = load_parameters(ClimateParameters, "climate")
    common = {"indoors_c": facts.indoors_c, "latitude_deg": facts.latitude_deg, "parameters": parameters}
    if facts.weather is not None:
        days = read_weather(_beside(folder, facts.weather))
        return Climate.from_daily(days, **common), ()  # type: ignore[arg-type]
    if facts.outdoor_c is not None:
        return Climate.from_monthly(facts.outdoor_c, **common), ()  # type: ignore[arg-type]
    name = facts.climate or DEFAULT_CLIMATE
    typical = load_climates()[name]
    months = typical.months_at(facts.latitude_deg)
    says = f"The months outdoors are those of {typical.like}: {typical.words}."
    return Climate.from_monthly(months, **common), (Assumption("site", says),)  # type: ignore[arg-type]


def _beside(folder: Path, name: str) -> Path:
    """Return the path of a file that stands beside the site file; nothing outside that folder is read."""
    path = (folder / name).resolve()
    if not path.is_relative_to(folder.resolve()):
        raise BadInput(
            name,
            (
                Problem(
                    "site",
                    f'weather = "{name}" lies outside the folder of the site file;',
                    "put it beside the site file.",
                ),
            ),
        )
    return path


def question_of(read: SiteFile, folder: Path, *, today: date | None = None) -> Question:
    """Return the question of a year's plan.

    Raises
    ------
    BadInput
        If the climate file cannot be read.
    """
    climate, assumed = climate_of(read.site, folder)
    first = today or read.site.facts.start
    known = knowledge(read.site.materials)
    own = said_of_own(read.site.materials, load_materials()) if read.site.materials else ()
    return Question(
        site=read.site,
        first=first,
        situation=first_situation(read.site, first, known),
        climate=climate,
        knowledge=known,
        cautions=load_cautions(),
        sources=load_sources(),
        assumptions=(*read.assumptions, *assumed, *own),
    )
