"""How well a liquid conducts, by the ions in it."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

MOLAR: Final = Range(0.0, 3.0, "mol/L")
# Of a mole of charge at 25 °C without end thinned, S cm2/mol; crc_ions, recalled.
AT_25C: Final[Mapping[str, float]] = MappingProxyType(
    {
        "hydrogen": 349.7,
        "potassium": 73.5,
        "ammonium": 73.5,
        "sodium": 50.1,
        "chloride": 76.3,
        "acetate": 40.9,
        "lactate": 38.8,
        "other": 50.0,  # phosphate, malate, citrate and chloride as they come in scraps; judgement
    }
)
ONSAGER: Final = 0.631  # limiting slope for potassium chloride, against its limit; recalled
NEAR: Final = 1.3  # with it the standards of 0.01 and 0.1 mol/L of potassium chloride are met to half a per cent


def conductivity_ds_per_m(ions_mol_per_l: Mapping[str, ArrayLike]) -> float | FloatArray:
    r"""Conductivity of a liquid at 25 °C from the charge that each kind of ion carries.

    .. math:: \kappa = \sum_i \lambda_i c_i \left(1 - \frac{0.631 \sqrt I}{1 + 1.3 \sqrt I}\right)

    Parameters
    ----------
    ions_mol_per_l : mapping of float or array
        Moles of charge in a litre, by the names of `AT_25C`. [mol/L]

    Returns
    -------
    conductivity : float or array
        [dS/m]

    Raises
    ------
    OutOfRange
        If an amount is negative or above 3 mol/L.

    References
    ----------
    crc_ions: the conductivity of each ion.
    """
    held = {
        name: within(amount, MOLAR, name=name, why="no liquid of scraps holds that.")
        for name, amount in ions_mol_per_l.items()
    }
    thinned = sum((AT_25C[name] * amount for name, amount in held.items()), start=np.zeros(()))
    strength = 0.5 * sum(held.values(), start=np.zeros(()))
    root = np.sqrt(strength)
    return keep_shape(np.asarray(thinned * (1.0 - ONSAGER * root / (1.0 + NEAR * root))))
