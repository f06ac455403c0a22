"""`fleet.found`: vessels that are not empty on the first day go on from where they are."""

from datetime import date, timedelta

import pytest

from sourloam.fleet.simulate import held_kg, room_l
from tests.fleet.sites import lived, question, set_out

FIRST = date(2027, 3, 1)


def pail(state="", **keys):
    written = "".join(f"{key} = {value}\n" for key, value in keys.items())
    return f'[[vessel]]\nid = "pail"\nvolume = "20 L"\nstands = "indoors"\nstate = "{state}"\n{written}'


def begun(state, **keys):
    asked = question(vessel=pail(state, **keys))
    situation, world = set_out(asked)
    return asked, situation.vessels[0], world


@pytest.mark.parametrize("filled", ["25 %", "50 %", "90 %"])
def test_a_vessel_that_is_filling_takes_up_the_room_that_was_written(filled):
    _, state, world = begun("filling", filled=f'"{filled}"')
    usable_l = world.vessels["pail"].usable_l
    assert room_l(state, world) == pytest.approx(usable_l * float(filled[:-2]) / 100.0)


def test_a_vessel_that_is_filling_is_sealed_when_the_rest_of_its_room_is_full():
    half, _, _ = begun("filling", filled='"50 %"')
    fresh = question(vessel=pail("empty"))
    first = [next(each for each in lived(each, 90).batches if each.id == "pail/1") for each in (half, fresh)]
    assert FIRST < first[0].sealed_on < first[1].sealed_on
    assert first[0].first_layer_on < FIRST


@pytest.mark.parametrize("ago_d", [0, 3, 10, 13])
def test_a_sealed_vessel_is_ready_when_the_days_before_the_first_are_counted_too(ago_d):
    since = FIRST - timedelta(days=ago_d)
    asked, _, world = begun("fermenting", since=since)
    batch = lived(asked, 60).batches[0]
    assert batch.sealed_on == since
    pace_d = world.numbers.ready_at_20c_d  # the room is at 20 °C
    assert (batch.ready_on - since).days == pytest.approx(pace_d, abs=1.0)


def test_a_vessel_sealed_long_ago_is_ready_on_the_first_day():
    asked, _, _ = begun("fermenting", since="2027-01-01")
    assert lived(asked, 30).batches[0].ready_on == FIRST


@pytest.mark.parametrize("since", [{}, {"since": "2027-02-25"}])
def test_a_ready_vessel_can_be_emptied_on_the_first_day(since):
    asked, _, _ = begun("ready", **since)
    assert lived(asked, 30).batches[0].placed_on == FIRST


def test_a_vessel_that_was_sealed_full_has_settled_since():
    rooms = [room_l(*begun("fermenting", since=since)[1:]) for since in (FIRST, "2027-02-20", "2027-01-01")]
    assert rooms == sorted(rooms, reverse=True)
    assert rooms[0] > rooms[-1]


def test_liquid_is_still_to_come_in_a_vessel_that_is_filling():
    wet = '[[stream]]\nid = "kitchen"\namount = "5 kg/week"\nmaterials = { watermelon-rind = "100 %" }\n'
    situation, _ = set_out(question(vessel=pail("filling"), stream=wet))
    state = situation.vessels[0]
    assert state.liquid_to_come_l > 0.0
    assert held_kg(situation) == pytest.approx(state.contents.mass_kg - state.lost_kg)


@pytest.mark.parametrize("state", ["filling", "fermenting", "ready"])
def test_what_was_there_on_the_first_day_is_placed_in_the_end(state):
    asked, _, _ = begun(state)
    life = lived(asked)
    assert life.batches[0].id == "pail/1"
    assert life.batches[0].is_placed
    assert next(each for each in life.batches if each.id == "pail/2").first_layer_on >= FIRST


def test_a_vessel_that_holds_nothing_yet_can_be_filling():
    asked, state, _ = begun("filling", filled='"0 %"')
    assert state.mass_kg == 0.0
    assert lived(asked).batches[0].is_placed
