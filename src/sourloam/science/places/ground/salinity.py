"""What salt in the soil costs a crop, by the published threshold and slope."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

CONDUCTIVITY: Final = Range(0.0, 100.0, "dS/m")


@law(
    "1 − slope × (conductivity − threshold), between 0 and 1",
    unit="1",
    source="fao_idp61",
    place="annex 1, response function of Maas and Hoffman",
    basis=Basis.READ,
)
def relative_yield_frac(
    soil_ds_per_m: ArrayLike, threshold_ds_per_m: ArrayLike, slope_frac_per_ds_per_m: ArrayLike
) -> float | FloatArray:
    r"""Yield that a crop still gives, by the salt of its soil.

    .. math:: Y = 1 - b (EC_e - a), \quad 0 \le Y \le 1

    Parameters
    ----------
    soil_ds_per_m : float or array
        Conductivity of the extract of the saturated soil. [dS/m]
    threshold_ds_per_m : float or array
        Up to which nothing is lost. [dS/m]
    slope_frac_per_ds_per_m : float or array
        Part of the yield that each dS/m beyond that costs. [-]

    Returns
    -------
    yield : float or array
        Part of what the crop gives without salt. [-]

    Raises
    ------
    OutOfRange
        If a conductivity is outside 0 to 100 dS/m.

    References
    ----------
    fao_idp61: the equation.
    maas1990: thresholds and slopes.

    Examples
    --------
    >>> round(relative_yield_frac(3.0, 1.0, 0.19), 2)
    0.62
    """
    soil = within(soil_ds_per_m, CONDUCTIVITY, name="soil_ds_per_m", why="sea water has about 50.")
    beyond = soil - np.asarray(threshold_ds_per_m, dtype=float)
    lost = np.asarray(slope_frac_per_ds_per_m, dtype=float) * np.maximum(beyond, 0.0)
    return keep_shape(np.clip(1.0 - lost, 0.0, 1.0))


@law("conductivity of its liquid × salt in a litre at 1 dS/m × water of a kilogram", unit="g/kg")
def ions_g_per_kg(
    conductivity_ds_per_m: ArrayLike, salt_mg_per_l: ArrayLike, dry_wb_frac: ArrayLike
) -> float | FloatArray:
    """Return the salts of all ions in a kilogram of a batch; its liquid is taken as a kilogram to the litre.

    Raises
    ------
    OutOfRange
        If the conductivity is outside 0 to 100 dS/m.
    """
    held = within(conductivity_ds_per_m, CONDUCTIVITY, name="conductivity_ds_per_m", why="sea water has about 50.")
    water = 1.0 - np.asarray(dry_wb_frac, dtype=float)
    return keep_shape(held * np.asarray(salt_mg_per_l, dtype=float) / 1000.0 * water)
