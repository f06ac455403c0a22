"""What became of the matter of a vessel: what stayed, what ran off, what left as gas."""

from typing import Final

import numpy as np

from sourloam.base.errors import BalanceError
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.layer.species import CARBON, G_PER_MOL, NITROGEN
from sourloam.science.ferment.layer.state import SIZE, State
from sourloam.science.ferment.stack.given import Laid
from sourloam.science.ferment.stack.life import OXYGEN_USED

GRAMS: Final = ("sugar_g", "cell_sugar_g", "starch_g", "protein_g", "cells_g")
MOLES: Final = ("lactic", "acetic", "butyric", "ethanol")
CLOSES_WITHIN: Final = 1e-6  # of what was laid in
OF_GRAMS: Final = ("glucose", "glucose", "starch", "protein", "cells")


def _at(name: str) -> int:
    return State._fields.index(name)


def carbon_g(states: FloatArray) -> FloatArray:
    """Return the carbon, g, the carbon dioxide that was made with it."""
    grams = np.sum([states[..., _at(n)] * CARBON[of] for n, of in zip(GRAMS, OF_GRAMS, strict=True)], axis=0)
    made = np.sum([states[..., _at(f"{n}_mol")] * G_PER_MOL[n] * CARBON[n] for n in (*MOLES, "co2")], axis=0)
    return np.asarray(grams + made)


def nitrogen_g(states: FloatArray) -> FloatArray:
    """Return the nitrogen, g."""
    ammonia = states[..., _at("ammonium_mol")] * G_PER_MOL["ammonia"] * NITROGEN["ammonia"]
    bound = states[..., _at("protein_g")] * NITROGEN["protein"]
    return np.asarray(bound + ammonia + states[..., _at("cells_g")] * NITROGEN["cells"])


def nitrogen_laid_g(followed: Followed) -> FloatArray:
    """Return the nitrogen of each layer as it is laid, with its bran or culture: (members, layers)."""
    added_g = followed.starts.laid[..., Laid._fields.index("added_g")]
    laid = nitrogen_g(followed.starts.y) + added_g * NITROGEN["cells"]
    return np.asarray(laid * followed.first_water_kg)


def check(followed: Followed) -> None:
    """Hold what was laid in against what is in the layers, the liquid and the gas: carbon and nitrogen.

    Raises
    ------
    BalanceError
        If a member gained or lost any.
    """
    added_g = followed.starts.laid[..., Laid._fields.index("added_g")]
    for what, element, grams in (("carbon", CARBON, carbon_g), ("nitrogen", NITROGEN, nitrogen_g)):
        laid = whole(grams(followed.starts.y) + added_g * element["cells"], followed)
        there = whole(grams(followed.layers[:, -1]), followed)
        ran_off = grams(followed.liquid[:, 1 : 1 + SIZE])
        open_g = np.abs(laid - there - ran_off)
        worst = int(np.argmax(open_g / laid))
        if open_g[worst] > CLOSES_WITHIN * laid[worst]:
            terms = (("laid in", float(laid[worst])), ("in the layers and as gas", -float(there[worst])))
            raise BalanceError(f"the {what} of a vessel", (*terms, ("in the liquid", -float(ran_off[worst]))), "g")


def whole(amounts: FloatArray, followed: Followed) -> FloatArray:
    """Return an amount to a kg of first water, (members, layers), as that of all layers."""
    return np.asarray(np.nansum(amounts * followed.first_water_kg, axis=1))


def gas_mol(followed: Followed) -> FloatArray:
    """Return the carbon dioxide that was made: (members, days + 1)."""
    made = followed.layers[..., _at("co2_mol")] * followed.first_water_kg[:, None, :]
    return np.asarray(np.nansum(made, axis=2))


def gas_g(followed: Followed) -> FloatArray:
    """Return the dry matter that left as gas, g: (members, days + 1).

    Where no air is, a vessel loses its carbon dioxide; of what air burns it
    loses the sugar, and carbon dioxide takes the rest of its mass from the air.
    """
    burnt = followed.vessel[:, :, OXYGEN_USED]
    return np.asarray((gas_mol(followed) - burnt) * G_PER_MOL["co2"] + burnt * G_PER_MOL["glucose"] / 6.0)


def liquid(followed: Followed, name: str) -> FloatArray:
    """Return what the liquid that ran off holds of something by the last day, in the unit of its name."""
    return np.asarray(followed.liquid[:, 1 + _at(name)])


def liquid_nitrogen_g(followed: Followed) -> FloatArray:
    """Return the nitrogen of the liquid that ran off, g."""
    ammonia = liquid(followed, "ammonium_mol") * G_PER_MOL["ammonia"] * NITROGEN["ammonia"]
    return np.asarray(liquid(followed, "protein_g") * NITROGEN["protein"] + ammonia)
