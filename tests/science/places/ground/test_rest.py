"""`science.places.ground.rest`: days of rest by temperature."""

from datetime import date, timedelta
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.ground.rest import LONGEST_D, Rest, rest_d, rested_on, share_of_day
from tests.published import Published
from tests.science.places.setting import BED, START

USUAL = Rest(14.0, 2.0, 5.0)
DAILY_C = st.lists(st.floats(-10.0, 30.0), min_size=60, max_size=60)


def _cycle(daily_c):
    return lambda day: daily_c[(day - START).days % len(daily_c)]


def test_the_q10_of_the_rest_holds_that_of_soil_nitrogen():
    case = Published(
        "stanford_queensland",
        "rates at 25 and 15 °C, per week",
        given=(0.031, 0.018),
        want="1.72",
        within=0.08,
        why="rates printed with two digits leave their ratio 0.08 to either side",
        title="times faster for each 10 °C",
    )
    assert case.given[0] / case.given[1] == pytest.approx(float(case.want), abs=0.005)
    assert BED.rest_q10.low - case.tolerance <= float(case.want) <= BED.rest_q10.high + case.tolerance


@given(temperature_c=st.integers(5, 30))
def test_day_by_day_and_by_the_law_are_the_same_in_even_warmth(temperature_c):
    days = (rested_on(START, lambda _: float(temperature_c), USUAL) - START).days
    assert days == ceil(rest_d(temperature_c, USUAL.at_20c_d, USUAL.q10) - 1e-6)


@given(daily_c=DAILY_C, colder_k=st.floats(0.0, 15.0))
def test_a_colder_year_never_shortens_a_rest(daily_c, colder_k):
    warm = rested_on(START, _cycle(daily_c), USUAL)
    cold = rested_on(START, _cycle([each - colder_k for each in daily_c]), USUAL)
    assert cold >= warm


@given(daily_c=DAILY_C, later_d=st.integers(0, 50))
def test_what_is_given_later_is_rested_no_sooner(daily_c, later_d):
    later = START + timedelta(days=later_d)
    assert rested_on(later, _cycle(daily_c), USUAL) >= rested_on(START, _cycle(daily_c), USUAL)


def test_ten_degrees_colder_doubles_a_rest_where_the_q10_is_two():
    assert rest_d([10.0, 20.0, 30.0], 14.0, 2.0) == pytest.approx([28.0, 14.0, 7.0])


def test_soil_that_never_warms_ends_the_search_after_three_years():
    assert rested_on(START, lambda _: 4.9, USUAL) == START + timedelta(days=LONGEST_D)


def test_a_day_below_the_stop_is_worth_nothing():
    assert share_of_day(4.99, USUAL) == 0.0
    assert share_of_day(20.0, USUAL) == 1.0


@pytest.mark.parametrize("soil_c", [4.9, 41.0, float("nan")])
def test_the_law_is_refused_where_it_was_never_meant(soil_c):
    with pytest.raises(OutOfRange, match=r"^soil_c = .* is outside 5 to 40 °C: in colder soil a rest does not pass"):
        rest_d(soil_c, 14.0, 2.0)


def test_a_rest_begun_in_the_warm_half_of_the_day_list_is_found_on_the_right_day():
    warm_from = date(2027, 3, 11)
    found = rested_on(START, lambda day: 20.0 if day >= warm_from else 0.0, USUAL)
    assert found == date(2027, 3, 25)
