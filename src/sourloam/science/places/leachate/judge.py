"""The liquid of a batch as figures: strength, thinning, feed, what it holds, what soaks it up."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sourloam.base.figure import Figure, derive, derived, written
from sourloam.science.places.ground.crops import Crop
from sourloam.science.places.leachate import feed
from sourloam.science.places.leachate.parameters import LeachateParameters


@dataclass(frozen=True)
class Liquid:
    """How much there is, and what for."""

    litres: Figure
    for_what: str  # seedlings, pots, bed, fruiting, trees, fallow, pile, drain, pond
    crop: Crop | None = None
    day_d: float = 14.0  # after the first layer
    ec_ds_per_m: float | None = None  # where it was measured
    water_ds_per_m: float | None = None
    target_ds_per_m: float | None = None
    asked_parts: float | None = None  # of water, as the keeper means to thin it; weaker than it must be is kept to

    def with_water(self, water_ds_per_m: float | None, target_ds_per_m: float | None) -> "Liquid":
        """Return the same with what was measured of the water, and what is aimed at."""
        return replace(self, water_ds_per_m=water_ds_per_m, target_ds_per_m=target_ds_per_m)


def judge_liquid(
    liquid: Liquid, known: LeachateParameters, browns: Mapping[str, tuple[Figure, Figure]]
) -> dict[str, Figure]:
    """Return all figures of a liquid.

    Raises
    ------
    OutOfRange
        If the day or the amount cannot be.
    """
    strength, water = _strength(liquid, known), _water(liquid, known)
    wanted = _wanted(liquid, known)
    by_salt = derive(
        "by_salt_parts",
        feed.parts_of_water,
        words="parts of water until it is no saltier than they bear",
        liquid_ds_per_m=strength,
        water_ds_per_m=water,
        wanted_ds_per_m=wanted,
    )
    limits = {"salt": by_salt, "least": known.weakest_parts}
    custom = {"seedlings": known.seedling_parts, "pots": known.pot_parts}.get(liquid.for_what)
    if custom is not None:
        limits["custom"] = custom
    if liquid.asked_parts is not None:
        members = strength.members.size
        words = "as you mean to thin it"
        limits["asked"] = written("asked_parts", liquid.asked_parts, "1", words=words, members=members)
    parts = derived("dilution", feed.weakest_parts, limits, words="parts of water to one")
    makes = derive("feed_l", feed.feed_l, words="feed that it makes", liquid_l=liquid.litres, parts=parts)
    found = [strength, parts, makes, by_salt]
    found.append(
        derive(
            "fed_m2", feed.fed_m2, words="ground that it serves once", feed_l=makes, pour_l_per_m2=known.pour_l_per_m2
        )
    )
    found.append(
        derive(
            "feed_ds_per_m",
            feed.mixed_ds_per_m,
            words="conductivity of the feed",
            liquid_ds_per_m=strength,
            water_ds_per_m=water,
            parts=parts,
        )
    )
    found.append(
        derive(
            "acid_mmol_per_l",
            feed.acid_mmol_per_l,
            words="acid of the feed",
            acid_mol_per_l=known.acid_mol_per_l,
            parts=parts,
        )
    )
    told = {"liquid_l": liquid.litres} | {each.name: each for each in found}
    return told | _holds(liquid, known, parts) | _soaked(liquid, browns)


def _strength(liquid: Liquid, known: LeachateParameters) -> Figure:
    members = known.leachate_ds_per_m.members.size
    if liquid.ec_ds_per_m is not None:
        return written("ec_ds_m", liquid.ec_ds_per_m, "dS/m", words="conductivity, as measured", members=members)
    return derive(
        "ec_ds_m",
        feed.strength_ds_per_m,
        words="conductivity of the liquid",
        sour_ds_per_m=known.leachate_ds_per_m,
        first_frac=known.first_frac,
        day_d=written("day_d", liquid.day_d, "d", words="days since the first layer", members=members),
        ripens_d=known.ripens_d,
    )


def _water(liquid: Liquid, known: LeachateParameters) -> Figure:
    if liquid.water_ds_per_m is None:
        return known.water_ds_per_m
    members = known.water_ds_per_m.members.size
    return written("water_ds_per_m", liquid.water_ds_per_m, "dS/m", words="conductivity of the water", members=members)


def _wanted(liquid: Liquid, known: LeachateParameters) -> Figure:
    """Return the conductivity that is aimed at: as asked, else by what is grown, never above what the crop bears."""
    members = known.leaf_ds_per_m.members.size
    if liquid.target_ds_per_m is not None:
        return written("target_ds_per_m", liquid.target_ds_per_m, "dS/m", words="aimed at", members=members)
    by_group = {"seedlings": known.seedling_ds_per_m, "pots": known.pot_ds_per_m, "fruiting": known.fruit_ds_per_m}
    group = by_group.get(liquid.for_what, known.leaf_ds_per_m)
    bears = liquid.crop.salt_threshold_ds_per_m if liquid.crop else None
    if bears is None or bears >= group.value:
        return group
    name = liquid.crop.name if liquid.crop else ""
    return written("bears_ds_per_m", bears, "dS/m", words=f"conductivity that {name} bears", members=members)


def _holds(liquid: Liquid, known: LeachateParameters, parts: Figure) -> dict[str, Figure]:
    """Return what is in all of it, and what a square metre gets in one watering."""
    held = {
        "nitrogen": known.nitrogen_g_per_l,
        "phosphorus": known.phosphorus_g_per_l,
        "potassium": known.potassium_g_per_l,
        "sodium": known.sodium_g_per_l,
    }
    found: dict[str, Figure] = {}
    for name, per_l in held.items():
        whole = derive(f"{name}_g", feed.held_g, words=f"{name} in all of it", g_per_l=per_l, liquid_l=liquid.litres)
        gets = derive(
            f"{name}_g_per_m2",
            feed.given_g_per_m2,
            words=f"{name} that a square metre gets in one watering",
            g_per_l=per_l,
            pour_l_per_m2=known.pour_l_per_m2,
            parts=parts,
        )
        found |= {whole.name: whole, gets.name: gets, f"{name}_g_per_l": per_l}
    return found


def _soaked(liquid: Liquid, browns: Mapping[str, tuple[Figure, Figure]]) -> dict[str, Figure]:
    return {
        f"{name}_l": derive(
            f"{name}_l",
            feed.browns_l,
            words=f"loose {name.replace('-', ' ')} that holds all of it",
            liquid_l=liquid.litres,
            soaks_kg_per_kg=soaks,
            loose_kg_per_l=loose,
        )
        for name, (soaks, loose) in browns.items()
    }
