"""`science.places.bed`: what is dug in, when, and when it may be planted."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.days import Span
from sourloam.base.fields import Reading, read_record
from sourloam.science.places.bed.bed import TEXTURES, Bed, Planting
from sourloam.science.places.bed.calendar import span_of
from tests.science.places.setting import (
    BED,
    COLD,
    DAYS,
    EMPTY,
    MILD,
    PRODUCTS,
    RUNS,
    SPRING,
    START,
    WINTER,
    bed,
    bucket,
    climate,
    fed,
    opened,
)

CAP = BED.nitrogen_cap_g_per_m2.value
LETTUCE = Planting("lettuce", date(2027, 5, 12), date(2027, 7, 20))


def _offer(place, product=None, on=SPRING, weather=MILD, state=EMPTY):
    return place.can_take(state, product or bucket(), on, climate=weather)


@pytest.mark.parametrize("dug", ["whole", "strips"])
@given(run=RUNS, area_m2=st.floats(0.5, 40.0), before=st.floats(0.0, 17.0))
def test_no_365_days_get_more_than_the_cap(dug, run, area_m2, before):
    state, _ = fed(bed(area_m2, dug=dug, nitrogen_given_g_per_m2=before), run)
    for last in state.receipts:
        year = [each for each in state.receipts if 0 <= (last.on - each.on).days < 365]
        assert sum(each.nitrogen_g for each in year) <= CAP * area_m2 * (1.0 + 1e-9)


@given(product=PRODUCTS, on=DAYS, area_m2=st.floats(0.5, 40.0))
def test_a_larger_bed_never_takes_less(product, on, area_m2):
    small, large = (_offer(bed(each), product, on).takes_kg for each in (area_m2, 2.0 * area_m2))
    assert large >= small


@given(on=DAYS, colder_k=st.floats(0.0, 5.0))
def test_a_colder_year_never_lets_a_bed_be_planted_sooner(on, colder_k):
    colder = climate(
        tuple(each - colder_k for each in (6.0, 5.9, 7.2, 8.8, 11.4, 14.0, 15.8, 15.7, 13.8, 11.1, 8.2, 6.4))
    )
    rested = [bed().after(EMPTY, bucket(), 10.0, on, climate=each)[1].usable_on for each in (MILD, colder)]
    assert rested[1] >= rested[0]


@given(on=DAYS)
def test_frozen_ground_takes_nothing(on):
    offer = _offer(bed(), on=on, weather=COLD)
    assert (offer.takes_kg == 0.0) == COLD.is_frozen(on)
    if COLD.is_frozen(on):
        assert offer.limit == "the ground is frozen"


@pytest.mark.parametrize("whose", ["closed", "site_closed"])
def test_closed_ground_takes_nothing_and_says_until_when(whose):
    place = bed(**{whose: (Span(date(2027, 5, 1), date(2027, 5, 14)),)})
    closed = _offer(place, on=date(2027, 5, 14))
    assert (closed.takes_kg, closed.limit) == (0.0, "closed until 14 May")
    assert _offer(place, on=date(2027, 5, 15)).takes_kg == 15.0


def test_the_limit_that_binds_is_named():
    assert _offer(bed(20.0)).limit == "all of it"
    little = _offer(bed(2.0))
    assert little.limit == "nitrogen of the year"
    assert little.takes_kg == pytest.approx(15.0 * 2.0 * CAP / bucket().nitrogen_g)
    poor = _offer(bed(1.0), bucket(nitrogen_g=0.0))
    assert poor.limit == "room in the ground that does not rest"
    assert poor.takes_kg == pytest.approx(BED.fits_kg_per_m2.value)


def test_a_whole_bed_rests_and_a_strip_of_it_alone_where_the_keeper_says_so():
    whole, strips = bed(), bed(dug="strips")
    state, effect = whole.after(EMPTY, bucket(), 15.0, SPRING, climate=MILD)
    next_day = SPRING + timedelta(days=1)
    refused = _offer(whole, on=next_day, state=state)
    assert refused.takes_kg == 0.0
    assert refused.limit == f"resting until {effect.usable_on.day} May"
    assert _offer(whole, on=effect.usable_on, state=state).takes_kg == 15.0
    assert _offer(strips, on=next_day, state=state).takes_kg == 15.0


def test_strips_run_out():
    place = bed(2.0, dug="strips")
    poor = bucket(nitrogen_g=0.0)
    state, effect = place.after(EMPTY, poor, 15.0, SPRING, climate=MILD)
    left = _offer(place, poor, SPRING, state=state)
    assert left.takes_kg == pytest.approx(2.0 * BED.fits_kg_per_m2.value - 15.0)
    state, _ = place.after(state, poor, left.takes_kg, SPRING, climate=MILD)
    assert _offer(place, poor, SPRING, state=state).limit == f"resting until {effect.usable_on.day} May"
    assert place.free_on(state, climate=MILD) == effect.usable_on


def test_what_a_bed_got_in_the_year_before_counts_for_a_year():
    place = bed(10.0, nitrogen_given_g_per_m2=17.0)
    state = opened(place)
    full = _offer(place, on=SPRING, state=state)
    assert full.takes_kg == 0.0
    assert full.limit == "full for this year: 17 g of nitrogen on each square metre"
    assert place.free_on(state, climate=MILD) == START + timedelta(days=365)
    assert _offer(place, on=START + timedelta(days=365), state=state).takes_kg == 15.0


def test_a_crop_that_would_come_too_soon_keeps_a_batch_out():
    place = bed(plantings=(LETTUCE,))
    offer = _offer(place, on=date(2027, 5, 1))
    assert offer.takes_kg == 0.0
    assert offer.limit == "lettuce goes in on 12 May, before the rest is over"


def test_a_crop_keeps_a_bed_until_it_is_cleared():
    place = bed(plantings=(LETTUCE,))
    for day in (LETTUCE.on, date(2027, 6, 15), LETTUCE.until):
        assert _offer(place, on=day).limit == "lettuce stands here until 20 Jul"
    assert _offer(place, on=date(2027, 7, 21)).takes_kg == 15.0


@given(on=DAYS, planted=DAYS, run_d=st.integers(0, 200))
def test_nothing_is_ever_dug_in_that_still_rests_when_a_crop_goes_in(on, planted, run_d):
    place = bed(plantings=(Planting("leek", planted, planted + timedelta(days=run_d)),))
    offer = _offer(place, on=on)
    if offer.takes_kg:
        _, effect = place.after(EMPTY, bucket(), offer.takes_kg, on, climate=MILD)
        assert not on <= planted < effect.usable_on


def test_a_crop_without_an_end_stands_for_the_three_months_that_its_key_says():
    span = span_of(Planting("kale", SPRING), BED.crop_stands_d.value)
    assert 80 <= span.days <= 100
    reading = Reading()
    raw = {"id": "herbs", "area": "6 m2", "planting": [{"crop": "kale", "on": SPRING}]}
    read_record(Bed, raw, where="bed", path=(), reading=reading)
    assert any("three months after planting" in each.says for each in reading.assumptions)


def test_a_failed_batch_goes_only_where_no_food_grows():
    failed = bucket(state="failed")
    assert _offer(bed(), failed).limit == "it failed, and food grows here"
    assert _offer(bed(food=False), failed).takes_kg == 15.0


def test_animal_matter_on_a_food_bed_is_treated_as_manure_is():
    meat = bucket(animal_matter=True)
    assert "raw-manure-on-food-crops" in _offer(bed(), meat).cautions
    assert "raw-manure-on-food-crops" not in _offer(bed()).cautions
    assert "raw-manure-on-food-crops" not in _offer(bed(food=False), meat).cautions


def test_more_than_fields_may_get_is_booked_and_warned_of():
    place = bed(1.0)
    state, effect = place.after(EMPTY, bucket(), 15.0, SPRING, climate=MILD)
    assert state.receipts[-1].nitrogen_g == pytest.approx(93.75)
    assert "over-application-of-nitrogen" in effect.cautions
    assert "over-application-of-nitrogen" not in _offer(place).cautions


@pytest.mark.parametrize("texture", TEXTURES)
def test_the_effect_says_nitrogen_acid_and_when_it_may_be_planted(texture):
    offer = _offer(bed(texture=texture))
    assert offer.effect.startswith("4.7 g of nitrogen on each square metre")
    assert offer.effect.endswith(" May")


def test_a_bed_that_got_nothing_has_always_been_free():
    assert bed().free_on(EMPTY, climate=MILD) == date.min


def test_a_bed_is_not_free_while_the_ground_is_frozen():
    place = bed()
    state, effect = place.after(EMPTY, bucket(), 15.0, date(2027, 8, 25), climate=COLD)
    free = place.free_on(state, climate=COLD)
    assert free >= effect.usable_on
    assert not COLD.is_frozen(free)
    late, _ = place.after(EMPTY, bucket(), 1.0, WINTER, climate=COLD)
    assert place.free_on(late, climate=COLD).month in (4, 5, 6)


def test_a_bed_is_read_from_its_table_with_its_plantings():
    raw = {
        "id": "herbs",
        "area": "60 sq ft",
        "texture": "clay",
        "food": False,
        "nitrogen_given": "5 g/m2",
        "closed": ["2027-07-10 to 2027-07-24"],
        "planting": [{"crop": "lettuce", "on": date(2027, 5, 12), "until": date(2027, 7, 20)}],
    }
    reading = Reading()
    read = read_record(Bed, raw, where="bed", path=(), reading=reading)
    assert not reading.problems
    assert (read.texture, read.food, read.nitrogen_given_g_per_m2, read.plantings) == ("clay", False, 5.0, (LETTUCE,))
    assert read.area_m2 == pytest.approx(5.574, abs=0.001)


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("area", "0 m2", "is outside 0.1 m2 to 10000 m2"),
        ("area", "6 kg", "is a mass"),
        ("nitrogen_given", "100 g/m2", "no bed is given that much in a year"),
        ("texture", "lome", "Did you mean loam?"),
        ("dug", "half", "is not one of whole, strips"),
    ],
)
def test_a_bed_that_cannot_be_is_refused(key, value, says):
    reading = Reading()
    assert read_record(Bed, {"id": "herbs", "area": "6 m2", key: value}, where="bed", path=(), reading=reading) is None
    assert says in str(reading.problems[0])
