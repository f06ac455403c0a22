"""`science.climate.series`: the months are kept, days are averaged, gaps are bridged or refused."""

from datetime import date, timedelta
from itertools import accumulate, pairwise
from statistics import fmean

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from sourloam.base.errors import BadInput, OutOfRange
from sourloam.science.climate.series import DayRange, monthly_means_c, smooth_year, typical_year

DUBLIN_C = (6.0, 5.9, 7.2, 8.8, 11.4, 14.0, 15.8, 15.7, 13.8, 11.1, 8.2, 6.4)
MONTHS = st.lists(st.floats(-30.0, 35.0), min_size=12, max_size=12)
ORDINARY = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
LEAP = (31, 29, *ORDINARY[2:])


def _days(first, count, low_c=2.0, high_c=12.0):
    return [DayRange(first + timedelta(days=each), low_c, high_c) for each in range(count)]


@given(months=MONTHS)
def test_every_month_keeps_its_mean_in_both_lengths_of_year(months):
    year = smooth_year(months)
    for days, lengths in ((year.ordinary_c, ORDINARY), (year.leap_c, LEAP)):
        means = [fmean(days[first:last]) for first, last in pairwise([0, *accumulate(lengths)])]
        assert means == pytest.approx(months, abs=1e-9)
    assert monthly_means_c(year.ordinary_c) == pytest.approx(months, abs=1e-9)


@given(months=MONTHS)
def test_the_curve_is_the_periodic_spline_of_scipy(months):
    ends = np.array([0, *accumulate(ORDINARY)], dtype=float)
    sums = np.array([0.0, *accumulate(mean * days for mean, days in zip(months, ORDINARY, strict=True))])
    trend = sums[-1] / 365
    away = sums - trend * ends
    away[-1] = away[0]  # the same, but for rounding
    spline = CubicSpline(ends, away, bc_type="periodic")
    assert smooth_year(months).ordinary_c == pytest.approx(trend + np.diff(spline(np.arange(366))), abs=1e-8)


@given(months=MONTHS)
def test_the_year_runs_on_into_the_next_without_a_jump(months):
    days = smooth_year(months).ordinary_c
    bends = np.abs(np.diff(np.array([*days, *days[:2]]), 2))  # how fast the change from day to day changes
    assert max(bends[-2:]) <= max(bends[:-2]) + 1e-9


def test_a_year_of_one_temperature_stays_so():
    assert smooth_year([10.0] * 12).leap_c == pytest.approx([10.0] * 366)


def test_a_smooth_year_does_not_swing_between_months():
    days = smooth_year(DUBLIN_C).ordinary_c
    way = sum(abs(later - sooner) for sooner, later in pairwise([*days, days[0]]))
    assert way < 2 * (max(days) - min(days)) + 0.1  # once up and once down
    assert min(days) > min(DUBLIN_C) - 0.5
    assert max(days) < max(DUBLIN_C) + 0.5


@pytest.mark.parametrize("count", [0, 11, 13])
def test_other_than_twelve_months_are_refused(count):
    with pytest.raises(BadInput, match=rf"^climate: monthly means: there are {count} values\. Write twelve, January"):
        smooth_year([10.0] * count)


@pytest.mark.parametrize("mean", [-61.0, 70.0, float("nan")])
def test_a_month_that_is_none_is_refused(mean):
    with pytest.raises(OutOfRange, match=r"^monthly_mean_c = .* is outside -60 to 50 °C: no garden has such a month"):
        smooth_year([10.0] * 11 + [mean])


@pytest.mark.parametrize(
    ("first", "count"), [(date(2023, 1, 1), 365), (date(2024, 1, 1), 366), (date(2023, 7, 1), 366)]
)
def test_a_year_of_days_is_the_middle_of_each_day(first, count):
    year = typical_year(_days(first, count))
    assert year.ordinary_c == pytest.approx([7.0] * 365)
    assert year.leap_c == pytest.approx([7.0] * 366)


def test_several_years_are_averaged_by_calendar_day():
    days = _days(date(2022, 1, 1), 365, 0.0, 10.0) + _days(date(2023, 1, 1), 365, 4.0, 14.0)
    assert typical_year(days).ordinary_c == pytest.approx([7.0] * 365)


def test_an_absent_leap_day_lies_between_its_neighbours():
    rising = [DayRange(date(2023, 1, 1) + timedelta(days=each), each / 10, each / 10) for each in range(365)]
    year = typical_year(rising)
    assert year.leap_c[59] == pytest.approx((year.leap_c[58] + year.leap_c[60]) / 2)
    assert year.leap_c[:59] + year.leap_c[60:] == year.ordinary_c


def test_three_days_are_bridged_by_a_straight_line():
    days = [DayRange(date(2023, 1, 1) + timedelta(days=each), each / 10, each / 10) for each in range(365)]
    bridged = typical_year(days[:100] + days[103:])
    assert bridged.ordinary_c == pytest.approx(typical_year(days).ordinary_c)


def test_a_gap_is_bridged_around_the_new_year():
    days = _days(date(2023, 1, 1), 365)
    assert typical_year(days[1:-2]).ordinary_c == pytest.approx([7.0] * 365)


def test_four_missing_days_are_refused_with_their_dates():
    days = _days(date(2023, 1, 1), 365)
    with pytest.raises(BadInput, match=r"^climate: 1 Mar to 4 Mar: 4 days are missing\. At most 3 in a row can be"):
        typical_year(days[:59] + days[63:])


def test_every_long_gap_is_told_at_once():
    days = _days(date(2023, 1, 1), 365)
    with pytest.raises(BadInput) as caught:
        typical_year(days[4:100] + days[110:])
    assert [each.where for each in caught.value.problems] == ["11 Apr to 20 Apr", "1 Jan to 4 Jan"]


def test_no_days_at_all_are_refused():
    with pytest.raises(BadInput, match=r"^climate: there is no day in it\. It needs every day of a year\.$"):
        typical_year([])


def test_a_day_whose_least_is_above_its_greatest_is_refused():
    with pytest.raises(BadInput, match=r"2023-01-01: the least, 12 °C, is above the greatest, 2 °C\. Write the least"):
        typical_year(_days(date(2023, 1, 1), 365, 12.0, 2.0))


def test_a_day_that_is_too_hot_is_refused():
    with pytest.raises(OutOfRange, match=r"^temperature of 2023-01-01 = 71 °C is outside -60 to 50 °C"):
        typical_year(_days(date(2023, 1, 1), 365, 50.0, 71.0))
