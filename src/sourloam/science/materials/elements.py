"""Carbon from what a material is made of, and the ratio of carbon to nitrogen."""

from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.chem.elements import mass_share, oxygen_kg_per_kg

SHARE: Final = Range(0.0, 1.0)
PER_ASH: Final = 1.8  # volatile solids per carbon [-] adams1951
CARBON: Final = MappingProxyType(
    {  # carbon per constituent [-]
        "protein": 0.53,  # protein_carbon
        "fat": mass_share("C", "C57H104O6"),  # triolein; carbon_formula
        "sugars": mass_share("C", "C12H22O11"),  # sucrose; glucose has 0.400; carbon_formula
        "starch": mass_share("C", "C6H10O5"),  # carbon_formula
        "fibre": mass_share("C", "C6H10O5"),  # cellulose; carbon_formula
        "lignin": 0.63,  # protein_carbon
        "citric": mass_share("C", "C6H8O7"),  # carbon_formula
        "malic": mass_share("C", "C4H6O5"),  # carbon_formula
        "lactic": mass_share("C", "C3H6O3"),  # carbon_formula
        "acetic": mass_share("C", "C2H4O2"),  # carbon_formula
    }
)

OXYGEN: Final = MappingProxyType(
    {  # oxygen that burns a kilogram of each [kg/kg]
        "protein": oxygen_kg_per_kg("C16H24O5N4"),  # a mean protein; judgement
        "fat": oxygen_kg_per_kg("C57H104O6"),  # carbon_formula
        "sugars": oxygen_kg_per_kg("C12H22O11"),  # carbon_formula
        "starch": oxygen_kg_per_kg("C6H10O5"),  # carbon_formula
        "fibre": oxygen_kg_per_kg("C6H10O5"),  # carbon_formula
        "lignin": oxygen_kg_per_kg("C10H12O3"),  # a unit of coniferyl alcohol, 0.67 carbon; judgement
        "citric": oxygen_kg_per_kg("C6H8O7"),  # carbon_formula
        "malic": oxygen_kg_per_kg("C4H6O5"),  # carbon_formula
        "lactic": oxygen_kg_per_kg("C3H6O3"),  # carbon_formula
        "acetic": oxygen_kg_per_kg("C2H4O2"),  # carbon_formula
    }
)


@law("carbon of each constituent, added up", unit="1", source="carbon_formula")
def carbon_frac(**constituents: ArrayLike) -> float | FloatArray:
    r"""Carbon by what it is bound in.

    .. math:: C = \sum_i c_i x_i

    Parameters
    ----------
    constituents : float or array
        Shares by name: protein, fat, sugars, starch, fibre, lignin and the acids; wet or
        dry basis, and the result has the same. [-]

    Returns
    -------
    carbon : float or array
        [-]

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1.
    KeyError
        If a constituent is none of these.

    Notes
    -----
    Carbon of shells and bones (carbonate) is not counted: nothing feeds on it.

    References
    ----------
    carbon_formula: fat as triolein, sugars as sucrose.
    protein_carbon: protein and lignin.

    Examples
    --------
    >>> round(carbon_frac(starch=1.0), 3)
    0.444
    """
    parts = [CARBON[name] * _share(name, each) for name, each in constituents.items()]
    return keep_shape(np.asarray(sum(parts), dtype=float))


@law("oxygen that burns each constituent, added up", unit="kg/kg", source="carbon_formula", place="by formula")
def cod_kg_per_kg(**constituents: ArrayLike) -> float | FloatArray:
    r"""Chemical oxygen demand: the oxygen that burns a material, its nitrogen left as ammonia.

    .. math:: COD = \sum_i o_i x_i, \quad o = \frac{32 (c + h/4 - o/2 - 3n/4)}{M}

    Parameters
    ----------
    constituents : float or array
        Shares by name, as of `carbon_frac`. [-]

    Returns
    -------
    demand : float or array
        [kg/kg]

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1.
    KeyError
        If a constituent is none of these.

    References
    ----------
    carbon_formula: the formulae.

    Examples
    --------
    >>> round(cod_kg_per_kg(lactic=1.0), 3)
    1.066
    """
    parts = [OXYGEN[name] * _share(name, each) for name, each in constituents.items()]
    return keep_shape(np.asarray(sum(parts), dtype=float))


@law("(1 − ash) ÷ 1.8", unit="1", source="adams1951", place="carbon as volatile solids divided by 1.8")
def carbon_from_ash_db_frac(ash_db_frac: ArrayLike) -> float | FloatArray:
    r"""Carbon of dry matter from its ash, where nothing else is known.

    .. math:: C = (1 - a) / 1.8

    Parameters
    ----------
    ash_db_frac : float or array
        Ash of the dry matter. [-]

    Returns
    -------
    carbon : float or array
        Carbon of the dry matter. [-]

    Raises
    ------
    OutOfRange
        If the share is outside 0 to 1.

    Notes
    -----
    The source puts most biological matter between 45 and 60 % of volatile
    solids, so the divisor is anywhere from 1.67 to 2.22; low for fat and lignin.

    References
    ----------
    adams1951: the divisor.

    Examples
    --------
    >>> carbon_from_ash_db_frac(0.10)
    0.5
    """
    return keep_shape((1.0 - _share("ash_db_frac", ash_db_frac)) / PER_ASH)


@law("carbon ÷ nitrogen", unit="1")
def carbon_to_nitrogen(carbon: ArrayLike, nitrogen: ArrayLike) -> float | FloatArray:
    """Return C:N by mass; infinite where there is no nitrogen."""
    held, bound = np.broadcast_arrays(np.asarray(carbon, dtype=float), np.asarray(nitrogen, dtype=float))
    with np.errstate(over="ignore"):  # next to no nitrogen is none
        return keep_shape(np.divide(held, bound, out=np.full(held.shape, np.inf), where=bound > 0.0))


def _share(name: str, values: ArrayLike) -> FloatArray:
    return within(values, SHARE, name=name, why="it is a share of the mass.")
