"""How tightly water is held: by a dry carrier, and by sugar."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, halved, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

SHARE: Final = Range(0.0, 1.0)
HELD: Final = Range(0.0, 0.99)  # as a water activity that an isotherm of a dry matter reaches
SUCROSE_KG_PER_MOL: Final = 0.3423
WATER_KG_PER_MOL: Final = 0.018015
_WHY: Final = "it is a share of the whole."


@law("Guggenheim, Anderson and de Boer's isotherm", unit="kg/kg", source="bran_isotherm", place="moisture, dry basis")
def held_kg_per_kg(
    water_activity: ArrayLike, monolayer_kg_per_kg: ArrayLike, gab_c: ArrayLike, gab_k: ArrayLike
) -> float | FloatArray:
    """Return the water that a kilogram of dry matter holds beside air of that humidity.

    Raises
    ------
    OutOfRange
        If the water activity is outside 0 to 0.99: beyond that the isotherm is not known.
    """
    activity = within(water_activity, HELD, name="water_activity", why="so near to wet an isotherm is not known.")
    k = np.asarray(gab_k, dtype=float) * activity
    c = np.asarray(gab_c, dtype=float)
    held = np.asarray(monolayer_kg_per_kg, dtype=float) * c * k / ((1.0 - k) * (1.0 - k + c * k))
    return keep_shape(np.asarray(held))


@law("water ÷ (water + dry matter), where carrier and air are at rest", unit="1")
def resting_moisture_wb_frac(
    humidity_frac: ArrayLike, monolayer_kg_per_kg: ArrayLike, gab_c: ArrayLike, gab_k: ArrayLike
) -> float | FloatArray:
    """Return the moisture that a carrier takes in a room, wet basis.

    Raises
    ------
    OutOfRange
        If the humidity is outside 0 to 0.99.
    """
    held = np.asarray(held_kg_per_kg(humidity_frac, monolayer_kg_per_kg, gab_c, gab_k))
    return keep_shape(np.asarray(held / (1.0 + held)))


@law("the humidity at which the isotherm gives that moisture", unit="1", source="bran_isotherm", place="inverted")
def activity_of(
    moisture_wb_frac: ArrayLike, monolayer_kg_per_kg: ArrayLike, gab_c: ArrayLike, gab_k: ArrayLike
) -> float | FloatArray:
    """Return the water activity of a carrier of that moisture, 0.99 at most.

    Raises
    ------
    OutOfRange
        If the moisture is no share.
    """
    moisture = within(moisture_wb_frac, SHARE, name="moisture_wb_frac", why=_WHY)
    wanted, layer, c, k = np.broadcast_arrays(
        moisture, *(np.asarray(each, dtype=float) for each in (monolayer_kg_per_kg, gab_c, gab_k))
    )

    def is_above(activity: FloatArray) -> np.ndarray:
        held = np.asarray(held_kg_per_kg(activity, layer, c, k))
        return np.asarray(held / (1.0 + held) >= wanted)

    return keep_shape(halved(is_above, np.zeros(wanted.shape), np.full(wanted.shape, HELD.high)))


@law(
    "water's share of the molecules × exp(−6.47 × sugar's share²)",
    unit="1",
    source="norrish1966",
    place="the form was read in Baeza et al. 2010; the constant of sucrose was recalled",
    basis=Basis.MEMORY,
)
def sucrose_activity(sucrose_frac: ArrayLike) -> float | FloatArray:
    """Return the water activity of sucrose in water, by its share of the mass.

    Raises
    ------
    OutOfRange
        If the share is outside 0 to 1.
    """
    share = within(sucrose_frac, SHARE, name="sucrose_frac", why=_WHY)
    sugar = share / SUCROSE_KG_PER_MOL
    water = (1.0 - share) / WATER_KG_PER_MOL
    part = sugar / (sugar + water)
    return keep_shape(np.asarray((1.0 - part) * np.exp(-6.47 * part**2)))


@law("sugar ÷ (sugar + water of the serum)", unit="1")
def sugared_frac(sugar_kg_per_kg: ArrayLike, serum_dry_wb_frac: ArrayLike) -> float | FloatArray:
    """Return the share of solutes where so much sugar is stirred into a kilogram of serum; its own count as sugar."""
    sugar = np.asarray(sugar_kg_per_kg, dtype=float) + np.asarray(serum_dry_wb_frac, dtype=float)
    whole = 1.0 + np.asarray(sugar_kg_per_kg, dtype=float)
    return keep_shape(np.asarray(sugar / whole))
