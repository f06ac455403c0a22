"""From bran wanted back to carrier, inoculant, serum, milk and rice water; and forwards from the cupboard."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import Figure, derive, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.inoculum.inoculant import inoculant_kg_per_l, inoculant_l_per_l, inoculant_moisture_wb_frac
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.inoculum.serum import milk_l, rice_kg, rice_wash_l
from sourloam.science.inoculum.wetting import dry_bran_kg_per_kg, liquid_kg_per_kg

BRAN: Final = Range(0.0, 10_000.0, "kg")
AMOUNT: Final = Range(0.0, math.inf)


@dataclass(frozen=True)
class Recipe:
    """What a keeper follows: the carrier, how wet it is made, and what stands in a litre of water."""

    carrier_moisture_wb_frac: Figure
    wetted_moisture_wb_frac: Figure
    serum_l_per_l: Figure
    sugar_kg_per_l: Figure
    serum_yield_l_per_l: Figure  # of the milk's volume

    @classmethod
    def usual(cls, p: InoculumParameters) -> "Recipe":
        """Return the usual one: wheat bran, serum and white sugar."""
        return cls(
            p.carrier_moisture_wb_frac,
            p.wetted_moisture_wb_frac,
            p.serum_l_per_l,
            p.sugar_kg_per_l,
            p.serum_yield_l_per_l,
        )


@dataclass(frozen=True)
class BranBatch:
    """What one making of bran takes, and the finished, dry bran that it gives."""

    bran_kg: float
    carrier_kg: float
    inoculant_kg: float
    inoculant_l: float
    water_l: float
    sugar_kg: float
    serum_l: float
    milk_l: float  # for the serum that is not on hand; so are the two below
    rice_wash_l: float
    rice_kg: float


@law("bran ÷ bran from a kilogram of carrier", unit="kg")
def carrier_kg(bran_kg: ArrayLike, bran_kg_per_kg: ArrayLike) -> float | FloatArray:
    """Return the carrier that finished bran takes."""
    return keep_shape(np.asarray(np.asarray(bran_kg, dtype=float) / np.asarray(bran_kg_per_kg, dtype=float)))


@law("carrier × liquid on a kilogram of it", unit="kg")
def inoculant_kg(carrier_kg: ArrayLike, liquid_kg_per_kg: ArrayLike) -> float | FloatArray:
    """Return the mass of liquid that a carrier takes."""
    return keep_shape(np.asarray(np.asarray(carrier_kg, dtype=float) * np.asarray(liquid_kg_per_kg, dtype=float)))


@law("liquid ÷ liquid from a litre of water", unit="L")
def water_l(inoculant_kg: ArrayLike, inoculant_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the plain water in so much liquid."""
    return keep_shape(np.asarray(np.asarray(inoculant_kg, dtype=float) / np.asarray(inoculant_kg_per_l, dtype=float)))


@law("water × what stands in a litre of it", unit="L")
def in_water_l(water_l: ArrayLike, part_l_per_l: ArrayLike) -> float | FloatArray:
    """Return the volume of what is stirred into water, or of all of it together."""
    return keep_shape(np.asarray(np.asarray(water_l, dtype=float) * np.asarray(part_l_per_l, dtype=float)))


@law("water × sugar to a litre of it", unit="kg")
def sugar_kg(water_l: ArrayLike, sugar_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the sugar that is stirred into water."""
    return keep_shape(np.asarray(np.asarray(water_l, dtype=float) * np.asarray(sugar_kg_per_l, dtype=float)))


def bran_batch(
    bran_kg: float, parameters: InoculumParameters, *, serum_on_hand_l: float = 0.0, recipe: Recipe | None = None
) -> BranBatch:
    """Return what `bran_kg` of finished bran takes, at the medians.

    Raises
    ------
    OutOfRange
        If bran or serum is negative, bran is more than 10 t, or the recipe asks for what liquid cannot bring.
    """
    within(bran_kg, BRAN, name="bran_kg", why="no keeper makes that much at once.")
    within(serum_on_hand_l, AMOUNT, name="serum_on_hand_l", why="an amount cannot be less than nothing.")
    p, r = parameters, recipe or Recipe.usual(parameters)
    stirred = (r.serum_l_per_l.value, r.sugar_kg_per_l.value)
    moisture = inoculant_moisture_wb_frac(*stirred, p.serum_kg_per_l.value, p.serum_dry_wb_frac.value)
    liquid = liquid_kg_per_kg(r.wetted_moisture_wb_frac.value, r.carrier_moisture_wb_frac.value, moisture)
    gives = dry_bran_kg_per_kg(
        r.carrier_moisture_wb_frac.value,
        liquid,
        moisture,
        p.bran_loss_db_frac.value,
        dried_moisture_wb_frac=p.dried_moisture_wb_frac.value,
    )
    carrier = float(carrier_kg(bran_kg, gives))
    poured = float(inoculant_kg(carrier, liquid))
    water = float(water_l(poured, inoculant_kg_per_l(*stirred, p.serum_kg_per_l.value)))
    serum = float(in_water_l(water, stirred[0]))
    milk = milk_l(max(serum - serum_on_hand_l, 0.0), r.serum_yield_l_per_l.value)
    wash = rice_wash_l(milk, p.rice_wash_l_per_l.value)
    return BranBatch(
        bran_kg=float(bran_kg),
        carrier_kg=carrier,
        inoculant_kg=poured,
        inoculant_l=float(in_water_l(water, inoculant_l_per_l(*stirred, p.sugar_l_per_kg.value))),
        water_l=water,
        sugar_kg=float(sugar_kg(water, stirred[1])),
        serum_l=serum,
        milk_l=float(milk),
        rice_wash_l=float(wash),
        rice_kg=float(rice_kg(wash, p.rice_kg_per_l.value)),
    )


def bran_from(
    parameters: InoculumParameters,
    *,
    recipe: Recipe | None = None,
    carrier_kg: float = math.inf,
    sugar_kg: float = math.inf,
    serum_l: float = math.inf,
    milk_l: float = math.inf,
) -> float:
    """Return the finished bran that the cupboard allows; what is not named is no limit, and something must be.

    Raises
    ------
    OutOfRange
        If an amount is negative, or no amount is named.
    """
    held = {"carrier_kg": carrier_kg, "sugar_kg": sugar_kg, "serum_l": serum_l, "milk_l": milk_l}
    ways = reaches_kg(parameters, held, recipe=recipe).values()
    return float(within(min(ways), BRAN, name="bran_kg", why="name at least one thing that there is a limit to."))


def reaches_kg(
    parameters: InoculumParameters, held: Mapping[str, float], *, recipe: Recipe | None = None
) -> dict[str, float]:
    """Return the bran that each thing on hand would do for, by its name in `BranBatch`.

    Raises
    ------
    OutOfRange
        If an amount is negative.
    """
    for name, amount in held.items():
        within(amount, AMOUNT, name=name, why="an amount cannot be less than nothing.")
    one = bran_batch(1.0, parameters, recipe=recipe)
    needs = {name: getattr(one, name) for name in held}
    return {name: held[name] / need if need > 0.0 else math.inf for name, need in needs.items()}


@law("serum − serum on hand", unit="L")
def missing_l(serum_l: ArrayLike, on_hand_l: ArrayLike) -> float | FloatArray:
    """Return the serum that must still be made."""
    return keep_shape(np.maximum(np.asarray(serum_l, dtype=float) - np.asarray(on_hand_l, dtype=float), 0.0))


def chain_figures(
    bran: Figure, p: InoculumParameters, recipe: Recipe, on_hand: Figure | None = None
) -> dict[str, Figure]:
    """Return every amount of a making with its interval and its reason, from bran wanted back to rice.

    Milk and rice are for the serum that is not `on_hand`.
    """
    r = recipe
    common = {"serum_l_per_l": r.serum_l_per_l, "sugar_kg_per_l": r.sugar_kg_per_l}
    per_l = derive(
        "inoculant_kg_per_l",
        inoculant_kg_per_l,
        words="liquid from a litre of water",
        serum_kg_per_l=p.serum_kg_per_l,
        **common,
    )
    moisture = derive(
        "inoculant_moisture_wb_frac",
        inoculant_moisture_wb_frac,
        words="water in the liquid",
        serum_kg_per_l=p.serum_kg_per_l,
        serum_dry_wb_frac=p.serum_dry_wb_frac,
        **common,
    )
    liquid = derive(
        "liquid_kg_per_kg",
        liquid_kg_per_kg,
        words="liquid on a kilogram of carrier",
        wetted_moisture_wb_frac=r.wetted_moisture_wb_frac,
        carrier_moisture_wb_frac=r.carrier_moisture_wb_frac,
        liquid_moisture_wb_frac=moisture,
    )
    gives = derive(
        "bran_kg_per_kg",
        dry_bran_kg_per_kg,
        words="dry bran from a kilogram of carrier",
        carrier_moisture_wb_frac=r.carrier_moisture_wb_frac,
        liquid_kg_per_kg=liquid,
        liquid_moisture_wb_frac=moisture,
        bran_loss_db_frac=p.bran_loss_db_frac,
        dried_moisture_wb_frac=p.dried_moisture_wb_frac,
    )
    carrier = derive("carrier_kg", carrier_kg, words="carrier", bran_kg=bran, bran_kg_per_kg=gives)
    poured = derive("inoculant_kg", inoculant_kg, words="liquid, by mass", carrier_kg=carrier, liquid_kg_per_kg=liquid)
    water = derive("water_l", water_l, words="water", inoculant_kg=poured, inoculant_kg_per_l=per_l)
    return {"bran_kg": bran, "carrier_kg": carrier, **_stirred(water, p, r, on_hand)}


def _stirred(water: Figure, p: InoculumParameters, r: Recipe, on_hand: Figure | None) -> dict[str, Figure]:
    """Return what the water takes, and what that takes in its turn."""
    per_l = derive(
        "inoculant_l_per_l",
        inoculant_l_per_l,
        words="liquid from a litre of water",
        serum_l_per_l=r.serum_l_per_l,
        sugar_kg_per_l=r.sugar_kg_per_l,
        sugar_l_per_kg=p.sugar_l_per_kg,
    )
    part = partial(derive, function=in_water_l, water_l=water)
    serum = part("serum_l", words="serum", part_l_per_l=r.serum_l_per_l)
    to_make = serum
    if on_hand is not None:
        to_make = derive("serum_missing_l", missing_l, words="serum to be made", serum_l=serum, on_hand_l=on_hand)
    milk = derive(
        "milk_l", milk_l, words="milk for that serum", serum_l=to_make, serum_yield_l_per_l=r.serum_yield_l_per_l
    )
    wash = derive(
        "rice_water_l",
        rice_wash_l,
        words="rice water for that milk",
        milk_l=milk,
        rice_wash_l_per_l=p.rice_wash_l_per_l,
    )
    return {
        "liquid_l": part("liquid_l", words="liquid in all", part_l_per_l=per_l),
        "water_l": water,
        "serum_l": serum,
        "sugar_kg": derive("sugar_kg", sugar_kg, words="sugar", water_l=water, sugar_kg_per_l=r.sugar_kg_per_l),
        "milk_l": milk,
        "rice_water_l": wash,
        "rice_kg": derive(
            "rice_kg", rice_kg, words="rice that is rinsed for it", rice_wash_l=wash, rice_kg_per_l=p.rice_kg_per_l
        ),
    }
