"""A keeper's own material: what is known of it, and the rest from the nearest that the table holds."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Final

from sourloam.base.source import Basis
from sourloam.science.chem.elements import mass_share
from sourloam.science.materials.composition import (
    CONSTITUENTS,
    MINERALS,
    Composition,
    Ground,
    Group,
    Material,
    Method,
    Provenance,
)

SALT_SODIUM: Final = mass_share("Na", "NaCl")
OWN_SPREAD_FRAC: Final = 0.10  # of what a keeper read off a label; judgement
NEAR: Final = ("water", "protein", "fat", "sugars", "starch", "fibre", "ash")


@dataclass(frozen=True)
class Stated:
    """What a keeper knows of a material, as shares of its mass; what is not known is left out."""

    id: str
    name: str
    shares: Mapping[str, float]  # constituents by name
    salt_wb_frac: float | None = None
    loose_kg_per_l: float | None = None
    piece_kg: float | None = None


def nearest(stated: Stated, materials: Iterable[Material]) -> Material:
    """Return the material of the table whose known shares come nearest, by the sum of squares.

    Raises
    ------
    ValueError
        If there are no materials.
    """
    held = {name: share for name, share in stated.shares.items() if name in NEAR}

    def away(material: Material) -> float:
        parts = material.composition.constituents()
        return sum((parts[name] - share) ** 2 for name, share in held.items())

    return min(materials, key=away)


def own_material(stated: Stated, like: Material) -> Material:
    """Return the keeper's material: stated values as they are, the rest in the proportions of `like`.

    Raises
    ------
    ValueError
        If what is stated comes to more than the whole.
    """
    known = sum(stated.shares.values())
    if known > 1.0 + 1e-9:
        raise ValueError(f"{stated.name}: what is stated comes to {known:.0%} of it")
    rest = {name: share for name, share in like.composition.constituents().items() if name not in stated.shares}
    left, held = 1.0 - known, sum(rest.values())
    filled = {name: share * left / held if held else left / len(rest) for name, share in rest.items()}
    parts = filled | dict(stated.shares)
    minerals = {name: getattr(like.composition, f"{name}_wb_frac") for name in MINERALS}
    if stated.salt_wb_frac is not None:
        minerals["sodium"] = stated.salt_wb_frac * SALT_SODIUM
        minerals["chlorine"] = stated.salt_wb_frac * (1.0 - SALT_SODIUM)
    in_protein = like.composition.nitrogen_wb_frac / (like.composition.protein_wb_frac or 1.0) or 0.16
    composition = Composition(
        **{f"{name}_wb_frac": parts[name] for name in CONSTITUENTS},
        nitrogen_wb_frac=parts["protein"] * in_protein,
        **{f"{name}_wb_frac": share for name, share in minerals.items()},
    )
    return _named(stated, like, composition)


def _named(stated: Stated, like: Material, composition: Composition) -> Material:
    water = composition.water_wb_frac
    is_dry_known = "water" in stated.shares
    within = OWN_SPREAD_FRAC if is_dry_known else 0.4
    return replace(
        like,
        id=stated.id,
        name=stated.name,
        synonyms=(),
        composition=composition,
        water_low_wb_frac=max(1.0 - (1.0 - water) * (1.0 + within), 0.0),
        water_high_wb_frac=1.0 - (1.0 - water) * (1.0 - within),
        loose_kg_per_l=stated.loose_kg_per_l or like.loose_kg_per_l,
        pressed_kg_per_l=max(like.pressed_kg_per_l, stated.loose_kg_per_l or 0.0),
        piece_kg=stated.piece_kg or like.piece_kg,
        grounds=_grounds(stated, like),
        note=f"{like.name} stands for what was not stated",
    )


def _grounds(stated: Stated, like: Material) -> dict[Group, Ground]:
    """Return the grounds: of groups of which something was stated the keeper, of the others those of `like`."""
    said = {
        Group.WATER: "water" in stated.shares,
        Group.PROXIMATE: bool({"protein", "fat", "ash"} & stated.shares.keys()),
        Group.CARBOHYDRATE: bool({"sugars", "starch", "fibre"} & stated.shares.keys()),
        Group.MINERAL: stated.salt_wb_frac is not None,
        Group.PACKING: stated.loose_kg_per_l is not None,
        Group.PIECE: stated.piece_kg is not None,
    }
    mine = Ground(Provenance("keeper", "", Basis.READ), Method.MEASURED, OWN_SPREAD_FRAC)
    theirs = {group: _stands_in(ground, like) for group, ground in like.grounds.items()}
    return theirs | {group: mine for group, is_said in said.items() if is_said}


def _stands_in(ground: Ground, like: Material) -> Ground:
    """Return the ground of a value that another material stands for: no surer than a relative is."""
    where = replace(
        ground.provenance, place=f"{like.name} stands for it; {ground.provenance.place}", basis=Basis.DERIVED
    )
    method = Method.RELATIVE if ground.method is Method.MEASURED else ground.method
    return Ground(where, method, max(ground.spread_frac, 0.5))
