"""The liquid that ran off a vessel, all of it together: what a litre holds, and how well it conducts."""

from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.chem.acids import ACIDS, charge_per_mol
from sourloam.science.chem.conductivity import conductivity_ds_per_m
from sourloam.science.chem.elements import molar_mass_g_per_mol
from sourloam.science.ferment.ensemble import balance
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.layer.state import SIZE
from sourloam.science.ferment.stack.given import SOLUTES
from sourloam.science.ferment.stack.life import LIQUID, LIQUID_PH

LEAST_L: Final = 0.02  # of less nobody asks how strong it is
ORGANIC: Final = MappingProxyType({"lactate": "lactic", "acetate": "acetic"})
OSMOL_PER_SALT: Final = 2.0  # as they are laid: as many anions as cations


def strength(followed: Followed) -> dict[str, FloatArray]:
    """Return dS/m, and grams of nitrogen and potassium in a litre, on the last day; endless where no liquid came.

    Calcium and magnesium are not followed, so that it conducts a little better than is said.
    """
    litres = followed.vessel[:, -1, LIQUID]
    there = litres >= LEAST_L
    safe_l = np.where(there, litres, 1.0)
    potassium = _solute(followed, "potassium_mol") / safe_l
    found = {
        "ec_ds_m": _conducts(followed, potassium, safe_l),
        "nitrogen_g_per_l": balance.liquid_nitrogen_g(followed) / safe_l,
        "potassium_g_per_l": potassium * molar_mass_g_per_mol("K"),
    }
    return {name: np.where(there, each, np.inf) for name, each in found.items()}


def _solute(followed: Followed, name: str) -> FloatArray:
    return np.asarray(followed.liquid[:, 1 + SIZE + SOLUTES.index(name)])


def _conducts(followed: Followed, potassium: FloatArray, litres: FloatArray) -> FloatArray:
    """Return the conductivity: cations as they are, as much charge of anions, of which the acids made are known."""
    ph = np.nan_to_num(followed.vessel[:, -1, LIQUID_PH], nan=7.0)
    cations = {
        "hydrogen": 10.0**-ph,
        "potassium": potassium,
        "sodium": np.maximum(_solute(followed, "salt_osmol") / OSMOL_PER_SALT / litres - potassium, 0.0),
        "ammonium": balance.liquid(followed, "ammonium_mol") / litres,
    }
    anions = {
        ion: np.asarray(charge_per_mol(ACIDS[acid], ph)) * balance.liquid(followed, f"{acid}_mol") / litres
        for ion, acid in ORGANIC.items()
    }
    whole = np.sum(list(cations.values()), axis=0)
    organic = np.sum(list(anions.values()), axis=0)
    times = np.minimum(whole / np.maximum(organic, 1e-12), 1.0)  # what else holds them is no ion that is followed
    anions = {ion: times * each for ion, each in anions.items()}
    return np.asarray(conductivity_ds_per_m({**cations, **anions, "other": np.maximum(whole - organic, 0.0)}))
