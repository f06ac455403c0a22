"""The pH at which the charges of a load cancel, and the lactic acid that takes it to another.

All is per load, in moles of charge: what holds protons adds up, so that a mix
of materials is described by the sum of what each holds.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.numbers import FloatArray, halved, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.chem.acids import ACIDS, IMPOSSIBLE_PH, PH, charge_per_mol

AMOUNT: Final = Range(0.0, 1e9, "mol")
INNER: Final = MappingProxyType({4.0: 1.0, 5.0: 1.0, 6.0: 1.0})  # exponents of three equal groups [-] tissue_groups
WIDE: Final = MappingProxyType({3.0: 0.5, **INNER, 7.0: 0.5})  # and of two halves beyond them [-] tissue_groups
LOWEST_PH, HIGHEST_PH = 1.0, 13.0


@dataclass(frozen=True)
class Protolytes:
    """What takes up protons in a load: its tissue, by charge between pH 4 and 6, and its acids, by moles."""

    tissue_eq: ArrayLike
    acids_mol: Mapping[str, ArrayLike]

    def __post_init__(self) -> None:
        within(self.tissue_eq, AMOUNT, name="tissue_eq", why="a tissue buffers or it does not.")


def tissue_share(ph: ArrayLike, groups: Mapping[float, float] = WIDE) -> float | FloatArray:
    r"""Charge of the tissue's groups, as a share of what they give between pH 4 and 6.

    Groups of equal size at exponents 4, 5 and 6 give the flat titration that
    plant tissue shows there; half groups at 3 and 7 carry it on beyond.

    .. math:: q = \frac{\sum_k w_k \alpha_k(pH)}{\sum_k w_k [\alpha_k(6) - \alpha_k(4)]}

    Parameters
    ----------
    ph : float or array
        Acidity. [-]
    groups : mapping
        Weight of each group by its exponent.

    Returns
    -------
    share : float or array
        Rises with pH by exactly one from pH 4 to pH 6. [-]

    Raises
    ------
    OutOfRange
        If `ph` is outside 0 to 14.

    References
    ----------
    tissue_groups: three lumped groups stand for a flat titration curve.

    Examples
    --------
    >>> round(tissue_share(6.0) - tissue_share(4.0), 6)
    1.0
    """
    acidity = within(ph, PH, name="ph", why=IMPOSSIBLE_PH)
    given = _given_up(6.0, groups) - _given_up(4.0, groups)
    return keep_shape(np.asarray(_given_up(acidity, groups) / given))


def held_eq(parts: Protolytes, ph: ArrayLike, groups: Mapping[float, float] = WIDE) -> float | FloatArray:
    """Return the negative charge that tissue and acids carry at a pH; strong ions make up for it.

    Raises
    ------
    OutOfRange
        If `ph` is outside 0 to 14.
    """
    held = np.asarray(parts.tissue_eq, dtype=float) * np.asarray(tissue_share(ph, groups))
    for name, moles in parts.acids_mol.items():
        held = held + np.asarray(moles, dtype=float) * np.asarray(charge_per_mol(ACIDS[name], ph))
    return keep_shape(np.asarray(held))


def strong_eq_at(parts: Protolytes, ph: ArrayLike, water_kg: ArrayLike) -> float | FloatArray:
    """Return the strong ions, cations less anions, that make a load have that pH.

    Raises
    ------
    OutOfRange
        If `ph` is outside 0 to 14.
    """
    free = _free_eq(np.asarray(ph, dtype=float), np.asarray(water_kg, dtype=float))
    return keep_shape(np.asarray(np.asarray(held_eq(parts, ph)) - free))


def ph_of(parts: Protolytes, strong_eq: ArrayLike, water_kg: ArrayLike) -> float | FloatArray:
    """Return the pH at which what the strong ions leave open is carried by tissue, acids and water.

    Parameters
    ----------
    parts : Protolytes
        What takes up protons.
    strong_eq : float or array
        Strong cations less strong anions: a mix holds the sum of its materials. [mol]
    water_kg : float or array
        Its water. [kg]

    Returns
    -------
    ph : float or array
        Between 1 and 13, by halving. [-]

    Raises
    ------
    OutOfRange
        If an amount of acid is negative.

    References
    ----------
    tissue_groups: the balance of charges, without its activities.
    """
    strong, water = np.broadcast_arrays(np.asarray(strong_eq, dtype=float), np.asarray(water_kg, dtype=float))
    ends = np.full(strong.shape, LOWEST_PH), np.full(strong.shape, HIGHEST_PH)
    return keep_shape(halved(lambda ph: np.asarray(held_eq(parts, ph)) - _free_eq(ph, water) > strong, *ends))


def lactic_to_reach_mol(
    parts: Protolytes, strong_eq: ArrayLike, water_kg: ArrayLike, ph: ArrayLike
) -> float | FloatArray:
    r"""Lactic acid that brings a load to a pH.

    The charge that tissue and acids give up between the two, and the free
    protons, are carried by the lactate:

    .. math:: n = \frac{SID - Q(pH) + m_w (10^{-pH} - 10^{pH - 14})}{\alpha_{lactic}(pH)}

    Parameters
    ----------
    parts : Protolytes
        What takes up protons.
    strong_eq : float or array
        Strong cations less strong anions. [mol]
    water_kg : float or array
        Its water. [kg]
    ph : float or array
        The pH that is wanted. [-]

    Returns
    -------
    lactic : float or array
        Negative where the load is more acid than that already. [mol]

    Raises
    ------
    OutOfRange
        If `ph` is outside 0 to 14.

    References
    ----------
    tissue_groups: the balance of charges.
    """
    open_eq = np.asarray(strong_eq, dtype=float) - np.asarray(held_eq(parts, ph))
    free = _free_eq(np.asarray(ph, dtype=float), np.asarray(water_kg, dtype=float))
    return keep_shape(np.asarray((open_eq + free) / np.asarray(charge_per_mol(ACIDS["lactic"], ph))))


def _given_up(ph: ArrayLike, groups: Mapping[float, float]) -> FloatArray:
    protons = 10.0 ** -np.asarray(ph, dtype=float)
    return np.asarray(sum(weight / (1.0 + 10.0**pka * protons) for pka, weight in groups.items()))


def _free_eq(ph: FloatArray, water_kg: FloatArray) -> FloatArray:
    """Return the charge of free protons less that of hydroxide."""
    return np.asarray(water_kg * (10.0**-ph - 10.0 ** (ph - 14.0)))
