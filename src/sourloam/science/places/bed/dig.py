"""A batch dug into a bed: the dose with the limit that sets it, and what the ground gets, as figures."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure, derive, derived, law, leaf
from sourloam.base.numbers import FloatArray
from sourloam.base.spread import Spread
from sourloam.science.batch.content import Content
from sourloam.science.places.bed import dose, season
from sourloam.science.places.bed.course import course_figures, rest_figures
from sourloam.science.places.bed.spot import Known, Spot, exactly, passed_d
from sourloam.science.places.ground.acidity import soil_buffer_mol_per_m2
from sourloam.science.places.ground.crops import Crop
from sourloam.science.places.ground.salinity import ions_g_per_kg

TRENCH_FRAC: Final = 0.5  # of a bed that is trenched at once; the rest is the soil that covers it. judgement


@dataclass(frozen=True)
class Dug:
    """What comes of it: figures, and the limit that sets the dose."""

    figures: Mapping[str, Figure]
    limits: Mapping[str, Figure]  # kg/m2, by what sets them
    binding: str  # the name of the tightest
    spot: Spot
    passed_d: FloatArray  # days at 20 °C, (members, days + 1)


def dig(content: Content, spot: Spot, known: Known) -> Dug:
    """Return what a bed does with a batch.

    Raises
    ------
    OutOfRange
        If the area is not above 0, or the content cannot be.
    """
    held = dict(_held(content, known))
    limits = _limits(content, held, spot, known)
    found = _spread_over(content, limits, spot, known)
    found |= held | _chemistry(content, found | held, spot, known)
    passed = passed_d(spot, known)
    found |= course_figures(content, found, spot, known)
    found |= rest_figures(spot, known)
    binding = min(limits, key=lambda name: limits[name].value)
    return Dug(MappingProxyType(found), MappingProxyType(limits), binding, spot, passed)


def _held(content: Content, known: Known) -> Mapping[str, Figure]:
    """Return what a kilogram brings that limits ask for beside what it holds."""
    ions = derive(
        "ions_g_per_kg",
        ions_g_per_kg,
        words="salts of all ions, to a kilogram",
        conductivity_ds_per_m=content["conductivity_ds_per_m"],
        salt_mg_per_l=known.season.strong_salt_mg_per_l,
        dry_wb_frac=content["dry_wb_frac"],
    )
    dry_pct = derive(
        "nitrogen_dry_pct",
        nitrogen_dry_pct,
        words="nitrogen of its dry matter",
        g_per_kg=content["nitrogen_g_per_kg"],
        dry_wb_frac=content["dry_wb_frac"],
    )
    by_content = derive(
        "free_by_content_frac", season.free_by_content_frac, words="by how much there is", nitrogen_dry_pct=dry_pct
    )
    by_ratio = derive(
        "free_by_c_to_n_frac",
        season.free_by_c_to_n_frac,
        words="by its C:N",
        c_to_n=content["c_to_n"],
        decomposes_frac=known.season.decomposes_frac,
        efficiency=known.season.efficiency,
        microbial_c_to_n=known.season.microbial_c_to_n,
    )
    free = derive(
        "free_frac",
        season.free_frac,
        words="part of its nitrogen that comes free in a warm season",
        by_content=by_content,
        by_c_to_n=by_ratio,
        between_frac=known.season.between_frac,
    )
    return {each.name: each for each in (ions, free)}


@law("nitrogen of a kilogram ÷ its dry matter", unit="%")
def nitrogen_dry_pct(g_per_kg: FloatArray, dry_wb_frac: FloatArray) -> FloatArray:
    """Return the nitrogen of the dry matter."""
    return np.asarray(g_per_kg) / 10.0 / np.asarray(dry_wb_frac)


def _limits(content: Content, held: Mapping[str, Figure], spot: Spot, known: Known) -> dict[str, Figure]:
    """Return every limit of the dose, by what sets it."""
    bed, more = known.bed, known.season
    given = exactly("given_g_per_m2", spot.given_g_per_m2, "g/m2", words="nitrogen that it got this year", known=known)
    words = "phosphorus that it got this year"
    none = exactly("given_p_g_per_m2", 0.0, "g/m2", words=words, known=known, source="judgement")
    limits = {
        "nitrogen": derive(
            "by_nitrogen_kg_per_m2",
            dose.by_year_kg_per_m2,
            words="until the nitrogen of the year is given",
            most_g_per_m2=bed.nitrogen_cap_g_per_m2,
            given_g_per_m2=given,
            g_per_kg=content["nitrogen_g_per_kg"],
        ),
        "phosphorus": derive(
            "by_phosphorus_kg_per_m2",
            dose.by_year_kg_per_m2,
            words="until the phosphorus of the year is given",
            most_g_per_m2=more.phosphorus_most_g_per_m2,
            given_g_per_m2=none,
            g_per_kg=content["phosphorus_g_per_kg"],
        ),
        "salt": _by_salt(held, spot, known),
        "room": _by_room(content, spot, known),
    }
    if spot.crop is not None and not spot.crop.fixes_nitrogen:
        limits["need"] = derive(
            "by_need_kg_per_m2",
            dose.by_need_kg_per_m2,
            words=f"until {spot.crop.name} has what it needs",
            need_g_per_m2=need_of(spot.crop, known),
            g_per_kg=content["nitrogen_g_per_kg"],
            free_frac=held["free_frac"],
        )
    if not spot.has_free_lime:
        limits["acid"] = derive(
            "by_acid_kg_per_m2",
            dose.by_acid_kg_per_m2,
            words="until the dug soil turns half a pH sourer",
            shift_ph=more.shift_most_ph,
            buffer_mol_per_m2=_buffer(spot, known),
            titratable_mol_per_kg=content["titratable_mol_per_kg"],
        )
    return limits


def need_of(crop: Crop, known: Known) -> Figure:
    """Return the nitrogen that a crop needs, with its source."""
    low, middle, high = crop.nitrogen_low_g_per_m2, crop.nitrogen_g_per_m2, crop.nitrogen_high_g_per_m2
    return leaf(
        f"need.{crop.id}",
        Spread(middle, low, high, "normal" if low < high else "fixed"),
        "g/m2",
        words=f"nitrogen that {crop.name} needs",
        source=crop.source,
        place=crop.place,
        basis=crop.basis,
        members=known.bed.rest_q10.members.size,
    )


def bears_of(crop: Crop | None, known: Known) -> Figure:
    """Return the conductivity that a crop bears; that of tender ones where none is printed."""
    tender = known.ground.tender_ds_per_m
    if crop is None or crop.salt_threshold_ds_per_m is None or crop.salt_basis is None:
        return tender
    return leaf(
        f"bears.{crop.id}",
        Spread.exactly(crop.salt_threshold_ds_per_m),
        "dS/m",
        words=f"conductivity that {crop.name} bears",
        source=crop.salt_source,
        place="threshold of the table",
        basis=crop.salt_basis,
        members=tender.members.size,
    )


def _by_salt(held: Mapping[str, Figure], spot: Spot, known: Known) -> Figure:
    name = spot.crop.name if spot.crop else "tender crops"
    return derive(
        "by_salt_kg_per_m2",
        dose.by_salt_kg_per_m2,
        words=f"until the salt is more than {name} bear",
        bears_ds_per_m=bears_of(spot.crop, known),
        soil_ds_per_m=known.season.soil_ds_per_m,
        salt_mg_per_l=known.ground.salt_mg_per_l,
        mixed_m=mixed_of(spot, known),
        saturated_frac=known.ground.saturated_frac,
        ions_g_per_kg=held["ions_g_per_kg"],
    )


def cover_of(spot: Spot, known: Known) -> Figure:
    """Return the soil that goes above it."""
    if spot.cover_m is not None:
        return exactly("cover_m", spot.cover_m, "m", words="soil above it", known=known)
    if spot.is_deep:
        return known.season.cover_deep_m
    return known.season.cover_animals_m if spot.animals_dig else known.season.cover_m


def _by_room(content: Content, spot: Spot, known: Known) -> Figure:
    if spot.depth_m is None:
        return known.bed.fits_kg_per_m2
    words = "part of the bed that is trench"
    return derive(
        "by_depth_kg_per_m2",
        dose.by_depth_kg_per_m2,
        words="what fits under its cover",
        depth_m=exactly("depth_m", spot.depth_m, "m", words="depth of the trench", known=known),
        cover_m=cover_of(spot, known),
        trench_frac=exactly("trench_frac", TRENCH_FRAC, "1", words=words, known=known, source="judgement"),
        kg_per_l=content["kg_per_l"],
    )


def mixed_of(spot: Spot, known: Known) -> Figure:
    """Return the depth of the soil that shares acid and salt: what is dug, where that was said."""
    if spot.depth_m is None:
        return known.bed.mixed_m
    return exactly("mixed_m", spot.depth_m, "m", words="depth that is dug", known=known)


def _buffer(spot: Spot, known: Known) -> Figure:
    return derive(
        "buffer_mol_per_m2",
        soil_buffer_mol_per_m2,
        words="acid that turns the dug soil one pH sourer",
        lime_mg_per_kg=known.bed.lime_mg_per_kg(spot.texture),
        soil_kg_per_m3=known.bed.soil_kg_per_m3,
        depth_m=mixed_of(spot, known),
    )


def _spread_over(content: Content, limits: Mapping[str, Figure], spot: Spot, known: Known) -> dict[str, Figure]:
    """Return the dose, the ground, the trench and the holes of what is dug in."""
    most = derived("dose_kg_per_m2", dose.tightest_kg_per_m2, limits, words="what a square metre takes")
    mass = content["mass_kg"]
    found = [
        most,
        derive("area_m2", dose.area_m2, words="ground that all of it wants", mass_kg=mass, dose_kg_per_m2=most),
    ]
    if spot.area_m2 is None:
        found.append(derive("given_kg_per_m2", dose.tightest_kg_per_m2, words="what each square metre gets", dose=most))
        goes = mass
    else:
        area = exactly("bed_m2", spot.area_m2, "m2", words="area of the bed", known=known)
        over = {"mass_kg": mass, "area_m2": area, "dose_kg_per_m2": most}
        found.append(derived("given_kg_per_m2", dose.given_kg_per_m2, over, words="what each square metre gets"))
        goes = derived("takes_kg", dose.takes_kg, over, words="what the bed takes of it")
        found.append(goes)
    trench = {"width_m": known.season.trench_width_m, "layer_m": known.season.layer_m}
    common = {"mass_kg": goes, "kg_per_l": content["kg_per_l"]}
    found.append(derived("trench_m", dose.trench_m, common | trench, words="trench, a spade wide"))
    found.append(derived("holes", dose.holes, common | {"hole_l": known.season.hole_l}, words="or holes"))
    return {each.name: each for each in found}


def _chemistry(content: Content, found: Mapping[str, Figure], spot: Spot, known: Known) -> dict[str, Figure]:
    """Return what a square metre gets, and what that does to salt and acid."""
    gets = found["given_kg_per_m2"]

    def per_m2(name: str, g_per_kg: Figure, words: str) -> Figure:
        return derive(name, dose.held_g_per_m2, words=words, given_kg_per_m2=gets, g_per_kg=g_per_kg)

    nitrogen = per_m2("nitrogen_g_per_m2", content["nitrogen_g_per_kg"], "nitrogen on a square metre")
    salt = per_m2("salt_g_per_m2", found["ions_g_per_kg"], "salts of all ions on a square metre")
    others = [
        per_m2(f"{name}_g_per_m2", content[f"{name}_g_per_kg"], f"{name} on a square metre")
        for name in ("phosphorus", "potassium", "sodium", "carbon")
    ]
    soil = derive(
        "soil_ds_per_m",
        dose.soil_ds_per_m,
        words="conductivity of the soil after that, if no rain washes it",
        salt_g_per_m2=salt,
        soil_ds_per_m=known.season.soil_ds_per_m,
        salt_mg_per_l=known.ground.salt_mg_per_l,
        mixed_m=mixed_of(spot, known),
        saturated_frac=known.ground.saturated_frac,
    )
    if spot.has_free_lime:
        sour = exactly("shift_ph", 0.0, "[pH]", words="sourer by, at first: it holds free lime", known=known)
    else:
        sour = derive(
            "shift_ph",
            dose.shift_ph,
            words="sourer by, at first, evenly mixed",
            given_kg_per_m2=gets,
            titratable_mol_per_kg=content["titratable_mol_per_kg"],
            buffer_mol_per_m2=_buffer(spot, known),
        )
    return {each.name: each for each in (nitrogen, salt, *others, soil, sour)}
