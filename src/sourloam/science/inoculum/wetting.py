"""Moisture of the wetted carrier, and the dry bran that comes of it."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.errors import OutOfRange
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

SHARE: Final = Range(0.0, 1.0)
_WHY: Final = "it is a share of the whole."


@law("(water wanted − water in the carrier) ÷ (water in the liquid − water wanted)", unit="kg/kg")
def liquid_kg_per_kg(
    wetted_moisture_wb_frac: ArrayLike, carrier_moisture_wb_frac: ArrayLike, liquid_moisture_wb_frac: ArrayLike = 1.0
) -> float | FloatArray:
    """Return the liquid that brings a kilogram of carrier to the moisture wanted.

    Raises
    ------
    OutOfRange
        If a share is outside 0 to 1, or the moisture wanted does not lie between that of carrier and liquid.
    """
    wanted = within(wetted_moisture_wb_frac, SHARE, name="wetted_moisture_wb_frac", why=_WHY)
    carrier = within(carrier_moisture_wb_frac, SHARE, name="carrier_moisture_wb_frac", why=_WHY)
    liquid = within(liquid_moisture_wb_frac, SHARE, name="liquid_moisture_wb_frac", why=_WHY)
    _refuse_out_of_reach(wanted, carrier, liquid)
    return keep_shape(np.asarray((wanted - carrier) / (liquid - wanted), dtype=float))


@law("(carrier × its water + liquid × its water) ÷ (carrier + liquid)", unit="1")
def wetted_moisture_wb_frac(
    liquid_kg_per_kg: ArrayLike, carrier_moisture_wb_frac: ArrayLike, liquid_moisture_wb_frac: ArrayLike = 1.0
) -> float | FloatArray:
    """Return the moisture of a kilogram of carrier after so much liquid."""
    liquid = np.asarray(liquid_kg_per_kg, dtype=float)
    poured = liquid * np.asarray(liquid_moisture_wb_frac, dtype=float)
    water = np.asarray(carrier_moisture_wb_frac, dtype=float) + poured
    return keep_shape(np.asarray(water / (1.0 + liquid), dtype=float))


@law("(dry matter of carrier and liquid) × (1 − what is lost) ÷ (1 − water left)", unit="kg/kg")
def dry_bran_kg_per_kg(
    carrier_moisture_wb_frac: ArrayLike,
    liquid_kg_per_kg: ArrayLike,
    liquid_moisture_wb_frac: ArrayLike,
    bran_loss_db_frac: ArrayLike,
    *,
    dried_moisture_wb_frac: ArrayLike,
) -> float | FloatArray:
    """Return the finished, dry bran that a kilogram of carrier gives."""
    solids = np.asarray(liquid_kg_per_kg, dtype=float) * (1.0 - np.asarray(liquid_moisture_wb_frac, dtype=float))
    dry = 1.0 - np.asarray(carrier_moisture_wb_frac, dtype=float) + solids
    kept = dry * (1.0 - np.asarray(bran_loss_db_frac, dtype=float))
    return keep_shape(np.asarray(kept / (1.0 - np.asarray(dried_moisture_wb_frac, dtype=float)), dtype=float))


def _refuse_out_of_reach(wanted: FloatArray, carrier: FloatArray, liquid: FloatArray) -> None:
    target, dry, wet = np.broadcast_arrays(wanted, carrier, liquid)
    bad = ~((target >= dry) & (target < wet))
    if bad.any():
        given, least, most = (float(each[bad].flat[0]) for each in (target, dry, wet))
        why = "liquid can bring the carrier only to something between its own moisture and the liquid's."
        raise OutOfRange("wetted_moisture_wb_frac", given, Range(least, most), why)
