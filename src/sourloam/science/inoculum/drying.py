"""Drying in the air of a room: a thin layer, how long, how far, and whether mould is faster."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.climate.psychrometrics import drying_pull_pa

HOURS_D: Final = 24.0
THIN_M: Final = 0.01
LAYER: Final = Range(0.002, 0.2, "m")
LIFE_C: Final = 40.0  # warmer than that the culture dies as it dries; memory, 40 to 45
KNOWN_MOULD_C: Final = 20.0


@law("pace of a thin layer × pull of the air ÷ pull it was given for ÷ depth to its power", unit="1/h")
def drying_per_h(
    thin_per_h: ArrayLike,
    pull_times: ArrayLike,
    layer_m: ArrayLike,
    depth_power: ArrayLike,
) -> float | FloatArray:
    """Return the pace at which a layer dries, as Lewis' law has it.

    Raises
    ------
    OutOfRange
        If the layer is thinner than 2 mm or thicker than 20 cm.
    """
    layer = within(layer_m, LAYER, name="layer_m", why="bran is spread by hand, and no thicker.")
    slower = (layer / THIN_M) ** np.asarray(depth_power, dtype=float)
    return keep_shape(np.asarray(np.asarray(thin_per_h, dtype=float) * np.asarray(pull_times, dtype=float) / slower))


@law("pull of this air ÷ pull of the air in which the pace is known", unit="1")
def pull_times(
    room_c: ArrayLike, room_humidity_frac: ArrayLike, thin_c: ArrayLike, thin_humidity_frac: ArrayLike
) -> float | FloatArray:
    """Return how many times as strongly this air dries.

    Raises
    ------
    OutOfRange
        If a humidity is no share or air is outside -60 to 80 °C.
    """
    here = np.asarray(drying_pull_pa(room_c, room_humidity_frac))
    return keep_shape(np.asarray(here / np.asarray(drying_pull_pa(thin_c, thin_humidity_frac))))


@law("ln((start − rest) ÷ (end − rest)) ÷ pace", unit="d")
def drying_d(
    start_wb_frac: ArrayLike, end_wb_frac: ArrayLike, rest_wb_frac: ArrayLike, drying_per_h: ArrayLike
) -> float | FloatArray:
    """Return the days from one moisture to another; never where the air is too damp for the end."""
    start, end, rest = (_dry_basis(each) for each in (start_wb_frac, end_wb_frac, rest_wb_frac))
    with np.errstate(divide="ignore", invalid="ignore"):
        hours = np.log((start - rest) / (end - rest)) / np.asarray(drying_per_h, dtype=float)
    days = np.where(start <= end, 0.0, np.where(end > rest, hours / HOURS_D, np.inf))
    return keep_shape(np.asarray(days, dtype=float))


@law("days at 20 °C × Q10 ^ ((20 − temperature) ÷ 10)", unit="d")
def mould_d(mould_at_20c_d: ArrayLike, room_c: ArrayLike, mould_q10: ArrayLike) -> float | FloatArray:
    """Return how long bran may stay damp before mould shows."""
    slower = np.asarray(mould_q10, dtype=float) ** ((KNOWN_MOULD_C - np.asarray(room_c, dtype=float)) / 10.0)
    return keep_shape(np.asarray(np.asarray(mould_at_20c_d, dtype=float) * slower))


@law("share of cases in which it stays damp longer than mould takes, × 100", unit="%")
def mould_pct(damp_d: ArrayLike, mould_d: ArrayLike) -> float | FloatArray:
    """Return in how many of a hundred cases mould is faster than drying."""
    share = 100.0 * float(np.mean(np.asarray(damp_d, dtype=float) > np.asarray(mould_d, dtype=float)))
    return keep_shape(np.full(np.shape(damp_d), share))


@law("wetted bran ÷ how it lies ÷ depth", unit="m2")
def drying_m2(
    wet_kg: ArrayLike, loose_kg_per_l: ArrayLike, wet_loose_times: ArrayLike, layer_m: ArrayLike
) -> float | FloatArray:
    """Return the area on which so much wetted bran lies in a layer.

    Raises
    ------
    OutOfRange
        If the layer is thinner than 2 mm or thicker than 20 cm.
    """
    layer = within(layer_m, LAYER, name="layer_m", why="bran is spread by hand, and no thicker.")
    lies = np.asarray(loose_kg_per_l, dtype=float) * np.asarray(wet_loose_times, dtype=float) * 1000.0
    return keep_shape(np.asarray(np.asarray(wet_kg, dtype=float) / lies / layer))


@law("litres that wetted, packed bran fills", unit="L")
def packed_l(wet_kg: ArrayLike, loose_kg_per_l: ArrayLike, wet_loose_times: ArrayLike) -> float | FloatArray:
    """Return the room that wetted bran takes in a bag or a bucket, pressed a little."""
    lies = np.asarray(loose_kg_per_l, dtype=float) * np.asarray(wet_loose_times, dtype=float) * 1.3
    return keep_shape(np.asarray(np.asarray(wet_kg, dtype=float) / lies))


def _dry_basis(moisture_wb_frac: ArrayLike) -> FloatArray:
    wet = np.asarray(moisture_wb_frac, dtype=float)
    return np.asarray(wet / (1.0 - wet))
