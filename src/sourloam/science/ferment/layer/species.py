"""The substances in a vessel: formula, carbon and nitrogen; every coefficient of the model comes from here."""

from types import MappingProxyType
from typing import Final

from sourloam.science.chem.elements import mass_share, molar_mass_g_per_mol

FORMULAE: Final = MappingProxyType(
    {
        "glucose": "C6H12O6",
        "starch": "C6H10O5",
        "lactic": "C3H6O3",
        "acetic": "C2H4O2",
        "butyric": "C4H8O2",
        "ethanol": "C2H6O",
        "co2": "CO2",
        "ammonia": "NH3",
        "protein": "C16H24O5N4",  # a mean protein, as for its oxygen demand; judgement
        "cells": "C5H7O2N",  # a mean of bacteria and yeasts; judgement
    }
)
G_PER_MOL: Final = MappingProxyType({name: molar_mass_g_per_mol(formula) for name, formula in FORMULAE.items()})
CARBON: Final = MappingProxyType({name: mass_share("C", formula) for name, formula in FORMULAE.items()})
NITROGEN: Final = MappingProxyType({name: mass_share("N", formula) for name, formula in FORMULAE.items()})

# A gram of cells takes its nitrogen as protein, and what carbon that leaves open as sugar, or as lactic acid.
PROTEIN_PER_CELLS: Final = NITROGEN["cells"] / NITROGEN["protein"]
OPEN_CARBON: Final = CARBON["cells"] - PROTEIN_PER_CELLS * CARBON["protein"]
SUGAR_PER_CELLS: Final = OPEN_CARBON / CARBON["glucose"]
LACTIC_MOL_PER_CELLS: Final = OPEN_CARBON / CARBON["lactic"] / G_PER_MOL["lactic"]
# Where there is nothing but protein, its carbon makes the cells, and the nitrogen that is left over is let go.
PROTEIN_ONLY_PER_CELLS: Final = CARBON["cells"] / CARBON["protein"]
AMMONIA_MOL_PER_CELLS: Final = (
    (PROTEIN_ONLY_PER_CELLS * NITROGEN["protein"] - NITROGEN["cells"]) / mass_share("N", "NH3") / G_PER_MOL["ammonia"]
)
GLUCOSE_PER_STARCH: Final = CARBON["starch"] / CARBON["glucose"]  # by carbon: the rest is water
# A gram of protein that is broken down gives its nitrogen as ammonia; three quarters of its carbon become acetic acid.
AMMONIA_MOL_PER_PROTEIN_G: Final = NITROGEN["protein"] / mass_share("N", "NH3") / G_PER_MOL["ammonia"]
ACETIC_SHARE: Final = 0.75  # of that carbon; the rest is carbon dioxide; judgement
ACETIC_MOL_PER_PROTEIN_G: Final = ACETIC_SHARE * CARBON["protein"] / CARBON["acetic"] / G_PER_MOL["acetic"]
CO2_MOL_PER_PROTEIN_G: Final = (1.0 - ACETIC_SHARE) * CARBON["protein"] / CARBON["co2"] / G_PER_MOL["co2"]
