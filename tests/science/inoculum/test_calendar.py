"""`science.inoculum.calendar` and `.starts`: dates from any start, what a start spares, when to begin afresh."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.inoculum.calendar import NEEDED, backwards, forwards, named, total_d
from sourloam.science.inoculum.schedule import schedule_backwards, step_figures
from sourloam.science.inoculum.starts import activation_left_d, generations_for, is_stalled
from tests.science.inoculum.culture_known import BENCH, KNOWN

BY = date(2027, 3, 1)
ROOMS = st.floats(12.0, 30.0)
LINKS = sorted(NEEDED)


def steps(room_c, link="rice_wash"):
    return named(step_figures(room_c, KNOWN.inoculum), link)


def test_bran_by_march_in_a_kitchen_at_17_degrees_begins_in_the_second_half_of_january():
    # Common practice, no source.
    assert date(2027, 1, 15) <= backwards(BY, steps(17.0)).start <= date(2027, 1, 31)


def test_it_keeps_the_dates_of_the_plan():
    ours, plans = backwards(BY, steps(17.0)), schedule_backwards(BY, 17.0, KNOWN.inoculum)
    assert abs((ours.start - plans.first_on).days) <= 1


@given(ROOMS, st.sampled_from(LINKS))
def test_backwards_ends_on_the_day_and_forwards_begins_on_it(room_c, link):
    back = backwards(BY, steps(room_c, link))
    assert back.ready == BY
    again = forwards(back.start, steps(room_c, link))
    assert (again.ready, [each.start for each in again.steps]) == (BY, [each.start for each in back.steps])


@given(ROOMS, st.sampled_from(LINKS))
def test_a_safe_start_is_no_later_and_a_last_one_no_earlier(room_c, link):
    back = backwards(BY, steps(room_c, link))
    assert back.safe_start <= back.start
    assert all(each.start <= each.latest_start < BY for each in back.steps)
    assert [each.start for each in back.steps] == sorted(each.start for each in back.steps)


@given(ROOMS)
def test_a_safe_start_is_in_time_in_nine_cases_of_ten(room_c):
    back = backwards(BY, steps(room_c))
    days = (BY - back.safe_start).days
    assert np.mean(back.days.members <= days) >= 0.9


@pytest.mark.parametrize("start", [each.id for each in BENCH.starts if each.id != "rice"])
def test_every_other_start_spares_days(start):
    link = next(each.from_link for each in BENCH.starts if each.id == start)
    assert total_d(steps(20.0, link)).value < total_d(steps(20.0)).value


def test_ready_lies_within_its_span():
    there = forwards(date(2027, 1, 1), steps(20.0))
    assert there.ready_low <= there.ready <= there.ready_high
    assert there.ready - there.start > timedelta(days=20)


@given(st.floats(0.1, 50.0), st.floats(0.05, 0.1))
def test_a_heel_multiplies_by_its_inverse(kg, heel):
    assert generations_for(kg / heel, kg, heel) == 1.0
    assert generations_for(kg / heel**2 * 1.01, kg, heel) == 3.0
    assert generations_for(kg, kg, heel) == 0.0


def test_a_heel_of_nothing_is_refused():
    with pytest.raises(OutOfRange, match=r"^heel_frac = 0 is outside 0\.001 to 0\.999: it is what is kept of a batch"):
        generations_for(8.0, 1.0, 0.0)


WAKING = {"start_ph": 6.0, "end_ph": 3.4, "ready_ph": 3.7}


def test_a_culture_that_is_sour_enough_waits_no_longer():
    assert activation_left_d(3.6, 6.0, **WAKING) == 0.0


@given(st.floats(3.75, 5.5), st.floats(1.0, 14.0))
def test_sourer_on_the_same_day_is_sooner(ph, day):
    assert activation_left_d(ph, day, **WAKING) <= activation_left_d(ph + 0.1, day, **WAKING) + 1e-9


def test_a_culture_that_does_not_fall_never_gets_there():
    assert activation_left_d(6.0, 6.0, **WAKING) == np.inf


@pytest.mark.parametrize(
    ("readings", "stalled"),
    [
        (((4.0, 4.2), (7.0, 4.2)), True),
        (((4.0, 4.2), (5.0, 4.2)), False),
        (((4.0, 4.2), (7.0, 4.0)), False),
        (((4.0, 3.6), (7.0, 3.6)), False),
        (((7.0, 4.2),), False),
    ],
)
def test_two_days_without_a_tenth_are_a_stall(readings, stalled):
    assert is_stalled(readings, ready_ph=3.7) is stalled
