"""A finished batch as a pile sees it."""

from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.batch.content import Content
from sourloam.science.places.pile.heat_parameters import PileHeatParameters
from sourloam.science.places.pile.stuff import ACIDS_KG_PER_MOL, Stuff

FERMENT: Final = "ferment"


def ferment_of(content: Content, p: PileHeatParameters) -> Stuff:
    """Return a batch as a pile sees it; all of it has to go in.

    Its acid is held by what buffers it: so much to a step of pH that with all
    of its acid it stands at its own.
    """
    count = min(content["mass_kg"].members.size, p.ferment_ph.members.size)

    def of(name: str) -> FloatArray:
        return np.asarray(content[name].members[:count])

    dry, acid_mol = of("dry_wb_frac"), of("titratable_mol_per_kg")
    fast = np.maximum(p.ferment_fast_frac.members[:count] * dry, 0.0)
    slow = np.maximum(p.ferment_slow_frac.members[:count] * dry, 0.0)
    acid = np.minimum(acid_mol * ACIDS_KG_PER_MOL, 0.5 * dry)
    carbon = of("carbon_g_per_kg") / 1000.0
    below = np.maximum(p.sweet_ph.members[:count] - p.ferment_ph.members[:count], 0.5)
    brings = {
        "water": 1.0 - dry,
        "ash": p.ferment_ash_frac.members[:count] * dry,
        "carbon": carbon,
        "nitrogen": of("nitrogen_g_per_kg") / 1000.0,
        **{name: of(f"{name}_g_per_kg") / 1000.0 for name in ("phosphorus", "potassium", "sodium")},
        "acid": acid,
        "fast": fast,
        "slow": slow,
        "fast_carbon": np.minimum(fast * carbon / dry, carbon),
        "buffer": acid / ACIDS_KG_PER_MOL / below,
        "litres": 1.0 / of("kg_per_l"),
        "loose_l": 1.0 / of("kg_per_l"),
    }
    kg = content["mass_kg"].value
    opens = tuple((name, content[name]) for name in ("dry_wb_frac", "carbon_g_per_kg", "nitrogen_g_per_kg", "kg_per_l"))
    return Stuff(FERMENT, content.batch, brings, kg, kg, is_sour=True, figures=opens)
