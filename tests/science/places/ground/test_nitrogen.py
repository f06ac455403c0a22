"""`science.places.ground.nitrogen` against the caps of rules, and by its own law."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.ground.nitrogen import area_for_nitrogen_m2, next_room_on, room_for_nitrogen_g
from sourloam.science.places.offer import PlaceState, Receipt
from tests.published import Published
from tests.science.places.setting import BED, START, bucket

HECTARE_M2, KG_G = 10_000.0, 1000.0
CAPS = [
    Published("eu_nitrates", "manure, per hectare and year", given=(170.0,), want="17.0"),
    Published("uk_nvz", "organic manures, per hectare in 12 months", given=(250.0,), want="25.0"),
]
# The two caps were read; the area of a bucket follows from them by division alone.
BUCKETS = [
    Published("eu_nitrates", "area of a bucket of 15 kg", given=(170.0,), want="5.515"),
    Published("uk_nvz", "area of a bucket of 15 kg", given=(250.0,), want="3.750"),
]
GIVEN = st.lists(st.tuples(st.integers(0, 900), st.floats(0.0, 200.0)), max_size=10)


@pytest.mark.parametrize(
    ("case", "cap"),
    [(CAPS[0], BED.nitrogen_cap_g_per_m2), (CAPS[1], BED.nitrogen_most_g_per_m2)],
    ids=["eu_nitrates", "uk_nvz"],
)
def test_the_caps_are_those_of_the_rules(case, cap):
    assert case.given[0] * KG_G / HECTARE_M2 == pytest.approx(float(case.want))
    assert cap.value == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize("case", BUCKETS, ids=str)
def test_a_bucket_needs_the_area_that_the_caps_ask_for(case):
    cap = case.given[0] * KG_G / HECTARE_M2
    assert area_for_nitrogen_m2(bucket().nitrogen_g, cap) == pytest.approx(float(case.want), abs=case.tolerance)


@given(nitrogen_g=st.floats(0.0, 1e4), cap=st.floats(0.1, 200.0))
def test_the_area_at_its_cap_holds_the_nitrogen(nitrogen_g, cap):
    assert area_for_nitrogen_m2(nitrogen_g, cap) * cap == pytest.approx(nitrogen_g)


def _ledger(given_g):
    rows = sorted((START + timedelta(days=day), grams) for day, grams in given_g)
    return PlaceState("herbs", tuple(Receipt(day, "blue-1/1", 1.0, 1.0, grams, day) for day, grams in rows))


@given(given_g=GIVEN)
def test_room_is_there_again_on_the_day_that_is_named_and_not_before(given_g):
    state, on = _ledger(given_g), START + timedelta(days=900)
    free = next_room_on(state, on, 10.0, 17.0)
    assert room_for_nitrogen_g(state, free, 10.0, 17.0) > 0.0
    for day in range((free - on).days):
        assert room_for_nitrogen_g(state, on + timedelta(days=day), 10.0, 17.0) == 0.0


def test_a_gift_counts_for_a_year_and_no_longer():
    state = _ledger([(0, 170.0)])
    assert room_for_nitrogen_g(state, START + timedelta(days=364), 10.0, 17.0) == 0.0
    assert room_for_nitrogen_g(state, START + timedelta(days=365), 10.0, 17.0) == 170.0


@pytest.mark.parametrize("cap", [0.0, -17.0, 201.0, float("nan")])
def test_a_cap_that_no_rule_has_is_refused(cap):
    with pytest.raises(OutOfRange, match=r"^cap_g_per_m2 = .* is outside 0.1 to 200 g/m2: no rule allows"):
        area_for_nitrogen_m2(94.0, cap)
