"""`draw.scale`: days and amounts in their places."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.draw.scale import LengthScale, TimeScale, day_words, months, round_up, span_words, ticks

DAYS = st.dates(date(2020, 1, 1), date(2035, 1, 1))


@given(DAYS, st.integers(0, 800))
def test_months_cover_every_day_once(first, more):
    last = first + timedelta(days=more)
    found = list(months(first, last))
    assert found[0].first == first
    assert found[-1].last == last
    assert all(after.first - before.last == timedelta(days=1) for before, after in pairwise(found))
    assert all((each.first.year, each.first.month) == (each.last.year, each.last.month) for each in found)


@given(DAYS, st.integers(1, 800))
def test_days_are_equally_long_and_fill_the_scale(first, more):
    last = first + timedelta(days=more)
    time = TimeScale(first, last, 50.0, 850.0)
    assert time.at(first) == 50.0
    assert time.past(last) == pytest.approx(850.0)
    assert time.past(first) - time.at(first) == pytest.approx(time.px_per_day)
    assert time.at(first - timedelta(days=9)) == 50.0
    assert time.at(last + timedelta(days=9)) == 850.0


@given(st.floats(0.0, 1e4), st.floats(0.01, 1e4), st.integers(2, 9))
def test_ticks_are_few_and_inside(low, wide, most):
    found = ticks(low, low + wide, most)
    assert len(found) <= most
    assert all(low - 1e-6 * wide <= each <= low + wide * (1.0 + 1e-6) for each in found)


@pytest.mark.parametrize(
    ("low", "high", "most", "found"),
    [
        (0.0, 4.0, 5, (0.0, 1.0, 2.0, 3.0, 4.0)),
        (0.0, 100.0, 3, (0.0, 50.0, 100.0)),
        (3.5, 7.0, 5, (4.0, 5.0, 6.0, 7.0)),
    ],
)
def test_ticks_are_round(low, high, most, found):
    assert ticks(low, high, most) == pytest.approx(found)


@given(st.floats(1e-6, 1e6))
def test_the_end_of_an_axis_is_above_and_near_its_largest_value(value):
    assert value * (1.0 - 1e-6) <= round_up(value) <= 2.0 * value * (1.0 + 1e-6)


def test_an_axis_may_run_upwards():
    up = LengthScale(0.0, 4.0, 100.0, 60.0)
    assert (up.at(0.0), up.at(4.0), up.px_per_unit) == (100.0, 60.0, 10.0)


def test_days_are_written_with_their_month_and_do_not_break():
    assert day_words(date(2026, 10, 13)) == "13\u00a0Oct"
    assert span_words(date(2027, 1, 1), date(2027, 1, 4)) == "1 to 4\u00a0Jan"
    assert span_words(date(2026, 12, 28), date(2027, 1, 4)) == "28\u00a0Dec to 4\u00a0Jan"
    assert span_words(date(2027, 1, 1), date(2027, 1, 1)) == "1\u00a0Jan"
