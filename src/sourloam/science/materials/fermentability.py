"""Will it sour: sugar against buffering, and the pH that keeps it."""

from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, halved, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.chem.acids import ACIDS, PH, undissociated_mol_per_m3
from sourloam.science.chem.charge import Protolytes, lactic_to_reach_mol

PERCENT: Final = Range(0.0, 100.0, "%")
AMOUNT: Final = Range(0.0, 100.0, "g/(100.g)")
HARD_BELOW: Final = 35.0  # [-] pahlow2003
EASY_ABOVE: Final = 45.0  # [-] pahlow2003
LINE_FROM_PCT: Final = 15.0  # least dry matter of the line [%] weissbach1974
LINE_TO_PCT: Final = 50.0  # greatest dry matter of the line [%] weissbach1974
BUTYRIC_PKA: Final = 3.40  # of lactic acid in the medium of the limits for clostridia [-] thylin1995
ENTERIC_MOL_PER_M3: Final = (
    11.0  # undissociated lactic acid above which Escherichia coli does not grow [mol/m3] presser1998
)
ENTERIC_PH: Final = 3.9  # where it does not grow without lactic acid either [-] presser1998
WETTEST_PH, DRIEST_PH = 3.4, 5.5  # between which the pH of undissociated acid is looked for


class Ensilability(StrEnum):
    """Classes of the fermentability coefficient."""

    HARD = "hard"
    UNCERTAIN = "uncertain"
    EASY = "easy"


@law(
    "dry matter % + 8 × sugar ÷ buffering",
    unit="1",
    source="weissbach1974",
    place="fermentability coefficient",
    basis=Basis.MEMORY,
)
def fermentability(dry_pct: ArrayLike, sugar: ArrayLike, buffering: ArrayLike) -> float | FloatArray:
    r"""Fermentability coefficient of forage.

    .. math:: FC = DM + 8 \frac{WSC}{BC}

    Parameters
    ----------
    dry_pct : float or array
        Dry matter of the fresh mass. [%]
    sugar : float or array
        Water-soluble carbohydrate, grams to 100 g of dry matter.
    buffering : float or array
        Lactic acid that brings it to pH 4, grams to 100 g of dry matter.

    Returns
    -------
    coefficient : float or array
        Under 35 hard, over 45 easy; infinite where nothing buffers. [-]

    Raises
    ------
    OutOfRange
        If one is outside 0 to 100.

    Notes
    -----
    Fitted on forage of 15 to 50 % dry matter that held nitrate. Kitchen scraps
    are wetter and hold little: a screen and no forecast. Its link to the
    quality of silage was only moderate (agrarforschung2006).

    References
    ----------
    weissbach1974: the formula.
    pahlow2003: the classes.

    Examples
    --------
    >>> round(fermentability(22.0, 12.0, 5.4), 1)
    39.8
    """
    dry = within(dry_pct, PERCENT, name="dry_pct", why="it is a share of the whole.")
    sweet = within(sugar, AMOUNT, name="sugar", why="it is a share of the dry matter.")
    held = within(buffering, AMOUNT, name="buffering", why="no scraps take up their own mass of acid.")
    above, below = np.broadcast_arrays(8.0 * sweet, held)
    ratio = np.divide(above, below, out=np.full(above.shape, np.inf), where=below > 0.0)
    return keep_shape(np.asarray(dry + ratio))


def class_of(coefficient: float) -> Ensilability:
    """Return the class of a fermentability coefficient."""
    if coefficient < HARD_BELOW:
        return Ensilability.HARD
    return Ensilability.EASY if coefficient > EASY_ABOVE else Ensilability.UNCERTAIN


@law("1 ÷ (1 + exp((coefficient − middle) ÷ width))", unit="1", source="judgement", basis=Basis.JUDGEMENT)
def butyric_chance_frac(coefficient: ArrayLike, middle: ArrayLike, width: ArrayLike) -> float | FloatArray:
    """Return how likely butyric acid forms without any help, by the fermentability coefficient alone."""
    away = (np.asarray(coefficient, dtype=float) - np.asarray(middle, dtype=float)) / np.asarray(width, dtype=float)
    return keep_shape(np.asarray(1.0 / (1.0 + np.exp(np.clip(away, -50.0, 50.0)))))


@law(
    "3.694 + 0.02595 × dry matter %",
    unit="[pH]",
    source="weissbach1974",
    place="line through the critical pH by dry matter, 15 to 50 %",
    basis=Basis.MEMORY,
)
def critical_ph_by_dry(dry_pct: ArrayLike) -> float | FloatArray:
    r"""Greatest pH at which silage of a dry matter keeps.

    .. math:: pH_{crit} = 3.694 + 0.02595\,DM

    Parameters
    ----------
    dry_pct : float or array
        Dry matter of what stays in the vessel. [%]

    Returns
    -------
    ph : float or array
        [-]

    Raises
    ------
    OutOfRange
        If the dry matter is outside 15 to 50 %: no line was published there.

    Notes
    -----
    By crop it scatters by 0.15 (standard deviation): lucerne keeps at a higher pH.

    References
    ----------
    weissbach1974: the points, of which this is the line of least squares.
    hay_forage_4430: points by crop, against which it is checked.

    Examples
    --------
    >>> round(critical_ph_by_dry(20.0), 3)
    4.213
    """
    line = Range(LINE_FROM_PCT, LINE_TO_PCT, "%")
    dry = within(dry_pct, line, name="dry_pct", why="no critical pH was published for that.")
    return keep_shape(3.694 + 0.02595 * dry)


def butyric_limit_mol_per_m3(ph: ArrayLike) -> float | FloatArray:
    r"""Undissociated lactic acid that stops Clostridium tyrobutyricum, by pH.

    A straight line between the two published limits, 8.9 at pH 4.6 and 2.1 at
    pH 6.25, and carried on to lower pH.

    Parameters
    ----------
    ph : float or array
        Acidity. [-]

    Returns
    -------
    limit : float or array
        With the exponent of its source, 3.40. [mol/m3]

    Raises
    ------
    OutOfRange
        If `ph` is outside 0 to 14.

    References
    ----------
    thylin1995: the two limits.

    Examples
    --------
    >>> round(butyric_limit_mol_per_m3(4.6), 1)
    8.9
    """
    acidity = within(ph, PH, name="ph", why="it is no pH.")
    return keep_shape(np.maximum(8.9 + (2.1 - 8.9) * (acidity - 4.6) / (6.25 - 4.6), 2.1))


@law(
    "highest pH, reached by lactic acid, at which undissociated acid stops clostridia and enteric bacteria",
    unit="[pH]",
    source="thylin1995",
    place="limits of undissociated lactic acid; with presser1998 for enteric bacteria",
)
def critical_ph_by_acid(
    tissue_eq: ArrayLike, strong_eq: ArrayLike, water_kg: ArrayLike, **acids_mol: ArrayLike
) -> float | FloatArray:
    """Return the pH at which a load that is soured by lactic acid alone keeps, where no line was published.

    The deeper its pH falls the more lactic acid it holds, and the more of that
    keeps its proton. From the pH on at which both limits are passed, nothing
    that spoils grows. At pH 3.9 enteric bacteria stop without any lactic acid.

    Raises
    ------
    OutOfRange
        If an amount is negative.
    """
    parts = Protolytes(tissue_eq, acids_mol)
    strong, water = np.broadcast_arrays(np.asarray(strong_eq, dtype=float), np.asarray(water_kg, dtype=float))
    ends = np.full(strong.shape, WETTEST_PH), np.full(strong.shape, DRIEST_PH)
    return keep_shape(np.maximum(halved(lambda ph: ~_stops(parts, strong, water, ph), *ends), ENTERIC_PH))


def _stops(parts: Protolytes, strong: FloatArray, water: FloatArray, ph: FloatArray) -> np.ndarray:
    """Whether a load soured to that pH holds more undissociated acid than what spoils it bears."""
    added = np.maximum(np.asarray(lactic_to_reach_mol(parts, strong, water, ph)), 0.0)
    total = (added + np.asarray(parts.acids_mol.get("lactic", 0.0), dtype=float)) / np.maximum(water, 1e-9) * 1000.0
    held = np.minimum(total, 19_000.0)
    enteric = np.asarray(undissociated_mol_per_m3(held, ph, ACIDS["lactic"].pkas[0])) >= ENTERIC_MOL_PER_M3
    butyric = np.asarray(undissociated_mol_per_m3(held, ph, BUTYRIC_PKA)) >= np.asarray(butyric_limit_mol_per_m3(ph))
    return np.asarray(enteric & butyric)
