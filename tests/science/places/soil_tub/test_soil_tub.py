"""`science.places.soil_tub`: filled once, rested, emptied."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.fields import Reading, read_record
from sourloam.science.places.soil_tub.place import tub_room_l
from sourloam.science.places.soil_tub.soil_tub import SoilTub
from tests.science.places.setting import (
    COLD,
    EMPTY,
    MILD,
    PRODUCTS,
    RUNS,
    SOIL_TUB,
    SPRING,
    WINTER,
    bucket,
    climate,
    fed,
    flat,
    soil_tub,
)


def _offer(place, product=None, on=SPRING, weather=MILD, state=EMPTY):
    return place.can_take(state, product or bucket(), on, climate=weather)


@given(product=PRODUCTS, volume_l=st.floats(5.0, 500.0))
def test_a_tub_holds_two_to_three_parts_of_soil_to_one_of_product(product, volume_l):
    # Common practice: one part to two or three of soil.
    took_l = product.volume_l * _offer(soil_tub(volume_l), product).takes_kg / product.mass_kg
    assert took_l <= volume_l / 3.0
    if took_l < product.volume_l * (1.0 - 1e-9):
        assert took_l >= volume_l / 4.0


@given(volume_l=st.floats(1.0, 2000.0), parts=st.floats(0.5, 10.0))
def test_product_and_soil_fill_the_tub(volume_l, parts):
    product = tub_room_l(volume_l, parts)
    assert product * (1.0 + parts) == pytest.approx(volume_l)


@given(run=RUNS)
def test_a_tub_never_holds_two_batches_at_once(run):
    state, _ = fed(soil_tub(), run)
    for earlier, later in zip(state.receipts, state.receipts[1:], strict=False):
        assert later.on >= earlier.usable_on


def test_indoors_at_20_degrees_it_takes_the_four_weeks_that_custom_says():
    place = soil_tub(stands="indoors")
    offer = _offer(place)
    assert offer.wait_d == pytest.approx(28, abs=1)
    state, effect = place.after(EMPTY, bucket(), offer.takes_kg, SPRING, climate=MILD)
    assert place.free_on(state, climate=MILD) == effect.usable_on
    busy = _offer(place, on=effect.usable_on - timedelta(days=1), state=state)
    assert busy.takes_kg == 0.0
    assert busy.limit.startswith("resting until ")
    assert _offer(place, on=effect.usable_on, state=state).takes_kg == offer.takes_kg


@given(indoors_c=st.floats(8.0, 25.0), colder_k=st.floats(0.0, 10.0))
def test_a_colder_room_never_finishes_sooner(indoors_c, colder_k):
    place = soil_tub(stands="indoors")
    rooms = (climate(indoors_c=indoors_c), climate(indoors_c=max(indoors_c - colder_k, -5.0)))
    warm, cold = (place.after(EMPTY, bucket(), 5.0, SPRING, climate=each)[1].usable_on for each in rooms)
    assert cold >= warm


def test_frozen_soil_in_a_tub_takes_nothing_and_a_cool_one_does():
    assert _offer(soil_tub(), on=WINTER, weather=COLD).limit == "its soil is frozen"
    assert _offer(soil_tub(), on=WINTER, weather=COLD).takes_kg == 0.0
    assert _offer(soil_tub(stands="kitchen"), on=WINTER, weather=COLD).takes_kg == 15.0
    assert _offer(soil_tub(), weather=flat(3.0)).takes_kg == 15.0


def test_a_tub_that_got_nothing_has_always_been_free():
    assert soil_tub().free_on(EMPTY, climate=MILD) == date.min


def test_a_tub_is_read_with_its_assumption_and_a_wrong_one_is_refused():
    reading = Reading()
    read = read_record(SoilTub, {"id": "tub", "volume": "70 L"}, where="soil_tub", path=(), reading=reading)
    assert (read.volume_l, read.stands) == (70.0, "outdoors")
    assert [each.says for each in reading.assumptions] == ["It stands outdoors."]
    wrong = Reading()
    assert read_record(SoilTub, {"id": "tub", "volume": "1 L"}, where="soil_tub", path=(), reading=wrong) is None
    assert "smaller ones dry out, larger ones are a bed." in str(wrong.problems[0])


def test_the_share_of_soil_keeps_to_custom():
    assert 2.0 <= SOIL_TUB.soil_per_product.value <= 3.0
