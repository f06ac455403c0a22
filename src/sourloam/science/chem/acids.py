"""Dissociation of the acids that scraps bring and a vessel makes."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.chem.elements import molar_mass_g_per_mol

PH: Final = Range(0.0, 14.0)
CONCENTRATION: Final = Range(0.0, 20_000.0, "mol/m3")
IMPOSSIBLE_PH: Final = "a reading there is a fault of the strip or the meter."


@dataclass(frozen=True)
class Acid:
    """An acid with the exponents of its steps, at 25 °C and no salt."""

    formula: str
    pkas: tuple[float, ...]

    @property
    def kg_per_mol(self) -> float:
        """Return the mass of a mole of it."""
        return molar_mass_g_per_mol(self.formula) / 1000.0


ACIDS: Final = MappingProxyType(
    {  # dissociation exponents [-]
        "lactic": Acid("C3H6O3", (3.86,)),  # acid_table
        "acetic": Acid("C2H4O2", (4.756,)),  # martell_smith1976
        "malic": Acid("C4H6O5", (3.40, 5.20)),  # acid_table
        "citric": Acid("C6H8O7", (3.13, 4.76, 6.40)),  # martell_smith1976
    }
)


@law("total ÷ (1 + 10^(pH − pKa))", unit="mol/m3", source="martell_smith1976", place="law of mass action")
def undissociated_mol_per_m3(total_mol_per_m3: ArrayLike, ph: ArrayLike, pka: ArrayLike) -> float | FloatArray:
    r"""Concentration of a one-step acid that still holds its proton.

    This is the form that passes into cells and stops them. By the law of
    mass action,

    .. math:: [HA] = \frac{C}{1 + 10^{\,pH - pK_a}}

    Parameters
    ----------
    total_mol_per_m3 : float or array
        Acid in both forms; 1 mol/m3 is 1 mmol/L. [mol/m3]
    ph : float or array
        Acidity of the liquid. [-]
    pka : float or array
        Dissociation exponent at the temperature and salt of the liquid. [-]

    Returns
    -------
    undissociated : float or array
        Shape of the three arguments broadcast together. [mol/m3]

    Raises
    ------
    OutOfRange
        If `total_mol_per_m3` is negative or above 20 000, if `ph` is outside 0
        to 14, or if either is not a number. Nothing is clipped.

    Notes
    -----
    A limit of growth that was measured as undissociated acid belongs with the
    exponent its authors used: 3.40 in thylin1995, 3.86 in presser1998.

    References
    ----------
    presser1998: limit for Escherichia coli.
    thylin1995: limits for Clostridium tyrobutyricum, and the exponent in its medium.

    Examples
    --------
    >>> round(undissociated_mol_per_m3(36.0, ph=4.2, pka=3.86), 1)
    11.3
    """
    total = within(total_mol_per_m3, CONCENTRATION, name="total_mol_per_m3", why="no ferment holds that much acid.")
    acidity = within(ph, PH, name="ph", why=IMPOSSIBLE_PH)
    return keep_shape(total / (1.0 + 10.0 ** (acidity - np.asarray(pka, dtype=float))))


def charge_per_mol(acid: Acid, ph: ArrayLike) -> float | FloatArray:
    r"""Mean negative charge of a mole of an acid, all its steps together.

    .. math:: \bar z = \frac{\sum_k k \prod_{j \le k} 10^{\,pH - pK_j}}{1 + \sum_k \prod_{j \le k} 10^{\,pH - pK_j}}

    Parameters
    ----------
    acid : Acid
        One of `ACIDS`.
    ph : float or array
        Acidity. [-]

    Returns
    -------
    charge : float or array
        0 in strong acid, up to one per step; counted as positive. [-]

    Raises
    ------
    OutOfRange
        If `ph` is outside 0 to 14.

    Notes
    -----
    At no ionic strength. In 0.1 mol/L of salt lactic acid behaves as with 3.75
    in place of 3.86, so that a little less of it is needed than this says.

    References
    ----------
    martell_smith1976: the exponents of acetic and citric acid.
    acid_table: those of lactic and malic acid.

    Examples
    --------
    >>> round(charge_per_mol(ACIDS["lactic"], 4.0), 3)
    0.58
    """
    acidity = within(ph, PH, name="ph", why=IMPOSSIBLE_PH)
    basicity = 10.0**acidity
    shares, above, below = np.ones_like(acidity), np.zeros_like(acidity), np.ones_like(acidity)
    for step, pka in enumerate(acid.pkas, start=1):
        shares = shares * (basicity * 10.0**-pka)
        above, below = above + step * shares, below + shares
    return keep_shape(np.asarray(above / below))
