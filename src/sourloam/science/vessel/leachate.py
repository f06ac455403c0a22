"""The liquid that a filling sets free, holds back and drains."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

_DRY = Range(0.0, 1.0)
MOST_L_PER_KG = 0.40  # upper end of what turned liquid in degueurce2019, sections 3 and 4 of the abstract
WETTEST_DRY_G_PER_KG = 100.0  # the equation was fitted from here up
DRIEST_DRY_G_PER_KG = 310.0  # nothing drains above


@law(
    "767 − 5.34 × dry matter + 0.00936 × dry matter²",
    unit="L/kg",
    source="bastiman1976",
    place="effluent equation",
    basis=Basis.MEMORY,
)
def effluent_l_per_kg(dry_wb_frac: ArrayLike) -> float | FloatArray:
    r"""Liquid that runs from ensiled forage, by its dry matter.

    .. math:: V = 0.767 - 0.00534 D + 9.36 \cdot 10^{-6} D^2

    Parameters
    ----------
    dry_wb_frac : float or array
        Dry matter as a share of the fresh mass. [-]

    Returns
    -------
    effluent : float or array
        Liquid from a kilogram as it went in. [L/kg]

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1.

    Notes
    -----
    Fitted from 100 to 285 g dry matter in a kilogram; from there it falls in a
    straight line to nothing at 310. Wetter material than 100 g is taken at the
    value for 100 g, and what kitchen scraps set free never passes the 0.40 L/kg
    that degueurce2019 saw turn liquid.

    References
    ----------
    bastiman1976: the equation.
    degueurce2019: the upper bound.

    Examples
    --------
    >>> round(effluent_l_per_kg(0.20), 4)
    0.0734
    """
    share = within(dry_wb_frac, _DRY, name="dry_wb_frac", why="it is a share of the whole.")
    dry = np.maximum(share * 1000.0, WETTEST_DRY_G_PER_KG)
    fitted = 0.767 - 0.00534 * dry + 9.36e-6 * (dry * dry)
    fading = 0.0054 * (DRIEST_DRY_G_PER_KG - dry) / (DRIEST_DRY_G_PER_KG - 285.0)
    flow = np.where(dry <= 285.0, fitted, np.maximum(fading, 0.0))
    return keep_shape(np.minimum(flow, MOST_L_PER_KG))


@law("(liquid set free × softness, at most 0.40 L/kg) − bran × what it holds", unit="L/kg")
def leachate_l_per_kg(
    dry_wb_frac: ArrayLike, softness: ArrayLike, bran_kg_per_kg: ArrayLike, bran_holds_kg_per_kg: ArrayLike
) -> float | FloatArray:
    """Return the liquid that a kilogram of scraps lets go in the end, beside its bran."""
    free = np.minimum(effluent_l_per_kg(dry_wb_frac) * np.asarray(softness, dtype=float), MOST_L_PER_KG)
    held = np.asarray(bran_kg_per_kg, dtype=float) * np.asarray(bran_holds_kg_per_kg, dtype=float)
    return keep_shape(np.maximum(free - held, 0.0))


@law("1 − exp(−days ÷ draining time)", unit="1", source="judgement")
def drained_frac(age_d: ArrayLike, draining_d: ArrayLike) -> float | FloatArray:
    """Return the share of the liquid that has come after some days."""
    return keep_shape(-np.expm1(-np.asarray(age_d, dtype=float) / np.asarray(draining_d, dtype=float)))


@law("(days of filling so far − draining time × what is still to come) ÷ days of filling", unit="1", source="judgement")
def drained_while_filling_frac(age_d: ArrayLike, filling_d: ArrayLike, draining_d: ArrayLike) -> float | FloatArray:
    """Return the share of all liquid that has come some days after the first layer, of scraps that come in evenly."""
    age, draining = np.asarray(age_d, dtype=float), np.asarray(draining_d, dtype=float)
    filling = np.maximum(np.asarray(filling_d, dtype=float), 1e-6)
    filled = np.minimum(age, filling)
    to_come = draining * (np.exp((filled - age) / draining) - np.exp(-age / draining))
    return keep_shape(np.asarray((filled - to_come) / filling))
