"""From bran wanted back to carrier, inoculant, serum, milk and rice water; and forwards from the cupboard."""

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.checks import within
from sourloam.base.ranges import Range
from sourloam.science.inoculum.inoculant import inoculant_kg_per_l, inoculant_l_per_l, inoculant_moisture_wb_frac
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.inoculum.serum import milk_l, rice_kg, rice_wash_l
from sourloam.science.inoculum.wetting import dry_bran_kg_per_kg, liquid_kg_per_kg

BRAN: Final = Range(0.0, 10_000.0, "kg")
AMOUNT: Final = Range(0.0, math.inf)


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


def bran_batch(bran_kg: float, parameters: InoculumParameters, *, serum_on_hand_l: float = 0.0) -> BranBatch:
    """Return what `bran_kg` of finished bran takes, at the medians.

    Raises
    ------
    OutOfRange
        If bran or serum is negative, or bran is more than 10 t.
    """
    within(bran_kg, BRAN, name="bran_kg", why="no keeper makes that much at once.")
    within(serum_on_hand_l, AMOUNT, name="serum_on_hand_l", why="an amount cannot be less than nothing.")
    p = parameters
    recipe = (p.serum_l_per_l.value, p.sugar_kg_per_l.value)
    moisture = inoculant_moisture_wb_frac(*recipe, p.serum_kg_per_l.value, p.serum_dry_wb_frac.value)
    carrier_moisture = p.carrier_moisture_wb_frac.value
    liquid = liquid_kg_per_kg(p.wetted_moisture_wb_frac.value, carrier_moisture, moisture)
    gives = dry_bran_kg_per_kg(
        carrier_moisture,
        liquid,
        moisture,
        p.bran_loss_db_frac.value,
        dried_moisture_wb_frac=p.dried_moisture_wb_frac.value,
    )
    carrier_kg = bran_kg / float(gives)
    inoculant_kg = carrier_kg * float(liquid)
    water_l = inoculant_kg / float(inoculant_kg_per_l(*recipe, p.serum_kg_per_l.value))
    serum_l = water_l * p.serum_l_per_l.value
    milk = milk_l(max(serum_l - serum_on_hand_l, 0.0), p.serum_yield_l_per_l.value)
    wash = rice_wash_l(milk, p.rice_wash_l_per_l.value)
    return BranBatch(
        bran_kg=float(bran_kg),
        carrier_kg=carrier_kg,
        inoculant_kg=inoculant_kg,
        inoculant_l=water_l * float(inoculant_l_per_l(*recipe, p.sugar_l_per_kg.value)),
        water_l=water_l,
        sugar_kg=water_l * p.sugar_kg_per_l.value,
        serum_l=serum_l,
        milk_l=float(milk),
        rice_wash_l=float(wash),
        rice_kg=float(rice_kg(wash, p.rice_kg_per_l.value)),
    )


def bran_from(
    parameters: InoculumParameters,
    *,
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
    why = "an amount cannot be less than nothing."
    for name, amount in (("carrier_kg", carrier_kg), ("sugar_kg", sugar_kg), ("serum_l", serum_l), ("milk_l", milk_l)):
        within(amount, AMOUNT, name=name, why=why)
    one = bran_batch(1.0, parameters)
    ways = [carrier_kg / one.carrier_kg, sugar_kg / one.sugar_kg, serum_l / one.serum_l, milk_l / one.milk_l]
    return float(within(np.min(ways), BRAN, name="bran_kg", why="name at least one thing that there is a limit to."))
