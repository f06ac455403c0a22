"""`fleet.cures`: each cure is a change that really cures when the year is lived again."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.fleet.cures import commonest, cures, fewest_from, with_vessels
from sourloam.plan.simulated import living
from tests.fleet.sites import lived, question

TWO = '[[vessel]]\nid = "pail"\ncount = 2\nvolume = "5 gal"\nstands = "shed"\n'
MUCH = '[[stream]]\nid = "kitchen"\namount = "13 lb/week"\n'
SHORT = {"vessel": TWO, "stream": MUCH, "keeper": '[keeper]\ndays = ["sat"]\n'}


def tried(**tables):
    asked = question(**tables)
    return asked, cures(asked.site, lived(asked), living(asked), indoors_c=20.0)


def test_a_year_without_a_stall_needs_no_cure():
    assert tried()[1] == ()


def test_whole_cures_come_first_and_then_those_that_help_most():
    _, found = tried(**SHORT)
    assert len(found) >= 3
    left = [each.stalled_days for each in found]
    assert [each.is_whole for each in found] == sorted((each.is_whole for each in found), reverse=True)
    partly = [days for days in left if days > 0]
    assert partly == sorted(partly)


def test_a_cure_helps_or_is_not_named():
    asked, found = tried(**SHORT)
    assert all(each.stalled_days < lived(asked).stalled_days for each in found)


def test_each_cure_really_cures_when_the_keeper_follows_it():
    # The same changes, written into the site file by hand.
    _, found = tried(**SHORT)
    warm = TWO.replace('stands = "shed"', 'stands = "indoors"')
    by_hand = {
        "cold": SHORT | {"keeper": '[keeper]\ndays = ["sat"]\nfridge = "10 L"\n'},
        "warmth": SHORT | {"vessel": warm},
        "day": SHORT | {"keeper": '[keeper]\ndays = ["tue", "sat"]\n'},
    }
    kinds = [each.kind for each in found if each.kind in by_hand]
    assert kinds
    for each in found:
        if each.kind in by_hand:
            life = lived(question(**by_hand[each.kind]))
            assert (life.stalled_days, life.turned_away_kg) == pytest.approx((each.stalled_days, each.turned_away_kg))


def test_vessels_are_added_until_no_day_is_stalled():
    _, found = tried(**SHORT)
    whole = [each for each in found if each.kind == "vessel" and each.is_whole]
    assert len(whole) == 1
    words = ("one more vessel", "two more vessels", "three more vessels", "four more vessels", "five more vessels")
    more = next(number for number, each in enumerate(words, start=1) if each in whole[0].what)
    enough = TWO.replace("count = 2", f"count = {2 + more}")
    short = TWO.replace("count = 2", f"count = {1 + more}")
    assert lived(question(**SHORT | {"vessel": enough})).stalled_days == 0
    assert lived(question(**SHORT | {"vessel": short})).stalled_days > 0


def test_a_soil_tub_is_offered_where_batches_wait_for_a_place():
    few = {"taker": '[[taker]]\nid = "few"\nkind = "neighbour"\nlitres = "8 L"\nevery_weeks = 8\n'}
    _, found = tried(**few)
    assert "tub" in {each.kind for each in found}


def test_no_tub_is_offered_where_only_vessels_are_short():
    assert "tub" not in {each.kind for each in tried(**SHORT)[1]}


@given(st.integers(1, 30), st.integers(1, 30))
def test_the_fewest_that_are_enough_are_found_from_anywhere(near, enough):
    assert fewest_from(near, lambda number: number >= enough, most=30) == enough


def test_nothing_is_found_where_the_most_are_too_few():
    assert fewest_from(3, lambda _: False, most=8) is None


def test_no_number_of_vessels_is_tried_twice():
    asked = []
    fewest_from(4, lambda number: asked.append(number) or number >= 6, most=12)
    assert len(asked) == len(set(asked))


@pytest.mark.parametrize("number", [1, 2, 3, 5])
def test_a_site_has_as_many_vessels_as_it_was_given(number):
    site = with_vessels(question().site, number)
    ids = [each.id for each in site.vessels]
    assert len(ids) == len(set(ids)) == number
    assert all(each.volume_l == 20.0 for each in site.vessels)


def test_more_vessels_are_like_the_commonest():
    mixed = '[[vessel]]\nid = "tall"\nvolume = "60 L"\n[[vessel]]\nid = "pail"\ncount = 2\nvolume = "12 L"\n'
    site = question(vessel=mixed).site
    assert commonest(site).volume_l == 12.0
    assert with_vessels(site, 4).vessels[-1].state == "empty"


def test_where_no_cure_is_enough_alone_the_best_are_put_together():
    # Much, two pails in the cold and hardly anywhere to go: neither more vessels nor more ways out are enough alone.
    much = '[[stream]]\nid = "kitchen"\namount = "60 lb/week"\n'
    hard = SHORT | {
        "stream": much,
        "rest": '[[taker]]\nid = "few"\nkind = "neighbour"\nlitres = "8 L"\nevery_weeks = 8\n',
        "taker": "",
    }
    asked, found = tried(**hard)
    alone = [each for each in found if each.kind != "together"]
    assert not any(each.is_whole for each in alone)
    assert found[0].kind == "together"
    assert found[0].stalled_days < min(each.stalled_days for each in alone)
    assert " and " in found[0].what
    assert len({each.id for each in with_vessels(with_vessels(asked.site, 3), 5).vessels}) == 5
