"""All kinds of place by what must hold of every one."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.offer import rough, spoken
from tests.science.places.setting import COLD, DAYS, EVERY, MILD, PRODUCTS, RUNS, START, bucket, fed, opened, owner

PLACES = pytest.mark.parametrize("place", EVERY, ids=lambda each: type(owner(each)).__name__)
WEATHER = st.sampled_from((MILD, COLD))


@PLACES
@given(product=PRODUCTS, on=DAYS, weather=WEATHER)
def test_no_place_takes_more_than_there_is_or_less_than_nothing(place, product, on, weather):
    offer = place.can_take(opened(place), product, on, climate=weather)
    assert 0.0 <= offer.takes_kg <= product.mass_kg
    assert offer.limit
    assert offer.wait_d >= 0.0


@PLACES
@given(run=RUNS, weather=WEATHER)
def test_what_a_place_was_given_is_what_its_ledger_holds(place, run, weather):
    state, placed = fed(place, run, weather)
    booked = [each for each in state.receipts if each.batch]
    assert sum(each.mass_kg for each in booked) == pytest.approx(sum(offer.takes_kg for _, _, offer, _ in placed))
    nitrogen = sum(product.nitrogen_g * offer.takes_kg / product.mass_kg for _, product, offer, _ in placed)
    assert sum(each.nitrogen_g for each in booked) == pytest.approx(nitrogen)
    assert sum(effect.nitrogen_g for *_, effect in placed) == pytest.approx(nitrogen)
    assert [each.on for each in booked] == [day for day, *_ in placed]


@PLACES
@given(run=RUNS, weather=WEATHER)
def test_nothing_is_usable_before_it_was_given_and_the_offer_says_so_beforehand(place, run, weather):
    _, placed = fed(place, run, weather)
    for day, _, offer, effect in placed:
        assert effect.usable_on >= day
        if offer.wait_d:
            assert effect.usable_on == day + timedelta(days=offer.wait_d)
        assert effect.cautions == offer.cautions


@PLACES
@given(product=PRODUCTS, on=DAYS)
def test_the_same_question_has_the_same_answer(place, product, on):
    state = opened(place)
    assert place.can_take(state, product, on, climate=MILD) == place.can_take(state, product, on, climate=MILD)


@PLACES
@given(run=RUNS)
def test_a_place_is_not_free_before_the_last_that_it_was_given(place, run):
    state, placed = fed(place, run)
    if placed:
        assert place.free_on(state, climate=MILD) >= placed[-1][0]


@PLACES
@pytest.mark.parametrize("mass_kg", [0.0, -1.0, 15.1, float("nan")])
def test_a_place_cannot_be_given_what_is_not_there(place, mass_kg):
    with pytest.raises(OutOfRange, match=r"^mass_kg = .* kg is outside .* 15 kg: that is what there is of blue-1/1\.$"):
        place.after(opened(place), bucket(), mass_kg, START, climate=MILD)


@PLACES
def test_a_part_of_a_batch_may_be_off_by_the_rounding_of_a_sum(place):
    state, effect = place.after(opened(place), bucket(), 15.0 * (1.0 + 1e-12), START, climate=MILD)
    assert effect.mass_kg == state.receipts[-1].mass_kg == 15.0


@PLACES
@pytest.mark.parametrize("soundness", ["failed", "unknown", "unfinished"])
@given(on=DAYS)
def test_what_is_not_sound_goes_nowhere_where_food_would_come_of_it(place, soundness, on):
    thing = owner(place)
    takes_it = (
        (thing.id == "herbs" and not thing.food) or thing.id == "heap" or getattr(thing, "kind", "") == "waste-bin"
    )
    offer = place.can_take(opened(place), bucket(state=soundness), on, climate=MILD)
    if not takes_it:
        assert offer.takes_kg == 0.0
        assert any(words in offer.limit for words in ("failed", "not ready", "nobody knows"))


def test_a_number_is_said_with_two_digits_and_no_power_of_ten():
    assert [rough(each) for each in (172.4, 38.6, 4.66, 0.0, 1234.0)] == ["170", "39", "4.7", "0", "1200"]


def test_a_day_is_said_with_its_month():
    assert spoken(date(2027, 3, 15), START) == "15 Mar"
    assert spoken(date(2028, 3, 15), START) == "15 Mar 2028"
