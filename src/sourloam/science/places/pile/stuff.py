"""What can be laid into a pile, by what a kilogram of it brings there."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.load.members import Members, members_of, value_figure
from sourloam.science.materials.composition import Material

ACIDS: Final = ("citric", "malic", "acetic", "lactic")
FAST: Final = ("protein", "fat", "sugars", "starch", *ACIDS)
SWEET_PH: Final = 7.8  # at which no acid is left; the middle value of a pile
ACIDS_KG_PER_MOL: Final = 0.090  # lactic acid, for which all acid is counted; iupac_masses
LIGNIN_LESS: Final = 2.8  # of the fibre that rots, for each part of lignin in the volatile solids; chandler1980
ROTS_MOST: Final = 0.83  # chandler1980
LIGNIN_MOST: Final = 0.20  # to which the law was fitted
CARBON: Final = MappingProxyType({"acid": 0.40, "slow": 0.444})  # of a kilogram burnt: lactic acid, cellulose

# What a kilogram brings, in kg unless it says otherwise.


@dataclass(frozen=True)
class Stuff:
    """A material, or a finished batch, as a pile sees it; `brings` is for a kilogram as it lies, member by member."""

    id: str
    name: str
    brings: Members
    most_kg: float  # what there is of it
    least_kg: float = 0.0  # what has to go in
    is_sour: bool = False
    is_mature: bool = False
    figures: tuple[tuple[str, Figure], ...] = ()  # the values that open to a source

    def middle(self, name: str) -> float:
        """Return the middle value of what a kilogram brings."""
        return float(np.median(self.brings[name]))

    def all(self, name: str) -> FloatArray:
        """Return the members of what a kilogram brings."""
        return np.asarray(self.brings[name])


def stuff_of(material: Material, most_kg: float, *, members: int, least_kg: float = 0.0) -> Stuff:
    """Return a material as a pile sees it.

    What rots fast is what a plant stores; of the fibre rots so much as its
    lignin leaves open, by the law of Chandler, and lignin itself not at all.
    """
    held = members_of(material, members)
    buffer = held["tissue"] / 2.0  # that between pH 4 and 6 is for two steps of pH
    free = np.maximum(buffer * (SWEET_PH - held["ph"]), 0.0) * ACIDS_KG_PER_MOL
    acid = np.minimum(sum((held[each] for each in ACIDS), np.zeros(members)), free)  # the rest is salts already
    fast = sum((held[each] for each in FAST), np.zeros(members)) - acid
    solids = np.maximum(1.0 - held["water"] - held["ash"], 1e-9)
    lignin = np.minimum(held["lignin"] / solids, LIGNIN_MOST)
    slow = held["fibre"] * np.maximum(ROTS_MOST - LIGNIN_LESS * lignin, 0.0)
    fibre_carbon = 0.444 * held["fibre"] + 0.63 * held["lignin"] + CARBON["acid"] * acid
    brings = {
        "water": held["water"],
        "ash": held["ash"],
        "carbon": held["carbon"],
        "nitrogen": held["nitrogen"],
        **{name: held[name] for name in ("phosphorus", "potassium", "sodium")},
        "acid": acid,
        "fast": fast,
        "slow": slow,
        "fast_carbon": np.maximum(held["carbon"] - fibre_carbon, 0.0),
        "buffer": buffer,
        # Wet and built up it lies between loose and pressed; what pours fills pores.
        "litres": (0.0 if material.is_liquid else 1.0) / np.sqrt(held["loose"] * held["pressed"]),
        "loose_l": 1.0 / held["loose"],
    }
    values = ("water", "ash", "carbon", "nitrogen", "loose")
    opens = tuple((name, value_figure(material, name, held)) for name in values)
    return Stuff(material.id, material.name, brings, most_kg, least_kg, figures=opens)
