"""Times a year of a bed for a thousand samples, NumPy over samples, beside a plain loop that does the same."""

import time
from math import exp

import numpy as np
from kernels import TIMES, seconds
from numpy.typing import NDArray

from sourloam.science.places.bed.season import Applied, Rates, pools
from sourloam.science.places.ground.thermal import days_at_20c

SAMPLES, YEAR_D = 1_000, 365
GOAL_S = 0.5
Floats = NDArray[np.float64]


def _samples() -> tuple[Floats, Floats, Floats, Rates, Applied]:
    """Return soil, Q10, the still temperature, rates and what was dug in, all drawn about usual values."""
    stream = np.random.default_rng(1)

    def about(middle: float) -> Floats:
        return middle * np.exp(0.15 * stream.standard_normal(SAMPLES))

    days = np.arange(YEAR_D)
    soil = 11.0 - 7.0 * np.cos(2.0 * np.pi * (days - 30.0) / YEAR_D) + stream.standard_normal((SAMPLES, 1))
    rates = Rates(*(about(each) for each in (0.3, 0.042, 0.05, 0.7, 0.4, 8.0)))
    applied = Applied(*(about(each) for each in (100.0, 15.0, 5.5, 0.4, 0.2)))
    return soil, about(2.0), about(5.0), rates, applied


def lines() -> list[tuple[str, float, float | None]]:
    """Return the lines of the table: what, seconds, goal."""
    soil, q10, stops, rates, applied = _samples()

    def by_numpy() -> object:
        return pools(applied, rates, days_at_20c(soil, q10, stops))

    start = time.perf_counter()
    free = by_loop(soil, q10, stops, rates, applied)
    looped = time.perf_counter() - start
    same = pools(applied, rates, days_at_20c(soil, q10, stops)).free_nitrogen_g[:, -1]
    if not np.allclose(free, same, rtol=1e-9, atol=1e-9):
        raise SystemExit("the loop and NumPy do not agree on the nitrogen of a bed")
    what = f"year of a bed, {SAMPLES} samples, s"
    return [
        (f"{what}, median of {TIMES}", seconds(by_numpy), GOAL_S),
        (f"  a plain loop that does the same, {SAMPLES}", looped, None),
    ]


def by_loop(soil: Floats, q10: Floats, stops: Floats, rates: Rates, applied: Applied) -> list[float]:
    """Return the free nitrogen of the last day of each sample, sample by sample and day by day."""
    found = []
    for at in range(SAMPLES):
        fast_d, slow_d, turn_d, rots, kept, ratio = (float(each[at]) for each in rates)
        carbon, fast, nitrogen, ammonia, frees = (float(each[at]) for each in applied)
        to_come = max(nitrogen * frees - ammonia, 0.0)
        passed, free = 0.0, 0.0
        for warm in soil[at]:
            if warm >= stops[at]:
                passed += float(q10[at]) ** ((float(warm) - 20.0) / 10.0)
            left_fast, left_slow = fast * exp(-fast_d * passed), (carbon - fast) * rots * exp(-slow_d * passed)
            _eaten = fast - left_fast + (carbon - fast) * rots - left_slow
            released = to_come * (1.0 - exp(-slow_d * passed))
            tied = kept * fast / ratio * fast_d / (turn_d - fast_d) * (exp(-fast_d * passed) - exp(-turn_d * passed))
            free = ammonia + released - tied
        found.append(free)
    return found
