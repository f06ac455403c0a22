"""The score of an interval, by its formula and by what must hold of it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest, norm

from validation.score import (
    OUTSIDE,
    Interval,
    binomial,
    covered,
    interval_score,
    mean_by_study,
    miss,
    resampled,
    score_of,
)
from validation.studies import Observed

SAID = Interval(3.8, 4.0, 4.3)


def seen(low, high=None, bound="", quantity="ph"):
    return Observed(10.0, quantity, low, low if high is None else high, bound)


@pytest.mark.parametrize(("value", "want"), [(4.0, 0.5), (3.8, 0.5), (4.5, 0.5 + 20 * 0.2), (3.7, 0.5 + 20 * 0.1)])
def test_a_value_costs_the_width_and_twenty_times_what_it_lies_outside(value, want):
    """The formula of Gneiting & Raftery (2007), equation 43, at a tenth outside, worked by hand."""
    assert interval_score(3.8, 4.3, value) == pytest.approx(want)
    assert score_of(SAID, seen(value)) == pytest.approx(want)


def test_no_interval_scores_better_than_the_true_one():
    """The score is proper: for a normal value the quantiles of that very curve cost least."""
    values = norm.ppf((np.arange(2000) + 0.5) / 2000)
    ends = norm.ppf((OUTSIDE / 2, 1 - OUTSIDE / 2))

    def mean(low, high):
        return np.mean([interval_score(low, high, each) for each in values])

    best = mean(*ends)
    assert all(mean(ends[0] * a, ends[1] * b) > best for a, b in ((0.8, 0.8), (1.2, 1.2), (0.8, 1.2), (1.2, 0.8)))


def test_a_printed_range_is_two_values_of_half_a_weight():
    assert score_of(SAID, seen(4.0, 4.5)) == pytest.approx(0.5 * (0.5 + 4.5))
    assert covered(SAID, seen(4.0, 4.5)) == 0.5


@pytest.mark.parametrize(
    ("bound", "value", "want", "held"),
    [
        ("at most", 4.5, 0.0, 1.0),
        ("at most", 4.0, 0.3, 1.0),
        ("at most", 3.5, 0.5 + 20 * 0.3, 0.0),
        ("at least", 3.5, 0.0, 1.0),
        ("at least", 4.0, 0.2, 1.0),
        ("at least", 4.6, 0.5 + 20 * 0.3, 0.0),
    ],
)
def test_what_is_known_from_one_side_charges_that_side_alone(bound, value, want, held):
    assert score_of(SAID, seen(value, bound=bound)) == pytest.approx(want)
    assert covered(SAID, seen(value, bound=bound)) == held


def test_a_miss_has_a_direction():
    assert miss(SAID, seen(3.5)) == pytest.approx(0.5)
    assert miss(SAID, seen(4.2, 4.5)) == pytest.approx(-0.2)
    assert miss(SAID, seen(4.5, bound="at most")) == 0.0


def test_amounts_are_brought_to_the_scale_of_a_ph():
    said = Interval(5.0, 8.0, 15.0)
    assert score_of(said, seen(8.0, quantity="lactic_g_per_kg")) == pytest.approx(1.0)


def test_a_study_weighs_as_much_as_another_however_many_points_it_has():
    assert mean_by_study(np.array([1.0, 1.0, 1.0, 3.0]), ["a", "a", "a", "b"]) == 2.0


def test_whole_studies_are_drawn_anew():
    values, alike = np.array([1.0] * 10 + [0.0] * 10), [f"s{i}" for i in range(20)]
    low, high = resampled(values, alike)
    assert 0.2 < low < 0.45
    assert 0.55 < high < 0.8
    few = resampled(values, ["a"] * 10 + ["b"] * 10)
    assert few == (0.0, 1.0)


@given(st.integers(1, 200), st.data())
def test_the_binomial_interval_agrees_with_another_library(count, data):
    right = data.draw(st.integers(0, count))
    theirs = binomtest(right, count).proportion_ci(0.9, method="wilson")
    assert binomial(right / count, count) == pytest.approx((theirs.low, theirs.high), abs=1e-9)
