"""How strong the liquid is, how far it is thinned, and what a square metre gets of it."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

DAYS: Final = Range(0.0, 400.0, "d")
LITRES: Final = Range(0.0, 1e4, "L")


@law("strength of a sour batch × (first part + rest × (1 − exp(−days ÷ ripening)))", unit="dS/m", source="judgement")
def strength_ds_per_m(
    sour_ds_per_m: ArrayLike, first_frac: ArrayLike, day_d: ArrayLike, ripens_d: ArrayLike
) -> float | FloatArray:
    """Return the conductivity of what runs off on a day after the first layer.

    Raises
    ------
    OutOfRange
        If a day is outside 0 to 400.
    """
    day = within(day_d, DAYS, name="day_d", why="days are counted from the first layer.")
    first = np.asarray(first_frac, dtype=float)
    ripe = -np.expm1(-day / np.asarray(ripens_d, dtype=float))
    return keep_shape(np.asarray(sour_ds_per_m, dtype=float) * (first + (1.0 - first) * ripe))


@law(
    "(conductivity of the liquid − wanted) ÷ (wanted − conductivity of the water), never under 0",
    unit="1",
    source="ayers_westcot",
    place="blending of waters, C = C1 r1 + C2 r2",
    basis=Basis.DERIVED,
)
def parts_of_water(
    liquid_ds_per_m: ArrayLike, water_ds_per_m: ArrayLike, wanted_ds_per_m: ArrayLike
) -> float | FloatArray:
    r"""Water to one part of liquid that brings it to a conductivity; without end where the water is saltier itself.

    .. math:: \frac{V_w}{V_L} = \frac{EC_L - EC_t}{EC_t - EC_w}

    Parameters
    ----------
    liquid_ds_per_m : float or array
        Conductivity of the liquid. [dS/m]
    water_ds_per_m : float or array
        Conductivity of the water. [dS/m]
    wanted_ds_per_m : float or array
        Conductivity that is wanted. [dS/m]

    Returns
    -------
    parts : float or array
        Litres of water to one litre. [-]

    Notes
    -----
    Waters mix in proportion below about 5 dS/m; a strong liquid is a little
    saltier than it measures, so the thinned one is measured too.

    References
    ----------
    ayers_westcot: blending of waters.

    Examples
    --------
    >>> round(parts_of_water(12.0, 0.5, 1.5), 2)
    10.5
    """
    wanted, water = np.asarray(wanted_ds_per_m, dtype=float), np.asarray(water_ds_per_m, dtype=float)
    over = np.maximum(np.asarray(liquid_ds_per_m, dtype=float) - wanted, 0.0)
    room = wanted - water
    shape = np.broadcast(over, room).shape
    parts = np.divide(over, np.broadcast_to(room, shape), out=np.full(shape, np.inf), where=room > 0.0)
    return keep_shape(np.asarray(parts))


@law("the weakest of all that is asked for", unit="1")
def weakest_parts(**parts: ArrayLike) -> float | FloatArray:
    """Return the parts of water that keep to every limit."""
    return keep_shape(np.asarray(np.maximum.reduce([np.asarray(each, dtype=float) for each in parts.values()])))


@law("(liquid + parts of water × water) ÷ (1 + parts of water)", unit="dS/m", source="ayers_westcot")
def mixed_ds_per_m(liquid_ds_per_m: ArrayLike, water_ds_per_m: ArrayLike, parts: ArrayLike) -> float | FloatArray:
    """Return the conductivity of the feed."""
    share = 1.0 / (1.0 + np.asarray(parts, dtype=float))
    water = np.asarray(water_ds_per_m, dtype=float)
    return keep_shape(water + (np.asarray(liquid_ds_per_m, dtype=float) - water) * share)


@law("liquid × (1 + parts of water)", unit="L")
def feed_l(liquid_l: ArrayLike, parts: ArrayLike) -> float | FloatArray:
    """Return the feed that a liquid makes.

    Raises
    ------
    OutOfRange
        If the liquid is negative or above 10 m³.
    """
    litres = within(liquid_l, LITRES, name="liquid_l", why="no kitchen drains so much.")
    return keep_shape(litres * (1.0 + np.asarray(parts, dtype=float)))


@law("feed ÷ what a square metre is given", unit="m2")
def fed_m2(feed_l: ArrayLike, pour_l_per_m2: ArrayLike) -> float | FloatArray:
    """Return the ground that a feed serves once."""
    return keep_shape(np.asarray(feed_l, dtype=float) / np.asarray(pour_l_per_m2, dtype=float))


@law("what a litre of liquid holds × liquid", unit="g")
def held_g(g_per_l: ArrayLike, liquid_l: ArrayLike) -> float | FloatArray:
    """Return what a liquid holds of something."""
    return keep_shape(np.asarray(g_per_l, dtype=float) * np.asarray(liquid_l, dtype=float))


@law("what a litre of liquid holds × what is poured ÷ (1 + parts of water)", unit="g/m2")
def given_g_per_m2(g_per_l: ArrayLike, pour_l_per_m2: ArrayLike, parts: ArrayLike) -> float | FloatArray:
    """Return what a square metre gets of something in one watering."""
    poured = np.asarray(g_per_l, dtype=float) * np.asarray(pour_l_per_m2, dtype=float)
    return keep_shape(poured / (1.0 + np.asarray(parts, dtype=float)))


@law("1000 × acid of a litre ÷ (1 + parts of water)", unit="mmol/L")
def acid_mmol_per_l(acid_mol_per_l: ArrayLike, parts: ArrayLike) -> float | FloatArray:
    """Return the acid of the feed; hard tap water takes up 2 to 5 mmol in a litre."""
    return keep_shape(1000.0 * np.asarray(acid_mol_per_l, dtype=float) / (1.0 + np.asarray(parts, dtype=float)))


@law("liquid ÷ (water that a kilogram soaks up × mass of a litre)", unit="L")
def browns_l(liquid_l: ArrayLike, soaks_kg_per_kg: ArrayLike, loose_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the dry browns, loose, that hold a liquid."""
    holds = np.asarray(soaks_kg_per_kg, dtype=float) * np.asarray(loose_kg_per_l, dtype=float)
    return keep_shape(np.asarray(liquid_l, dtype=float) / np.maximum(holds, 1e-6))


@law("mass × what a kilogram lets go", unit="L")
def let_go_l(mass_kg: ArrayLike, l_per_kg: ArrayLike) -> float | FloatArray:
    """Return the liquid that a batch lets go."""
    return keep_shape(np.asarray(mass_kg, dtype=float) * np.asarray(l_per_kg, dtype=float))
