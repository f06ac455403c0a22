"""How far an acid batch shifts the pH of the soil that it is mixed into, before the acid is eaten."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

CARBONATE_G_PER_MOL: Final = 100.087  # g/mol; calcium carbonate, from atomic masses (iupac_masses)
LIME: Final = Range(50.0, 20_000.0, "mg/kg")
AREA: Final = Range(1e-6, 1e7, "m2")


@law(
    "soil density × depth × lime that shifts a kilogram of soil by one pH ÷ lime that takes up a mole of acid",
    unit="mol/m2",
    source="uga_c874",
    place="lime buffer capacity: lime that raises 1 kg of soil by one pH",
    basis=Basis.DERIVED,
)
def soil_buffer_mol_per_m2(
    lime_mg_per_kg: ArrayLike, soil_kg_per_m3: ArrayLike, depth_m: ArrayLike
) -> float | FloatArray:
    r"""Acid that shifts the soil under a square metre by one pH.

    The lime that a soil needs for one pH says how much acid would take it back,
    two moles of acid to one of carbonate,

    .. math:: B = \rho \, z \, \frac{2 L}{M_{CaCO_3}}

    Parameters
    ----------
    lime_mg_per_kg : float or array
        Pure carbonate that raises one kilogram of soil by one pH. [mg/kg]
    soil_kg_per_m3 : float or array
        Bulk density of the soil. [kg/m3]
    depth_m : float or array
        Depth of the soil that shares the acid. [m]

    Returns
    -------
    buffer : float or array
        Acid for one pH; shape of the three arguments broadcast together. [mol/m2]

    Raises
    ------
    OutOfRange
        If the lime is outside 50 to 20 000 mg/kg.

    Notes
    -----
    Taken as the same at every pH, and for acid as for lime.

    References
    ----------
    uga_c874: what the lime buffer capacity of a soil is.

    Examples
    --------
    >>> round(soil_buffer_mol_per_m2(1000.0, soil_kg_per_m3=1300.0, depth_m=0.2), 1)
    5.2
    """
    lime = within(
        lime_mg_per_kg, LIME, name="lime_mg_per_kg", why="no soil is known that is so weakly or so strongly buffered."
    )
    mol_per_kg = 2.0 * lime / 1000.0 / CARBONATE_G_PER_MOL
    return keep_shape(mol_per_kg * np.asarray(soil_kg_per_m3, dtype=float) * np.asarray(depth_m, dtype=float))


@law(
    "acid ÷ area ÷ acid that shifts a square metre by one pH",
    unit="[pH]",
    source="sourloam_derivation",
    place="bulk-mixed soil",
)
def acid_shift_ph(acid_mol: ArrayLike, area_m2: ArrayLike, buffer_mol_per_m2: ArrayLike) -> float | FloatArray:
    """Return by how much soil turns sourer at first, if the acid is mixed evenly; close to the batch it is more.

    Raises
    ------
    OutOfRange
        If an area is not above 0.
    """
    area = within(area_m2, AREA, name="area_m2", why="acid must go somewhere.")
    return keep_shape(np.asarray(acid_mol, dtype=float) / area / np.asarray(buffer_mol_per_m2, dtype=float))
