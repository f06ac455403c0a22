"""A load judged before the lid goes on: every figure of it, each with its reason."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import MEMBERS, SEED, Figure, derive, derived, written
from sourloam.base.numbers import FloatArray
from sourloam.science.chem.acids import ACIDS
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.load import laws
from sourloam.science.load.members import Members, members_of, value_figure
from sourloam.science.load.parameters import LoadParameters
from sourloam.science.materials.buffering import as_lactic_g_per_100g_dry
from sourloam.science.materials.composition import Material
from sourloam.science.materials.elements import carbon_to_nitrogen
from sourloam.science.materials.fermentability import butyric_chance_frac, fermentability
from sourloam.science.vessel.geometry import floor_m2
from sourloam.science.vessel.parameters import VesselParameters

SUMS: Final = (
    *("dry", "protein", "fat", "sugars", "starch", *ACIDS, "nitrogen", "carbon", "sodium"),
    *("wet", "wet_dry", "soaks", "pours", "animal"),
)
CHARGES: Final = ("tissue", "strong", "alkali")
SUM_WORDS: Final = MappingProxyType(
    {
        "dry": "dry matter of all",
        "wet": "mass of what is wet",
        "wet_dry": "dry matter of what is wet",
        "soaks": "water that the dry part can soak up",
        "pours": "liquid that is poured in",
        "animal": "meat, fish, egg and dairy",
        "tissue": "charge that the tissues take up between pH 4 and 6",
        "strong": "charge of the strong ions",
        "alkali": "acid that shells, lime and ash take up in a fortnight",
    }
)


@dataclass(frozen=True)
class Portion:
    """So much of a material, as a person wrote it."""

    material: Material
    mass: Figure
    typed: str = ""


@dataclass(frozen=True)
class Setting:
    """The vessel that a load goes into, and what soaks up its liquid."""

    volume: Figure
    below_grid: Figure  # room for liquid
    has_drain: bool
    absorbent: Material


@dataclass(frozen=True)
class Known:
    """The parameters that a load is judged by."""

    load: LoadParameters
    vessel: VesselParameters
    inoculum: InoculumParameters


@dataclass(frozen=True)
class Load:
    """A load with all that was worked out of it."""

    portions: tuple[Portion, ...]
    setting: Setting
    figures: Mapping[str, Figure]

    def __getitem__(self, name: str) -> FloatArray:
        """Return the members of a figure."""
        return self.figures[name].members


def assess(
    portions: Sequence[Portion], setting: Setting, known: Known, *, members: int = MEMBERS, seed: int = SEED
) -> Load:
    """Return a load with its figures; `portions` are what goes in, none of them nothing.

    The masses have at least as many members as are asked for.

    Raises
    ------
    OutOfRange
        If an amount is impossible.
    """
    portions = [replace(each, mass=replace(each.mass, members=each.mass.members[:members])) for each in portions]
    drawn = {each.material: members_of(each.material, members, seed) for each in portions}
    found = _sums(portions, drawn)
    found |= _basic(found)
    found |= _wetness(found, setting, known)
    found |= _buffering(found, known)
    found |= _souring(found, known)
    found |= _room(_volumes(portions, drawn), found, setting, known)
    return Load(tuple(portions), setting, found)


def _sums(portions: Sequence[Portion], drawn: Mapping[Material, Members]) -> dict[str, Figure]:
    masses = {f"mass_{number}": each.mass for number, each in enumerate(portions)}
    found = {"mass_kg": derived("mass_kg", laws.total_kg, masses, words="fresh mass")}
    for name in (*SUMS, *CHARGES):
        shares = {
            f"share_{number}": value_figure(each.material, name, drawn[each.material])
            for number, each in enumerate(portions)
        }
        rule, key = (laws.sum_eq, f"{name}_eq") if name in CHARGES else (laws.sum_kg, f"{name}_kg")
        found[key] = derived(key, rule, _held(masses | shares), words=SUM_WORDS.get(name, f"{name} of all"))
    return found


def _held(parts: Mapping[str, Figure]) -> dict[str, Figure]:
    """Return the parts of a sum without those that add nothing; one stays, so that nothing is a sum too."""
    numbers = [name.removeprefix("share_") for name in parts if name.startswith("share_")]
    adds = [each for each in numbers if np.any(parts[f"share_{each}"].members)] or numbers[:1]
    return {f"{kind}_{each}": parts[f"{kind}_{each}"] for each in adds for kind in ("mass", "share")}


def _basic(held: Mapping[str, Figure]) -> dict[str, Figure]:
    whole, dry = held["mass_kg"], held["dry_kg"]

    def of_whole(name: str, part: str, words: str) -> Figure:
        return derive(name, laws.percent, words=words, part_kg=held[part], whole_kg=whole)

    def of_dry(name: str, part: str, words: str) -> Figure:
        return derive(name, laws.percent, words=words, part_kg=held[part], whole_kg=dry)

    found = [
        of_whole("dry_matter_pct", "dry_kg", "dry matter"),
        of_dry("carbon_pct_dry", "carbon_kg", "carbon of the dry matter"),
        of_dry("nitrogen_pct_dry", "nitrogen_kg", "nitrogen of the dry matter"),
        derive("c_to_n", carbon_to_nitrogen, words="C:N", carbon=held["carbon_kg"], nitrogen=held["nitrogen_kg"]),
        of_whole("protein_pct", "protein_kg", "protein"),
        of_whole("fat_pct", "fat_kg", "fat"),
        of_whole("animal_pct", "animal_kg", "meat, fish, egg and dairy"),
        derive("salt_g_per_kg", laws.salt_g_per_kg, words="salt", sodium_kg=held["sodium_kg"], whole_kg=whole),
        derive("water_kg", laws.rest_kg, words="water", whole_kg=whole, part_kg=dry),
    ]
    return {each.name: each for each in found}


def _wetness(held: Mapping[str, Figure], setting: Setting, known: Known) -> dict[str, Figure]:
    free = derive(
        "free_water_l",
        laws.free_water_l,
        words="liquid that it sets free",
        wet_kg=held["wet_kg"],
        wet_dry_kg=held["wet_dry_kg"],
        liquid_kg=held["pours_kg"],
        soaks_kg=held["soaks_kg"],
        softness=known.vessel.softness,
    )
    count = free.members.size
    none = written("drained_l", 0.0, "L", words="liquid that drains: it has no drain", members=count)
    drained = free if setting.has_drain else none
    drawn = members_of(setting.absorbent, count)
    soaks = derive(
        "absorbent_g",
        laws.absorbent_g,
        words=f"{setting.absorbent.name} that soaks it up",
        free_l=free,
        dry_wb_frac=value_figure(setting.absorbent, "dry", drawn),
        held_kg_per_kg_dry=value_figure(setting.absorbent, "held", drawn),
    )
    kept = derive(
        "kept_dry_pct",
        laws.kept_dry_pct,
        words="dry matter of what stays in the vessel",
        dry_kg=held["dry_kg"],
        mass_kg=held["mass_kg"],
        drained_l=drained,
    )
    return {each.name: each for each in (free, soaks, kept)}


def _buffering(held: Mapping[str, Figure], known: Known) -> dict[str, Figure]:
    """Return sugar against buffering: the screen of silage."""
    acids = {name: held[f"{name}_kg"] for name in ACIDS}
    given = derived("acids_eq", laws.acids_eq, acids, words="charge that the acids take up between pH 4 and 6")
    buffering = derive(
        "buffering_meq_per_kg_dm",
        laws.buffering_meq_per_kg_dm,
        words="acid that it takes up between pH 6 and 4",
        tissue_eq=held["tissue_eq"],
        acids_eq=given,
        dry_kg=held["dry_kg"],
    )
    as_lactic = derive(
        "buffering_lactic", as_lactic_g_per_100g_dry, words="the same as lactic acid", buffering=buffering
    )
    sugar = derive(
        "sugar_g_per_100g_dm",
        laws.sugar_g_per_100g_dry,
        words="sugar of the dry matter",
        sugars_kg=held["sugars_kg"],
        dry_kg=held["dry_kg"],
    )
    coefficient = derive(
        "fermentability",
        fermentability,
        words="fermentability (under 35 hard, over 45 easy)",
        dry_pct=held["dry_matter_pct"],
        sugar=sugar,
        buffering=as_lactic,
    )
    chance = derive(
        "butyric_chance",
        butyric_chance_frac,
        words="chance of butyric acid by fermentability alone",
        coefficient=coefficient,
        middle=known.load.butyric_middle,
        width=known.load.butyric_width,
    )
    return {each.name: each for each in (given, buffering, as_lactic, sugar, coefficient, chance)}


def _souring(held: Mapping[str, Figure], known: Known) -> dict[str, Figure]:
    """Return the pH at which it starts and keeps, and the lactic acid that lies between."""
    load = known.load
    acids = {name: held[f"{name}_kg"] for name in ACIDS}
    charges = {"tissue_eq": held["tissue_eq"], "strong_eq": held["strong_eq"], "water_kg": held["water_kg"]}
    start = derived("start_ph", laws.start_ph, charges | acids, words="pH as it is mixed")
    critical = derived(
        "critical_ph",
        laws.critical_ph,
        {"kept_dry_pct": held["kept_dry_pct"], "scatter": load.critical_ph_scatter} | charges | acids,
        words="pH at which it keeps",
    )
    needed = derived(
        "lactic_needed_kg",
        laws.lactic_needed_kg,
        {"critical_ph": critical, "alkali_eq": held["alkali_eq"]} | charges | acids,
        words="lactic acid that it needs",
    )
    possible = derive(
        "lactic_possible_kg",
        laws.lactic_possible_kg,
        words="lactic acid that its sugar and starch can make",
        sugars_kg=held["sugars_kg"],
        starch_kg=held["starch_kg"],
        lactic_yield=load.lactic_yield,
        release_per_d=load.starch_release_per_d,
        days=load.sours_in_d,
    )
    per_kg = [
        derive(f"lactic_{which}_g_per_kg", laws.g_per_kg, words=words, amount_kg=amount, whole_kg=held["mass_kg"])
        for which, amount, words in (
            ("needed", needed, "lactic acid that it needs, to a kilogram"),
            ("possible", possible, "lactic acid that it can make, to a kilogram"),
        )
    ]
    return {each.name: each for each in (start, critical, needed, possible, *per_kg)}


def _volumes(portions: Sequence[Portion], drawn: Mapping[Material, Members]) -> dict[str, Figure]:
    """Return the masses, and the pressed density of each."""
    return {f"mass_{number}": each.mass for number, each in enumerate(portions)} | {
        f"density_{number}": value_figure(each.material, "pressed", drawn[each.material])
        for number, each in enumerate(portions)
    }


def _room(parts: Mapping[str, Figure], held: Mapping[str, Figure], setting: Setting, known: Known) -> dict[str, Figure]:
    """Return the room that it takes, and the bran that goes on its layers."""
    load, inoculum = known.load, known.inoculum
    room = derived("pressed_l", laws.pressed_l, parts, words="room when pressed")
    area = derive(
        "area_m2",
        floor_m2,
        words="floor of the vessel",
        volume_l=setting.volume,
        height_to_width=known.vessel.height_to_width,
    )
    count = derive("layers", laws.layers, words="layers", volume_l=room, area_m2=area, layer_m=known.vessel.layer_m)
    animal = derive("animal_frac", laws.share, words="animal part", part_kg=held["animal_kg"], whole_kg=held["mass_kg"])
    air = derive(
        "air_frac",
        laws.air_frac,
        words="air between the pieces when pressed",
        mass_kg=held["mass_kg"],
        volume_l=room,
        solid_kg_per_l=load.solid_kg_per_l,
    )
    bran = derive(
        "bran_g",
        laws.bran_g,
        words="bran at least",
        mass_kg=held["mass_kg"],
        animal_frac=animal,
        animal_times=load.animal_times,
        floor_g_per_kg=load.floor_g_per_kg,
        least_log10_per_g=inoculum.least_log10_per_g,
        bran_log10_per_g=inoculum.bran_log10_per_g,
        layers=count,
        area_m2=area,
        cover_kg_per_m2=load.cover_kg_per_m2,
    )
    return {each.name: each for each in (room, area, count, animal, air, bran)}
