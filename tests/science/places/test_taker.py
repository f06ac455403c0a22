"""`science.places.taker`: days, weeks and litres of those who take batches."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.days import WEEKDAYS, weekday
from sourloam.base.fields import Reading, read_record
from sourloam.science.places.taker import KINDS, Taker
from tests.science.places.setting import DAYS, EMPTY, MILD, RUNS, SPRING, TAKER, bucket, fed, taker

MONDAY = SPRING
DAY_SETS = st.sets(st.sampled_from(WEEKDAYS)).map(tuple)


def _offer(place, product=None, on=MONDAY, state=EMPTY):
    return place.can_take(state, product or bucket(), on, climate=MILD)


@given(on=DAYS, days=DAY_SETS, every=st.integers(1, 12), first=st.none() | DAYS)
def test_only_their_days_bring_anybody(on, days, every, first):
    them = taker(days=days, every_weeks=every, first=first).taker
    if them.comes_on(on):
        assert not days or weekday(on) in days
        assert first is None or on >= first
        for weeks in range(1, every):
            assert not them.comes_on(on + timedelta(weeks=weeks))
        assert them.comes_on(on + timedelta(weeks=every))


@given(on=DAYS, days=DAY_SETS, every=st.integers(1, 12), first=st.none() | DAYS)
def test_the_next_visit_is_a_visit_and_the_first_one(on, days, every, first):
    them = taker(days=days, every_weeks=every, first=first).taker
    visit = them.next_visit(on)
    assert visit >= on
    assert them.comes_on(visit)
    assert not any(them.comes_on(on + timedelta(days=each)) for each in range(min((visit - on).days, 400)))


def test_weeks_are_counted_from_the_first_visit():
    them = taker(days=("sat",), every_weeks=2, first=date(2027, 3, 6)).taker
    assert them.comes_on(date(2027, 3, 6))
    assert not them.comes_on(date(2027, 3, 13))
    assert them.comes_on(date(2027, 3, 20))


def test_on_another_day_the_next_visit_is_named():
    offer = _offer(taker(days=("sat",)))
    assert (offer.takes_kg, offer.limit) == (0.0, "next taken on 8 May")


@given(run=RUNS, litres_l=st.floats(0.5, 100.0))
def test_no_visit_takes_more_than_its_litres(run, litres_l):
    state, _ = fed(taker(litres_l=litres_l), run)
    for each in state.receipts:
        same_day = [one.volume_l for one in state.receipts if one.on == each.on]
        assert sum(same_day) <= litres_l * (1.0 + 1e-9)


def test_after_its_litres_a_visit_takes_nothing_more():
    place = taker(litres_l=10.0, days=("mon",))
    first = _offer(place)
    assert (first.takes_kg, first.limit) == (8.0, "10 L at each visit")
    state, _ = place.after(EMPTY, bucket(), first.takes_kg, MONDAY, climate=MILD)
    assert _offer(place, state=state).limit == "took its litres today"
    assert place.free_on(state, climate=MILD) == MONDAY + timedelta(days=7)


def test_a_visit_with_litres_left_is_still_free():
    place = taker(litres_l=10.0, days=("mon",))
    state, _ = place.after(EMPTY, bucket(), 4.0, MONDAY, climate=MILD)
    assert place.free_on(state, climate=MILD) == MONDAY
    assert _offer(place, state=state).takes_kg == 4.0


@pytest.mark.parametrize("kind", KINDS)
def test_where_nothing_was_agreed_the_litres_are_those_that_the_key_says(kind):
    much = bucket(200.0)
    offer = _offer(taker(kind), much)
    if kind in ("neighbour", "shared-garden"):
        assert offer.takes_kg * much.volume_l / much.mass_kg == pytest.approx(20.0)
    else:
        assert offer.takes_kg == 200.0
    reading = Reading()
    read_record(Taker, {"id": "them", "kind": kind}, where="taker", path=(), reading=reading)
    assert any(f"takes {TAKER.usual_l.value:g} L" in each.says for each in reading.assumptions)


def test_the_waste_bin_is_always_there_and_asked_last():
    bin_ = taker("waste-bin", days=("tue",), every_weeks=3, first=date(2030, 1, 1))
    assert bin_.taker.is_last_resort
    assert _offer(bin_).takes_kg == 15.0
    assert _offer(bin_).effect == "goes to waste"
    assert not taker("collection").taker.is_last_resort


@pytest.mark.parametrize("kind", KINDS)
def test_only_a_collection_and_the_bin_take_what_is_not_sound(kind):
    assert (_offer(taker(kind), bucket(state="failed")).takes_kg > 0.0) == (kind in ("collection", "waste-bin"))


def test_terms_are_shown():
    assert _offer(taker(terms="no meat")).effect == "taken away: no meat"
    assert _offer(taker()).effect == "taken away"


def test_a_first_visit_beyond_a_year_is_named_all_the_same():
    assert _offer(taker(first=date(2029, 1, 1))).limit == "next taken on 1 Jan 2029"


@pytest.mark.parametrize(
    ("key", "value", "says"),
    [
        ("kind", "neighbor", "Did you mean neighbour?"),
        ("days", ["monday"], "is not one of mon, tue, wed, thu, fri, sat, sun"),
        ("every_weeks", 0, "write a whole number from 1 to 12."),
        ("litres", "20 kg", "is a mass"),
    ],
)
def test_a_taker_that_cannot_be_is_refused(key, value, says):
    reading = Reading()
    raw = {"id": "them", "kind": "neighbour", key: value}
    assert read_record(Taker, raw, where="taker", path=(), reading=reading) is None
    assert says in str(reading.problems[0])


def test_who_takes_no_meat_is_not_given_any():
    them = taker(takes_meat=False)
    refused = _offer(them, bucket(animal_matter=True))
    assert (refused.takes_kg, refused.limit) == (0.0, "they take nothing with meat or fish in it")
    assert _offer(them, bucket(animal_matter=False)).takes_kg > 0.0
