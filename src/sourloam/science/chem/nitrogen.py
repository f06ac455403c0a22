"""Nitrogen and protein: the factor between them."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

FACTOR: Final = Range(4.0, 7.5)
SHARE: Final = Range(0.0, 1.0)


@law("protein ÷ factor", unit="1", source="merrill_watt1973", place="protein factor of each food")
def nitrogen_frac(protein_frac: ArrayLike, nitrogen_factor: ArrayLike) -> float | FloatArray:
    r"""Nitrogen that a share of protein holds.

    Tables of food measure nitrogen and print protein, so this is the way back:

    .. math:: N = P / f

    Parameters
    ----------
    protein_frac : float or array
        Crude protein, wet or dry basis; the result has the same basis. [-]
    nitrogen_factor : float or array
        Protein per nitrogen by which the table was made: 6.25 for most foods, 5.7 to
        5.95 for cereals, 6.38 for milk, 5.3 for nuts. [-]

    Returns
    -------
    nitrogen : float or array
        [-]

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1 or a factor outside 4 to 7.5.

    Notes
    -----
    Nitrate, which leafy scraps hold, is counted only so far as the table counted it.

    References
    ----------
    merrill_watt1973: the factors.

    Examples
    --------
    >>> nitrogen_frac(0.125, nitrogen_factor=6.25)
    0.02
    """
    protein = within(protein_frac, SHARE, name="protein_frac", why="it is a share of the mass.")
    factor = within(nitrogen_factor, FACTOR, name="nitrogen_factor", why="no food has such a protein.")
    return keep_shape(np.asarray(protein / factor))
