"""`science.inoculum.schedule`: dates backwards and forwards, against custom and published times."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.base.figure import recomputed
from sourloam.science.inoculum.schedule import LINKS, days_ahead, schedule_backwards, schedule_forwards, step_days
from sourloam.science.inoculum.serum import days_at
from tests.science.inoculum.chain_parameters import PARAMETERS

NEEDED = date(2027, 3, 1)
ROOMS = st.floats(10.0, 31.0)  # below the best temperature of every member
LINK = st.sampled_from(LINKS)
NAMED = (
    ("rice", PARAMETERS.rice_wash_at_20c_d.value),
    ("milk", PARAMETERS.milk_at_20c_d.value),
    ("bran", PARAMETERS.bran_at_20c_d.value),
)
CARDINAL = {
    "least_c": PARAMETERS.least_c.value,
    "best_c": PARAMETERS.best_c.value,
    "most_c": PARAMETERS.most_c.value,
}


@pytest.mark.parametrize("room_c", [18.0, 19.0, 20.0])
def test_the_chain_begins_about_five_weeks_ahead(room_c):
    # Common practice, no source: about five weeks; "about" is taken as a week either way.
    assert days_ahead(room_c, PARAMETERS).value == pytest.approx(5 * 7, abs=7)


def test_a_kitchen_at_17_degrees_starts_rice_water_in_the_second_half_of_january():
    # Common practice, no source.
    first = schedule_backwards(NEEDED, 17.0, PARAMETERS).first_on
    assert date(2027, 1, 15) <= first <= date(2027, 1, 31)


@pytest.mark.parametrize("room_c", [20.0, 22.0, 25.0])
def test_steps_in_a_warm_room_last_as_long_as_custom_says(room_c):
    # Common practice, no source: rice water 2 to 5 days, milk some days more (5 to 7), bran 14 days packed and warm.
    days = {name: days_at(at, room_c, **CARDINAL) for name, at in NAMED}
    assert 2.0 <= days["rice"] <= 5.0
    assert days["rice"] < days["milk"] <= 7.5
    assert 9 <= round(days["bran"]) <= 15  # counted in whole days, within five of the custom


@pytest.mark.parametrize(("room_c", "least", "most"), [(28.0, 2.0, 3.0), (20.0, 4.0, 5.0)])
def test_rice_water_sours_as_fast_as_was_published_for_soaked_rice(room_c, least, most):
    # lu_rice_soaking, read at second hand: 2 to 3 days in summer, 4 to 5 in winter. It names no temperatures; 28 °C
    # and 20 °C are taken for its two seasons.
    assert least <= days_at(PARAMETERS.rice_wash_at_20c_d.value, room_c, **CARDINAL) <= most


def test_cold_holds_a_fermentation_back_as_much_as_was_published():
    # sardine_molasses2002: pH 4.4 after 14 days at 25 °C; at 15 °C not even 5.5 within 30 days.
    at_20c = 14.0 / days_at(1.0, 25.0, **CARDINAL)
    assert days_at(at_20c, 15.0, **CARDINAL) > 30.0


@given(ROOMS, st.floats(0.0, 5.0))
def test_warmer_is_never_slower(room_c, more):
    warm = step_days(min(room_c + more, 31.0), PARAMETERS)
    assert all(fast <= slow for fast, slow in zip(warm, step_days(room_c, PARAMETERS), strict=True))


@given(ROOMS, LINK, st.integers(0, 3000), st.sampled_from([0.5, 0.95]))
def test_forwards_from_where_backwards_begins_ends_on_the_same_day(room_c, link, shift, quantile):
    usable = NEEDED + timedelta(days=shift)
    back = schedule_backwards(usable, room_c, PARAMETERS, from_link=link, quantile=quantile)
    assert back.usable_on == usable
    assert schedule_forwards(back.first_on, room_c, PARAMETERS, from_link=link, quantile=quantile) == back


@given(ROOMS)
def test_a_later_link_never_begins_earlier(room_c):
    rice, milk, serum = (schedule_backwards(NEEDED, room_c, PARAMETERS, from_link=link) for link in LINKS)
    assert rice.first_on < milk.first_on < serum.first_on == serum.mix_on
    assert rice.mix_on == milk.mix_on == serum.mix_on
    assert (serum.rice_wash_on, serum.milk_on, serum.serum_on) == (None, None, None)
    assert milk.rice_wash_on is None
    assert rice.milk_on == milk.milk_on


@given(ROOMS)
def test_the_steps_come_in_the_order_of_making(room_c):
    made = schedule_backwards(NEEDED, room_c, PARAMETERS)
    days = [made.rice_wash_on, made.milk_on, made.serum_on, made.mix_on, made.dry_on, made.usable_on]
    assert days == sorted(set(days))


def test_a_surer_schedule_begins_earlier():
    usual = schedule_backwards(NEEDED, 18.0, PARAMETERS)
    assert schedule_backwards(NEEDED, 18.0, PARAMETERS, quantile=0.95).first_on < usual.first_on


@pytest.mark.parametrize("link", LINKS)
def test_the_days_ahead_recompute_from_their_leaves(link):
    days = days_ahead(18.0, PARAMETERS, from_link=link)
    assert np.array_equal(recomputed(days), days.members)


def test_days_never_end_where_nothing_grows():
    assert days_at(14.0, 2.0, **CARDINAL) == np.inf


@pytest.mark.parametrize("room_c", [5.0, 45.0, float("nan")])
def test_a_room_in_which_the_culture_rests_is_refused(room_c):
    with pytest.raises(OutOfRange, match=r"^room_c = .* °C is outside 10 to 38 °C: the culture hardly moves there"):
        schedule_backwards(NEEDED, room_c, PARAMETERS)


def test_a_quantile_that_is_no_share_is_refused():
    with pytest.raises(OutOfRange, match=r"^quantile = 95 is outside 0 to 1: it is a share"):
        step_days(20.0, PARAMETERS, quantile=95.0)
