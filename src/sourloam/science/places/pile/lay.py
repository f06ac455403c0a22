"""Amounts of stuff laid into a pile: what it starts from."""

from collections.abc import Mapping, Sequence
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.places.pile.heat import Start
from sourloam.science.places.pile.stuff import Stuff

LEAST_BUFFER_MOL_PER_KG: Final = 0.02  # of dry matter, for a step of pH; so that nothing is divided by nothing


def laid(stuffs: Sequence[Stuff], kg: Mapping[str, float], *, blend_frac: FloatArray) -> Start:
    """Return the pile that the amounts make."""
    parts = [(each, kg[each.id]) for each in stuffs if kg.get(each.id, 0.0) > 0.0]

    def summed(name: str) -> FloatArray:
        return np.asarray(sum(amount * each.all(name) for each, amount in parts))

    mass = sum(amount for _, amount in parts)
    dry = mass - summed("water")
    acid, fast, slow = summed("acid"), summed("fast"), summed("slow")
    return Start(
        acid=acid,
        fast=fast,
        slow=slow,
        rest=np.maximum(dry - acid - fast - slow, 1e-9),
        ash=np.minimum(summed("ash"), dry),
        water=summed("water"),
        carbon=summed("carbon"),
        nitrogen=summed("nitrogen"),
        fast_carbon=summed("fast_carbon"),
        buffer_mol=np.maximum(summed("buffer"), LEAST_BUFFER_MOL_PER_KG * dry),
        volume_l=blend_frac * summed("litres"),
    )
