"""The compiled life serves demands for a whole vessel as the Erlang-B formula says, whatever the law of service.

The formula is that of A. K. Erlang (1917) for lost calls, computed by its usual recursion; scipy's Poisson law gives it
once more, since B(c, a) is the chance of c among at most c.
"""

import math

import numpy as np
import pytest
from scipy import stats

from sourloam.fleet.chance import stream_of
from sourloam.fleet.kernel import serve
from sourloam.fleet.rows import held_of
from tests.fleet.worlds import opened, vessels, world_of

RUNS, DEMANDS = 100, 100_000  # ten million demands
PER_D = 3.0
LAWS = {
    "exponential": lambda stream, mean, size: stream.exponential(mean, size),
    "fixed": lambda stream, mean, size: np.full(size, mean),
    "uniform": lambda stream, mean, size: stream.uniform(0.0, 2.0 * mean, size),
}


def erlang_b(vessels_, offered):
    """Return the part of demands that is lost."""
    lost = 1.0
    for each in range(1, vessels_ + 1):
        lost = offered * lost / (each + offered * lost)
    return lost


def lost_frac(run, count, *, offered, law):
    """Return the part of demands lost in one run that starts empty; the first tenth is not counted."""
    stream = stream_of(9, run, f"demands {count} {law}")
    held = held_of(opened(world_of(vessels(count), ())), 1, 1.0)
    first = DEMANDS // 10
    times = np.cumsum(stream.exponential(1.0 / PER_D, first + DEMANDS))
    takes = LAWS[law](stream, offered / PER_D, times.size)
    serve(held, times[:first], takes[:first])
    return serve(held, times[first:], takes[first:]) / DEMANDS


@pytest.mark.parametrize(("count", "offered"), [(3, 1.5), (5, 2.0), (12, 6.0)])
def test_the_formula_and_a_general_library_agree(count, offered):
    poisson = stats.poisson(offered)
    assert erlang_b(count, offered) == pytest.approx(poisson.pmf(count) / poisson.cdf(count))


@pytest.mark.parametrize("law", LAWS)
@pytest.mark.parametrize(("count", "offered"), [(3, 1.5), (8, 4.0)])
def test_ten_million_demands_are_lost_as_often_as_erlang_says(count, offered, law):
    found = np.array([lost_frac(run, count, offered=offered, law=law) for run in range(RUNS)])
    z = (found.mean() - erlang_b(count, offered)) / (found.std(ddof=1) / math.sqrt(RUNS))
    assert abs(z) < 3.0
    assert found.mean() == pytest.approx(erlang_b(count, offered), rel=0.01)
