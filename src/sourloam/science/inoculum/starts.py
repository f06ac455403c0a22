"""Other ways to begin than from rice: what is kept back, what is live already, what was bought."""

import math
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

SHARE: Final = Range(0.001, 0.999)


@law("days of the whole chain − days from this start", unit="d")
def saved_d(whole_d: ArrayLike, from_here_d: ArrayLike) -> float | FloatArray:
    """Return the days that a start spares."""
    return keep_shape(np.asarray(np.asarray(whole_d, dtype=float) - np.asarray(from_here_d, dtype=float)))


@law("count of the heel × its share", unit="1")
def heeled_log10(heel_log10_per_g: ArrayLike, heel_frac: ArrayLike) -> float | FloatArray:
    """Return the count of a mix from that of the finished bran that was stirred into it.

    Raises
    ------
    OutOfRange
        If the share is outside 0.1 to 99.9 %.
    """
    share = within(heel_frac, SHARE, name="heel_frac", why="it is what is kept of a batch, for the next one.")
    return keep_shape(np.asarray(np.asarray(heel_log10_per_g, dtype=float) + np.log10(share)))


@law("carrier × heel", unit="kg")
def heel_kg(carrier_kg: ArrayLike, heel_frac: ArrayLike) -> float | FloatArray:
    """Return the finished bran that starts so much carrier.

    Raises
    ------
    OutOfRange
        If the share is outside 0.1 to 99.9 %.
    """
    share = within(heel_frac, SHARE, name="heel_frac", why="it is what is kept of a batch, for the next one.")
    return keep_shape(np.asarray(np.asarray(carrier_kg, dtype=float) * share))


@law("times a batch must be multiplied, each time by 1 ÷ heel", unit="{generation}")
def generations_for(wanted_kg: ArrayLike, at_hand_kg: ArrayLike, heel_frac: ArrayLike) -> float | FloatArray:
    """Return how many makings lie between what is at hand and what is wanted.

    Raises
    ------
    OutOfRange
        If the share of the heel is outside 0.1 to 99.9 %.
    """
    share = within(heel_frac, SHARE, name="heel_frac", why="it is what is kept of a batch, for the next one.")
    times = np.asarray(wanted_kg, dtype=float) / np.maximum(np.asarray(at_hand_kg, dtype=float), 1e-9)
    needed = np.log(np.maximum(times, 1.0)) / -np.log(share)
    return keep_shape(np.asarray(np.ceil(needed - 1e-9)))


@law("ln((now − end) ÷ (ready − end)) ÷ how fast it fell so far", unit="d")
def activation_left_d(
    now_ph: ArrayLike, day_d: ArrayLike, *, start_ph: ArrayLike, end_ph: ArrayLike, ready_ph: ArrayLike
) -> float | FloatArray:
    """Return the days until a culture is sour enough, if its pH goes on falling towards its end as it fell so far."""
    now, end, ready = (np.asarray(each, dtype=float) for each in (now_ph, end_ph, ready_ph))
    room = np.maximum(now - end, 1e-6)
    with np.errstate(divide="ignore", invalid="ignore"):
        per_d = np.log((np.asarray(start_ph, dtype=float) - end) / room) / np.asarray(day_d, dtype=float)
        left = np.log(room / (ready - end)) / per_d
    return keep_shape(np.asarray(np.where(now <= ready, 0.0, np.where(per_d > 0.0, left, np.inf))))


def is_stalled(readings: tuple[tuple[float, float], ...], *, ready_ph: float) -> bool:
    """Whether a culture has stopped short: two days or more without a tenth of a unit, and not sour enough yet."""
    if len(readings) < 2:
        return False
    (before_d, before_ph), (last_d, last_ph) = readings[-2:]
    return last_ph > ready_ph and last_d - before_d >= 2.0 and before_ph - last_ph < 0.1 - math.ulp(1.0)
