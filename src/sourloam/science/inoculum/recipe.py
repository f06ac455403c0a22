"""What a keeper follows: how much serum and sugar to the water, by carrier, sugar and where the chain starts."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.inoculum.bench import Milk, Start, Sugar
from sourloam.science.inoculum.carrier import Carrier, blend, dry_frac
from sourloam.science.inoculum.chain import Recipe
from sourloam.science.inoculum.parameters import InoculumParameters

NO_SERUM: Final = ("heel",)


@law("usual sugar × what the carrier wants ÷ what can be fermented of it", unit="kg/L")
def sugar_kg_per_l(
    usual_kg_per_l: ArrayLike, sugar_times: ArrayLike, fermentable_frac: ArrayLike
) -> float | FloatArray:
    """Return the sugar of a kind to a litre of water."""
    wanted = np.asarray(usual_kg_per_l, dtype=float) * np.asarray(sugar_times, dtype=float)
    return keep_shape(np.asarray(wanted / np.asarray(fermentable_frac, dtype=float)))


def recipe_for(
    carrier: Carrier,
    sugar: Sugar,
    milk: Milk,
    p: InoculumParameters,
    *,
    start: Start,
    target: Figure | None = None,
    ratio: tuple[float, float, float] | None = None,
) -> Recipe:
    """Return the recipe: the usual one, or one by volume as `ratio` of serum, sugar and water."""
    members = p.serum_l_per_l.members.size
    serum = p.serum_l_per_l
    if ratio is not None:
        told = f"{ratio[0]:g}:{ratio[1]:g}:{ratio[2]:g}"
        serum = written(
            "serum_l_per_l", ratio[0] / ratio[2], "L/L", words="serum to a litre of water", typed=told, members=members
        )
        sweet = written(
            "sugar_kg_per_l",
            ratio[1] / ratio[2] * sugar.loose_kg_per_l,
            "kg/L",
            words="sugar to a litre of water",
            typed=told,
            members=members,
        )
    else:
        sweet = derive(
            "sugar_kg_per_l",
            sugar_kg_per_l,
            words=f"{sugar.name} to a litre of water",
            usual_kg_per_l=p.sugar_kg_per_l,
            sugar_times=carrier["sugar_times"],
            fermentable_frac=sugar.fermentable_frac,
        )
    if start.from_link in NO_SERUM:
        serum = written("serum_l_per_l", 0.0, "L/L", words="serum, which a heel makes needless", members=members)
    return Recipe(
        carrier["moisture_wb_frac"], target or carrier["target_wb_frac"], serum, sweet, milk.serum_yield_l_per_l
    )


def part_of(share: Figure) -> float:
    """Return a share as a keeper would weigh it out: in whole twentieths, rounded up."""
    return min(float(np.ceil(share.value * 20.0 - 1e-9) / 20.0), 1.0)


def blended_with(wet: Carrier, dry: Carrier, *, members: int) -> tuple[Carrier, Figure | None]:
    """Return a carrier that takes liquid: alone where it does, else blended with a dry one, and the share of that.

    Raises
    ------
    OutOfRange
        If the dry one is too wet itself.
    """
    share = derive(
        "dry_frac",
        dry_frac,
        words=f"{dry.name} in the blend, by mass",
        wet_moisture_wb_frac=wet["moisture_wb_frac"],
        dry_moisture_wb_frac=dry["moisture_wb_frac"],
        target_wb_frac=wet["target_wb_frac"],
    )
    if share.value <= 0.0:
        return wet, None
    part = part_of(share)
    parts = (
        (wet, written("share_0", 1.0 - part, "1", words=f"{wet.name} in the blend", members=members)),
        (dry, written("share_1", part, "1", words=f"{dry.name} in the blend", members=members)),
    )
    return blend(parts), share
