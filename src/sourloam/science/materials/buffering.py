"""Acid that a material takes up while its pH falls."""

from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.chem.acids import ACIDS, charge_per_mol
from sourloam.science.chem.elements import molar_mass_g_per_mol
from sourloam.science.materials.composition import Composition

SHARE: Final = Range(0.0, 1.0)
CAPACITY: Final = Range(0.0, 20_000.0, "meq/kg")
PROTEIN_MEQ_PER_G: Final = 0.80  # 1.1 mmol of free side groups at exponent 4.3 and 0.16 of histidine [meq/g] judgement
PHOSPHATE_EQ_PER_MOL: Final = 0.073  # change of charge from pH 4 to 6 [-] martell_smith1976
PHOSPHORUS_KG_PER_MOL: Final = molar_mass_g_per_mol("P") / 1000.0
EACH_ACID_EQ_PER_MOL: Final = MappingProxyType(
    {name: float(charge_per_mol(acid, 6.0)) - float(charge_per_mol(acid, 4.0)) for name, acid in ACIDS.items()}
)


@law(
    "0.80 × protein + what each acid gives between pH 4 and 6 + phosphate",
    unit="meq/kg",
    source="judgement",
    place="from the exponents of the groups; within 40 % of titrations",
    basis=Basis.JUDGEMENT,
)
def buffering_meq_per_kg_dry(
    protein_db_frac: ArrayLike, acids_meq: ArrayLike, phosphorus_db_frac: ArrayLike
) -> float | FloatArray:
    r"""Buffering between pH 4 and 6 where nobody titrated, from what the material is made of.

    .. math:: BC = 0.80\,CP + \sum_i n_i [\bar z_i(6) - \bar z_i(4)] + 0.073\,n_P

    Parameters
    ----------
    protein_db_frac : float or array
        Crude protein of the dry matter. [-]
    acids_meq : float or array
        What its organic acids give between pH 4 and 6, see `acids_meq_per_kg_dry`.
    phosphorus_db_frac : float or array
        Phosphorus of the dry matter, all taken as phosphate. [-]

    Returns
    -------
    buffering : float or array
        Milliequivalents to a kilogram of dry matter.

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1.

    Notes
    -----
    Lime of shells and ash is not in it: it dissolves slowly and is counted apart.

    References
    ----------
    playne_mcdonald1966: what is meant by buffering of plant material.

    Examples
    --------
    >>> round(buffering_meq_per_kg_dry(0.20, 100.0, 0.0))
    260
    """
    protein = within(protein_db_frac, SHARE, name="protein_db_frac", why="it is a share of the dry matter.")
    phosphorus = within(phosphorus_db_frac, SHARE, name="phosphorus_db_frac", why="it is a share of the dry matter.")
    phosphate = phosphorus / PHOSPHORUS_KG_PER_MOL * PHOSPHATE_EQ_PER_MOL * 1000.0
    return keep_shape(np.asarray(PROTEIN_MEQ_PER_G * 1000.0 * protein + np.asarray(acids_meq, dtype=float) + phosphate))


def acids_meq_per_kg_dry(**acids_db_frac: ArrayLike) -> float | FloatArray:
    """Return what organic acids give between pH 4 and 6, from their shares of the dry matter by name."""
    parts = [
        np.asarray(share, dtype=float) / ACIDS[name].kg_per_mol * EACH_ACID_EQ_PER_MOL[name] * 1000.0
        for name, share in acids_db_frac.items()
    ]
    return keep_shape(np.asarray(sum(parts), dtype=float))


def buffering_of(held: Composition, titrated_meq_per_kg_dry: float | None) -> float:
    """Return the buffering of a material: as it was titrated, or by the law from its composition."""
    if titrated_meq_per_kg_dry is not None:
        return titrated_meq_per_kg_dry
    dry = held.dry_wb_frac
    acids = acids_meq_per_kg_dry(**{name: getattr(held, f"{name}_wb_frac") / dry for name in ACIDS})
    return float(buffering_meq_per_kg_dry(held.protein_wb_frac / dry, acids, held.phosphorus_wb_frac / dry))


@law("buffering × 90.08 ÷ (0.580 × 10 000)", unit="g/(100.g)", source="playne_mcdonald1966", place="both definitions")
def as_lactic_g_per_100g_dry(buffering: ArrayLike) -> float | FloatArray:
    r"""Buffering by the other definition: lactic acid that must be added to reach pH 4.

    At pH 4 a part of the lactic acid keeps its proton, so more of it is needed
    than the charge says:

    .. math:: BC_{LA} = \frac{BC \cdot M}{\alpha(4) \cdot 10^4}

    Parameters
    ----------
    buffering : float or array
        Milliequivalents to a kilogram of dry matter, between pH 4 and 6.

    Returns
    -------
    lactic : float or array
        Grams of lactic acid to 100 g of dry matter.

    Raises
    ------
    OutOfRange
        If the buffering is negative or above 20 eq/kg.

    Notes
    -----
    Strictly for a start at pH 6, and without the free protons.

    References
    ----------
    weissbach1974: buffering as lactic acid.

    Examples
    --------
    >>> round(as_lactic_g_per_100g_dry(400.0), 2)
    6.21
    """
    held = within(buffering, CAPACITY, name="buffering", why="nothing that rots buffers like that.")
    lactic = ACIDS["lactic"]
    return keep_shape(held * lactic.kg_per_mol * 1000.0 / (float(charge_per_mol(lactic, 4.0)) * 1e4))
