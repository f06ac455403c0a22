"""`fleet.placing`: who is asked, in what order, and that a batch is placed without losing any of it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.days import weekday
from sourloam.fleet.outlets import asking_order
from tests.fleet.sites import lived as lived_site
from tests.fleet.sites import question, set_out
from tests.fleet.worlds import DAILY, lived, rotation, steady, taker, vessels, world_of
from tests.science.places.setting import soil_tub, worm_bin

WASTE = taker("grey", "waste-bin")
EVERY_KIND = """
[[taker]]
id = "grey"
kind = "waste-bin"
[[taker]]
id = "next-door"
kind = "neighbour"
[[pile]]
id = "heap"
volume = "500 L"
[[soil_tub]]
id = "tub"
volume = "80 L"
[[bed]]
id = "hedge"
area = "3 m2"
food = false
[[bed]]
id = "beans"
area = "6 m2"
[[worm_bin]]
id = "worms"
area = "0.4 m2"
worms = "0.5 kg"
"""
WORMS_AND_TAKER = {
    "taker": '[[taker]]\nid = "all"\nkind = "collection"\n',
    "rest": '[[worm_bin]]\nid = "worms"\narea = "0.4 m2"\nworms = "0.6 kg"\nstands = "indoors"\naccustomed = true\n',
}
BED_AND_TAKER = {
    "taker": '[[taker]]\nid = "mondays"\nkind = "collection"\ndays = ["mon"]\n',
    "rest": '[[bed]]\nid = "beans"\narea = "30 m2"\ndug = "strips"\n',
}


def placed(life):
    return [placing for batch in life.batches for placing in batch.placings]


def test_places_are_asked_worms_first_food_before_hedge_and_the_waste_bin_last():
    assert asking_order(question(taker=EVERY_KIND).site) == (
        *("worms", "beans", "tub", "heap", "next-door"),
        *("hedge", "grey"),
    )


def test_the_waste_bin_gets_nothing_while_a_vessel_is_left():
    life = rotation(8, 7.0, places=(WASTE,), days=50)
    assert any(each.ready_on for each in life.batches)
    assert placed(life) == []
    assert life.batches[0].waits_for == "no place but the last resort"


def test_the_waste_bin_is_asked_when_no_vessel_is_left():
    life = rotation(3, 7.0, places=(WASTE,))
    assert {each.place for each in placed(life)} == {"grey"}
    for batch in life.batches:
        if batch.placed_on:
            open_then = [each for each in life.batches if each.first_layer_on < batch.placed_on]
            still = [each for each in open_then if each.placed_on is None or each.placed_on >= batch.placed_on]
            assert len(still) == 3  # every vessel held a batch that morning


@pytest.mark.parametrize("order", [("anyone", "grey"), ("grey", "anyone")])
def test_anybody_else_goes_before_the_waste_bin(order):
    both = {"anyone": taker(), "grey": WASTE}
    life = rotation(3, 7.0, places=tuple(both[each] for each in order))
    assert {each.place for each in placed(life)} == {"anyone"}


def test_worms_are_fed_first_and_get_a_ration():
    life = lived_site(question(**WORMS_AND_TAKER))
    first = [batch.placings[0] for batch in life.batches if len(batch.placings) > 1]
    assert first
    assert {each.place for each in first} == {"worms"}
    fed = [each for each in placed(life) if each.place == "worms"]
    other = [each for each in placed(life) if each.place == "all"]
    assert max(each.mass_kg for each in fed) < min(each.mass_kg for each in other)


def test_a_taker_comes_on_days_without_time_to_dig():
    life = lived_site(question(**BED_AND_TAKER))
    days = {place: {weekday(each.on) for each in placed(life) if each.place == place} for place in ("beans", "mondays")}
    assert days["mondays"] == {"mon"}
    assert days["beans"] <= {"wed", "sat"}
    assert days["beans"]


@settings(max_examples=40)
@given(st.floats(3.0, 20.0), st.floats(20.0, 120.0), st.booleans())
def test_the_parts_of_a_batch_add_up_to_the_batch(fill_d, tub_l, by_worms):
    places = (*((worm_bin(worms_kg=1.0),) if by_worms else ()), soil_tub(tub_l), taker("some", litres_l=8.0))
    eaters = frozenset({"worms"} if by_worms else ())
    life = lived(world_of(vessels(4), steady(fill_d, 150, 18.0), places=places, eaters=eaters))
    gone = [each for each in life.batches if each.is_placed]
    for batch in gone:
        gas_kg = 0.04 * batch.contents.dry_kg
        assert sum(each.mass_kg for each in batch.placings) == pytest.approx(batch.contents.mass_kg - gas_kg)
        kept = 0.96 * batch.contents.nitrogen_g
        assert sum(each.nitrogen_g for each in batch.placings) == pytest.approx(kept)


def test_a_batch_goes_whole_to_a_later_place_rather_than_in_parts():
    small = taker("small", litres_l=9.0)
    life = rotation(3, 7.0, places=(small, taker()))
    assert {each.place for each in placed(life)} == {"anyone"}


def test_without_a_place_that_takes_it_whole_a_batch_is_shared_out():
    one, two = taker("one", litres_l=10.0), taker("two", litres_l=10.0)
    life = rotation(3, 7.0, places=(one, two))
    assert [each.place for each in life.batches[0].placings] == ["one", "two"]
    assert life.batches[0].placings[0].on == life.batches[0].placings[1].on


def test_nobody_digs_for_less_than_a_fifth_of_a_batch():
    life = rotation(3, 7.0, places=(taker("a-taste", litres_l=2.0),))
    assert placed(life) == []
    assert "2 L at each visit" in life.batches[0].waits_for


def test_a_batch_that_was_not_placed_names_the_place_that_would_take_most():
    life = rotation(3, 7.0, places=(taker("a-taste", litres_l=1.0), taker("more", litres_l=2.0)))
    assert life.batches[0].waits_for == "more: 2 L at each visit"


def test_the_limit_is_named_on_days_without_time_too():
    # The year ends on a Sunday; the bed is full since autumn, and it is asked on Wednesdays and Saturdays only.
    few = '[[bed]]\nid = "small"\narea = "2 m2"\ndug = "strips"\n'
    life = lived_site(question(taker="", rest=few), days=364)
    waiting = [each.waits_for for each in life.batches if each.ready_on and not each.is_placed]
    assert life.days[-1].on.weekday() == 6
    assert waiting
    assert all(each.startswith("small: ") for each in waiting)


def test_a_batch_that_is_ready_on_a_day_without_time_waits_for_one_with_time():
    life = rotation(3, 7.0, places=(soil_tub(),), habits=DAILY._replace(work_days=("wed",)), days=22)
    assert life.batches[0].ready_on == life.days[20].on
    assert life.batches[0].waits_for == "the next day with time to dig"


def test_a_place_has_got_what_was_placed_there():
    situation, _ = set_out(question(**WORMS_AND_TAKER))
    life = lived_site(question(**WORMS_AND_TAKER))
    assert all(not each.receipts for each in situation.places)
    for state in life.end.places:
        got = sum(each.mass_kg for each in state.receipts)
        assert got == pytest.approx(sum(each.mass_kg for each in placed(life) if each.place == state.place))


def test_the_oldest_ready_batch_goes_first():
    # The taker comes every four weeks with room for one; by then the first vessel is filled and ready anew.
    monthly = taker(litres_l=20.0, days=("mon",), every_weeks=4)
    life = rotation(4, 7.0, places=(monthly,), habits=DAILY._replace(least_d=0.0))
    done = sorted((each for each in life.batches if each.is_placed), key=lambda each: each.placed_on)
    assert len(done) >= 5
    assert [each.ready_on for each in done] == sorted(each.ready_on for each in done)
    assert [each.vessel for each in done[:4]] == ["blue-1", "blue-2", "blue-3", "blue-4"]
