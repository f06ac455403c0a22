"""Eggshell or lime that takes the edge off the acid before worms get it."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

CARBONATE_G_PER_MOL: Final = 100.087  # g/mol; calcium carbonate, from atomic masses (iupac_masses)
ACID: Final = Range(0.0, 1e6, "mol")


@law(
    "acid × 50.04 g of carbonate ÷ mol, since one carbonate takes up two protons",
    unit="g",
    source="iupac_masses",
    place="mass of calcium carbonate",
    basis=Basis.DERIVED,
)
def carbonate_g(acid_mol: ArrayLike) -> float | FloatArray:
    r"""Calcium carbonate that neutralises an acid of one proton.

    .. math:: 2\,HL + CaCO_3 \rightarrow CaL_2 + H_2O + CO_2

    Parameters
    ----------
    acid_mol : float or array
        Titratable acid. [mol]

    Returns
    -------
    carbonate : float or array
        Shape of the argument. [g]

    Raises
    ------
    OutOfRange
        If the acid is negative or above a million moles.

    Notes
    -----
    Shell and lime act slowly and never all of it; see the parameters of a worm bin.

    References
    ----------
    iupac_masses: Ca 40.078, C 12.011, O 15.999.

    Examples
    --------
    >>> round(carbonate_g(0.222), 1)
    11.1
    """
    acid = within(acid_mol, ACID, name="acid_mol", why="acid cannot be less than none.")
    return keep_shape(np.asarray(acid * CARBONATE_G_PER_MOL / 2.0))


def shell_g(acid_mol: float, share_frac: float, carbonate_frac: float, acts_frac: float) -> float:
    """Return the powdered eggshell that neutralises a share of an acid."""
    return float(carbonate_g(acid_mol)) * share_frac / (carbonate_frac * acts_frac)
