"""Will it sour: sound, marginal or unsound, and what binds."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.load.assess import Known, Load
from sourloam.science.load.laws import SALT_PER_SODIUM
from sourloam.science.materials.composition import Material, Rule
from sourloam.science.materials.fermentability import HARD_BELOW

SOUND_FROM: Final = 0.80  # a limit is kept if it holds in four cases of five; judgement
# The coefficient was made for forage; equal ones had opposite outcomes, and sugar alone told more (agrarforschung2006).
# So it is no more than a screen: it counts where it is more likely than not that a load is hard to sour.
SCREENED_FROM: Final = 0.50
UNSOUND_UNDER: Final = 0.50  # and broken if it fails in more than half; judgement
BONE_DRY_PCT: Final = 70.0  # dry matter above which there is no water to speak of; judgement
SOAKS: Final = ("brown", "carrier", "sweetener")  # kinds that are added to cure a load
BY_EYE: Final = 0.005  # nobody weighs shares more finely
TWICE: Final = 2.0  # a usual safety factor on sugar; judgement
POURS_MORE_THAN: Final = 0.02  # part of a load that pours and is not worth a word; judgement

Holds = NDArray[np.bool_]  # per member


class Verdict(StrEnum):
    """What is to be expected of a load."""

    SOUND = "sound"
    MARGINAL = "marginal"
    UNSOUND = "unsound"


@dataclass(frozen=True)
class Limit:
    """One thing that a load must keep, and how surely it does."""

    id: str
    is_hard: bool  # one that is broken makes the load unsound, any other only marginal
    holds_frac: float  # share of members in which it holds
    words: str  # why it matters, for the case that it does not
    sound_from: float = SOUND_FROM

    @property
    def verdict(self) -> Verdict:
        """Return what this limit alone says."""
        if self.holds_frac >= self.sound_from:
            return Verdict.SOUND
        return Verdict.UNSOUND if self.is_hard and self.holds_frac < UNSOUND_UNDER else Verdict.MARGINAL


@dataclass(frozen=True)
class Asked:
    """A limit before it is asked of a load."""

    id: str
    is_hard: bool
    holds: Callable[[Load, Known], Holds]
    words: str
    sound_from: float = SOUND_FROM


def limits(load: Load, known: Known) -> tuple[Limit, ...]:
    """Return every limit, the one that binds most first."""
    found = [
        Limit(each.id, each.is_hard, float(np.mean(each.holds(load, known))), each.words, each.sound_from)
        for each in RULES
    ]
    order = (Verdict.UNSOUND, Verdict.MARGINAL, Verdict.SOUND)
    return tuple(sorted(found, key=lambda each: (order.index(each.verdict), not each.is_hard, each.holds_frac)))


def _of(parameter: Figure, load: Load) -> FloatArray:
    """Return as many members of a parameter as the load has."""
    return parameter.members[: load["mass_kg"].size]


def _has_sugar(load: Load, known: Known) -> Holds:
    return load["lactic_possible_kg"] >= load["lactic_needed_kg"]


def _stays_above_liquid(load: Load, known: Known) -> Holds:
    if load.setting.has_drain:
        return np.ones_like(load["mass_kg"])
    return load["free_water_l"] <= _of(known.load.stands_l_per_kg, load) * load["mass_kg"]


def _is_not_too_dry(load: Load, known: Known) -> Holds:
    return load["dry_matter_pct"] <= 100.0 * _of(known.load.dry_most_frac, load)


def _is_not_too_salty(load: Load, known: Known) -> Holds:
    salt = SALT_PER_SODIUM * load["sodium_kg"]
    if np.median(load["dry_matter_pct"]) > BONE_DRY_PCT:
        return np.ones_like(salt, dtype=bool)  # there is no water to be salty; it is too dry, which is said
    return salt <= _of(known.load.salt_stops_frac, load) * (load["water_kg"] + salt)


def _screens_well(load: Load, known: Known) -> Holds:
    """Pass what is not hard to sour as forage, and what can make twice the acid that it needs: forage has no starch."""
    return (load["fermentability"] >= HARD_BELOW) | (load["lactic_possible_kg"] >= TWICE * load["lactic_needed_kg"])


def _has_little_animal(load: Load, known: Known) -> Holds:
    return load["animal_frac"] <= _of(known.load.animal_most_frac, load)


def _has_little_fat(load: Load, known: Known) -> Holds:
    return load["fat_kg"] <= _of(known.load.fat_most_frac, load) * load["mass_kg"]


def _does_not_turn_to_alcohol(load: Load, known: Known) -> Holds:
    sweet = load["sugar_g_per_100g_dm"] > 100.0 * _of(known.load.sweet_most_frac, load)
    return ~(sweet & (load["start_ph"] < _of(known.load.yeasty_ph, load)))


def _packs(load: Load, known: Known) -> Holds:
    return load["air_frac"] <= _of(known.load.airy_most_frac, load)


def _does_not_pour(load: Load, known: Known) -> Holds:
    return load["pours_kg"] - load["soaks_kg"] <= POURS_MORE_THAN * load["mass_kg"]


def is_limited(material: Material) -> bool:
    """Whether only a little of a material goes in; dry goods are there to soak up, as many as that takes."""
    return material.rule is Rule.A_LITTLE and material.kind not in SOAKS


def _is_no_glut(load: Load, known: Known) -> Holds:
    mass = load["mass_kg"]
    masses: dict[Material, FloatArray] = {}
    for each in load.portions:
        masses[each.material] = masses.get(each.material, np.zeros_like(mass)) + each.mass.members[: mass.size]
    gluts = [held > (each.at_most_frac + BY_EYE) * mass for each, held in masses.items() if is_limited(each)]
    return ~np.any(gluts, axis=0) if gluts else np.ones_like(mass, dtype=bool)


RULES: Final = (
    Asked(
        "sugar",
        True,
        _has_sugar,
        "Its sugar and starch do not make enough acid for what it takes up: it stays above the pH at which it keeps, "
        "and rots.",
    ),
    Asked(
        "liquid", True, _stays_above_liquid, "Liquid stands in a vessel that has no drain, and what lies in it rots."
    ),
    Asked(
        "dry", True, _is_not_too_dry, "It is too dry for the bacteria: it does not sour, and goes mouldy where air is."
    ),
    Asked("salt", True, _is_not_too_salty, "It is so salty that souring stops."),
    Asked(
        "fermentability",
        False,
        _screens_well,
        "It has little sugar for the acid that it needs: silage makers call such stuff hard to sour.",
        SCREENED_FROM,
    ),
    Asked("animal", False, _has_little_animal, "It holds much meat, fish, egg or dairy, which rots before it sours."),
    Asked("fat", False, _has_little_fat, "It holds much fat, which coats what should sour."),
    Asked("alcohol", False, _does_not_turn_to_alcohol, "It is so sweet and sour that yeasts make alcohol of it."),
    Asked("air", False, _packs, "It holds much air when it is pressed, and mould likes air."),
    Asked("share", False, _is_no_glut, "It holds more of one thing than goes well."),
    Asked("pours", False, _does_not_pour, "What pours runs to the bottom at once and drowns what lies there."),
)
