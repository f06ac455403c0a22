"""Charcoal by its kind: how much beside a batch, what it takes up, what it does to the acid."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.batch.content import Content

CARBONATE_MOL_PER_G: Final = 2.0 / 100.087  # acid that a gram of calcium carbonate takes up; iupac_masses


class Kind(StrEnum):
    """What it was made of, and how."""

    WOOD = "wood"
    HOT = "hot-wood"
    MANURE = "manure"
    BARBECUE = "barbecue"
    ASH = "ash"


REFUSED: Final[Mapping[Kind, str]] = MappingProxyType(
    {
        Kind.BARBECUE: "briquettes hold binders, coal or lighter: none of them goes where food grows.",
        Kind.ASH: "that is ash, no charcoal: it is caustic, takes up nothing, and drives off ammonia.",
    }
)


@dataclass(frozen=True)
class CharcoalParameters:
    """Filled from `parameters/charcoal.toml`."""

    char_kg_per_l: Figure
    bucket_frac: Figure
    pile_frac: Figure
    holds_water_l_per_kg: Figure
    ammonium_mg_per_g: Figure
    nitrate_mg_per_g: Figure
    lime_frac: Figure
    manure_times: Figure
    soil_kg_per_m2: Figure


@law("volume × part × mass of a litre", unit="kg")
def char_kg(volume_l: ArrayLike, part: ArrayLike, kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the charcoal that goes to a volume."""
    return keep_shape(_f(volume_l) * _f(part) * _f(kg_per_l))


@law("mass × what a gram takes up", unit="g")
def taken_up_g(mass_kg: ArrayLike, mg_per_g: ArrayLike, times: ArrayLike = 1.0) -> float | FloatArray:
    """Return what charcoal takes up at the most, of something."""
    return keep_shape(_f(mass_kg) * _f(mg_per_g) * _f(times))


@law("mass × water of a kilogram", unit="L")
def water_l(mass_kg: ArrayLike, l_per_kg: ArrayLike) -> float | FloatArray:
    """Return the water that dry charcoal soaks up."""
    return keep_shape(_f(mass_kg) * _f(l_per_kg))


@law("100 × lime in its ash × acid that lime takes up ÷ acid of the batch", unit="%")
def acid_taken_pct(
    mass_kg: ArrayLike, *, lime_frac: ArrayLike, times: ArrayLike, acid_mol: ArrayLike
) -> float | FloatArray:
    """Return the part of the acid that its ash takes up."""
    takes = 1000.0 * _f(mass_kg) * np.minimum(_f(lime_frac) * _f(times), 0.6) * CARBONATE_MOL_PER_G
    return keep_shape(np.minimum(100.0 * takes / np.maximum(_f(acid_mol), 1e-9), 100.0))


@law("mass of a square metre: share × density × depth", unit="kg/m2")
def field_kg_per_m2(share: ArrayLike, soil_kg_per_m3: ArrayLike, depth_m: ArrayLike) -> float | FloatArray:
    """Return what a share by weight in the top of a soil comes to."""
    return keep_shape(_f(share) * _f(soil_kg_per_m3) * _f(depth_m))


def charcoal_figures(content: Content, p: CharcoalParameters, kind: Kind, *, is_for_pile: bool) -> dict[str, Figure]:
    """Return how much goes beside a batch, and what it does."""
    members = content["mass_kg"].members.size
    one = written("as_wood", 1.0, "1", words="as of wood", members=members)
    times = p.manure_times if kind is Kind.MANURE else one
    none = written("none", 0.0, "mg/g", words="none under 600 °C", members=members)
    mass = derive(
        "charcoal_kg",
        char_kg,
        words="charcoal for it",
        volume_l=content["volume_l"],
        part=p.pile_frac if is_for_pile else p.bucket_frac,
        kg_per_l=p.char_kg_per_l,
    )
    return {
        "charcoal_kg": mass,
        "water_l": derive(
            "water_l", water_l, words="liquid that it soaks up", mass_kg=mass, l_per_kg=p.holds_water_l_per_kg
        ),
        "ammonium_g": derive(
            "ammonium_g",
            taken_up_g,
            words="ammonium nitrogen that it can hold",
            mass_kg=mass,
            mg_per_g=p.ammonium_mg_per_g,
            times=times,
        ),
        "nitrate_g": derive(
            "nitrate_g",
            taken_up_g,
            words="nitrate that it can hold",
            mass_kg=mass,
            mg_per_g=p.nitrate_mg_per_g if kind is Kind.HOT else none,
            times=one,
        ),
        "acid_taken_pct": derive(
            "acid_taken_pct",
            acid_taken_pct,
            words="part of the acid that its ash takes up",
            mass_kg=mass,
            lime_frac=p.lime_frac,
            times=times,
            acid_mol=content["acid_mol"],
        ),
    }


def _f(values: ArrayLike) -> FloatArray:
    return np.asarray(values, dtype=float)
