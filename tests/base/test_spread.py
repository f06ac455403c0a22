"""`base.spread` against the distributions of scipy, and by what its members must keep."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from sourloam.base.spread import NINETY, Spread

SHARES = np.linspace(0.005, 0.995, 100)  # where the members of an ensemble of 100 lie
ORDERED = st.lists(st.floats(0.01, 1000.0), min_size=3, max_size=3).map(sorted)
SHAPES = st.sampled_from(["normal", "lognormal", "uniform"])


def drawn(spread, *, count=100, name="rest", seed=7):
    return spread.members(count, name=name, seed=seed)


def test_half_the_width_of_a_ninety_percent_interval_is_that_of_scipy():
    assert stats.norm.ppf(0.95) == pytest.approx(NINETY, rel=1e-15)


@pytest.mark.parametrize(
    ("spread", "reference"),
    [
        (Spread(10.0, 8.0, 12.0, "normal"), stats.norm(10.0, 2.0 / stats.norm.ppf(0.95))),
        (Spread(10.0, 5.0, 20.0, "lognormal"), stats.lognorm(np.log(2.0) / stats.norm.ppf(0.95), scale=10.0)),
        (Spread(10.0, 8.0, 12.0, "uniform"), stats.uniform(8.0, 4.0)),
    ],
    ids=lambda each: getattr(each, "shape", ""),
)
def test_members_lie_where_scipy_has_their_shares(spread, reference):
    assert np.sort(drawn(spread)) == pytest.approx(reference.ppf(SHARES), rel=1e-9)


@given(ends=ORDERED, shape=SHAPES)
def test_a_lopsided_spread_keeps_its_median(ends, shape):
    low, median, high = ends
    members = drawn(Spread(median, low, high, shape))
    slack = 1e-12 * median  # of the way to logarithms and back
    assert np.sum(members < median - slack) <= 50
    assert np.sum(members > median + slack) <= 50


@given(ends=ORDERED)
def test_a_uniform_spread_never_leaves_its_interval(ends):
    low, median, high = ends
    members = drawn(Spread(median, low, high, "uniform"))
    assert np.all((members >= low) & (members <= high))


@given(ends=ORDERED, shape=st.sampled_from(["normal", "lognormal"]))
def test_nine_members_in_ten_lie_within_the_interval(ends, shape):
    low, median, high = ends
    members = drawn(Spread(median, low, high, shape))
    slack = 1e-9 * high
    assert np.sum((members >= low - slack) & (members <= high + slack)) >= 90


@given(ends=ORDERED)
def test_a_lognormal_spread_stays_above_nothing(ends):
    low, median, high = ends
    assert np.all(drawn(Spread(median, low, high, "lognormal")) > 0.0)


@given(ends=ORDERED, shape=SHAPES, seed=st.integers(0, 2**32))
def test_the_same_name_and_seed_give_the_same_members(ends, shape, seed):
    spread = Spread(ends[1], ends[0], ends[2], shape)
    assert np.array_equal(drawn(spread, seed=seed), drawn(spread, seed=seed))


def test_the_name_decides_the_order_and_so_does_the_seed():
    spread = Spread(10.0, 8.0, 12.0, "normal")
    first = drawn(spread, name="one")
    assert not np.array_equal(first, drawn(spread, name="two"))
    assert not np.array_equal(first, drawn(spread, name="one", seed=8))


def test_two_values_of_different_names_are_independent():
    spread = Spread(0.0, -1.0, 1.0, "normal")
    one, two = (drawn(spread, count=2000, name=name) for name in ("one", "two"))
    assert abs(stats.pearsonr(one, two).statistic) < 0.1  # four standard errors of 2000 pairs


def test_two_values_that_share_a_name_share_their_members():
    one = drawn(Spread(10.0, 8.0, 12.0, "normal"), name="warmth")
    two = drawn(Spread(100.0, 80.0, 120.0, "normal"), name="warmth")
    assert 10.0 * one == pytest.approx(two)


def test_a_fixed_spread_is_one_value_over_and_over():
    assert set(drawn(Spread.exactly(3.5))) == {3.5}


@pytest.mark.parametrize("ends", [(1.0, 2.0, 3.0), (3.0, 1.0, 2.0), (float("nan"), 1.0, 2.0), (1.0, float("nan"), 2.0)])
def test_ends_that_do_not_rise_are_refused(ends):
    with pytest.raises(ValueError, match=r"^low .*, median .* and high .* must rise$"):
        Spread(*ends)


def test_a_lognormal_spread_that_reaches_nothing_is_refused():
    with pytest.raises(ValueError, match=r"^a lognormal spread needs a low end above 0$"):
        Spread(1.0, 0.0, 2.0, "lognormal")
