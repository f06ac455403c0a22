"""From one time to the next: an embedded pair of orders 3 and 2 (bogacki1989) with its own step.

A step that would leave an amount below nothing is taken again at half its
length. Plain Python over arrays of floats, for a compiler to take as it stands.
"""

import math

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.layer.change import change
from sourloam.science.ferment.layer.state import LN_FROM, SIZE, STRONG, Flora, Place, State

SMALLEST: float = 1e-6  # of an amount, below which errors do not count
LEAST_H: float = 1e-4
STEADY: float = 1e-12  # below nothing by less is nothing


def state_of(y: FloatArray) -> State:
    """Return an array as a state."""
    return State(
        y[0], y[1], y[2], y[3], y[4], y[5], y[6], y[7], y[8], y[9], y[10], y[11], y[12],
        y[13], y[14], y[15], y[16], y[17], y[18], y[19], y[20], y[21], y[22], y[23], y[24],
    )  # fmt: skip


def into(rates: FloatArray, y: FloatArray, place: Place, flora: Flora, *, near: float) -> float:
    """Put the change in an hour into `rates`; return the logarithm of protons."""
    moved, ln_h = change(state_of(y), place, flora, near)
    for i in range(SIZE):
        rates[i] = moved[i]
    return ln_h


def worst_error(before: FloatArray, after: FloatArray, rates: FloatArray, *, h: float, tolerance: float) -> float:
    """Return the largest error of a step against what is allowed; endless where an amount fell below nothing."""
    worst = 0.0
    for i in range(SIZE):
        error = h * abs(
            -5.0 / 72.0 * rates[0, i] + 1.0 / 12.0 * rates[1, i] + 1.0 / 9.0 * rates[2, i] - 0.125 * rates[3, i]
        )
        scale = tolerance if i >= LN_FROM else SMALLEST + tolerance * max(abs(before[i]), abs(after[i]))
        worst = max(worst, error / scale)
        if i < LN_FROM and i != STRONG and after[i] < min(before[i], 0.0) - STEADY:
            worst = max(worst, 8.0)  # to be taken again at less than half
    return worst


def through(
    y: FloatArray, place: Place, flora: Flora, *, hours: float, near: float, step_h: float, tolerance: float
) -> tuple[float, float]:
    """Take a layer through some hours, in `y` itself.

    Returns the logarithm of protons and the step to begin the next time with.
    """
    rates, trial = np.empty((4, SIZE)), np.empty(SIZE)
    t, ln_h = 0.0, into(rates[0], y, place, flora, near=near)
    while hours - t > 1e-9:
        h = min(step_h, hours - t)
        for i in range(SIZE):
            trial[i] = y[i] + 0.5 * h * rates[0, i]
        into(rates[1], trial, place, flora, near=ln_h)
        for i in range(SIZE):
            trial[i] = y[i] + 0.75 * h * rates[1, i]
        into(rates[2], trial, place, flora, near=ln_h)
        for i in range(SIZE):
            trial[i] = y[i] + h * (2.0 * rates[0, i] + 3.0 * rates[1, i] + 4.0 * rates[2, i]) / 9.0
        ln_end = into(rates[3], trial, place, flora, near=ln_h)
        worst = worst_error(y, trial, rates, h=h, tolerance=tolerance)
        if worst > 1.0 and h > LEAST_H:
            step_h = max(h * max(0.2, 0.9 * math.pow(worst, -1.0 / 3.0)), LEAST_H)
            continue
        t += h
        for i in range(SIZE):
            y[i], rates[0, i] = trial[i], rates[3, i]
        ln_h = ln_end
        grown = h * min(4.0, 0.9 * math.pow(max(worst, 1e-4), -1.0 / 3.0))
        step_h = max(step_h, grown) if h < step_h else grown  # a step cut short by the end tells nothing
    return ln_h, step_h
