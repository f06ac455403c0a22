"""`site`: one chain as values, and the situation on its first day."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.vessel.contents import Contents
from sourloam.site.site import REPEATED
from sourloam.site.start import at_start
from sourloam.site.vessels import Vessel
from tests.site.strategies import sites

USUAL = Contents(scraps_kg=1.0, dry_kg=0.25, loose_l=3.0, pressed_l=1.6)  # a kilogram of scraps


@given(site=sites())
def test_every_part_of_a_site_is_in_its_table_and_answers_to_its_name(site):
    assert tuple(site.parts()) == tuple(REPEATED)
    for table, rows in site.parts().items():
        assert all(type(each) is REPEATED[table] for each in rows)
        assert all(site.name_of(each.id) == (each.name or each.id) for each in rows)


@given(site=sites())
def test_the_first_day_knows_every_vessel_and_every_place_once(site):
    situation = at_start(site, USUAL)
    places = [each.id for table in ("bed", "pile", "worm_bin", "soil_tub", "taker") for each in site.parts()[table]]
    assert situation.on == site.facts.start
    assert [each.vessel for each in situation.vessels] == [each.id for each in site.vessels]
    assert [each.place for each in situation.places] == places
    assert (situation.bran_kg, situation.serum_l) == (site.stock.bran_kg, site.stock.serum_l)


@given(site=sites())
def test_a_vessel_holds_on_the_first_day_what_its_state_says(site):
    for vessel, state in zip(site.vessels, at_start(site, USUAL).vessels, strict=True):
        room_l = vessel.usable_l * (vessel.filled_frac if vessel.state == "filling" else 1.0)
        assert state.phase == vessel.state
        assert state.contents.pressed_l == pytest.approx(0.0 if vessel.state == "empty" else room_l)
        assert (state.sealed_on is None) == (vessel.state in ("empty", "filling"))
        assert (state.ready_on is None) == (vessel.state != "ready")
        assert state.first_layer_on is None or state.first_layer_on <= site.facts.start


@given(site=sites(), data=st.data())
def test_one_vessel_or_place_can_be_changed_without_the_others(site, data):
    situation = at_start(site, USUAL)
    state = data.draw(st.sampled_from(situation.vessels))
    changed = situation.with_vessel(state._replace(fillings=9))
    assert [each.fillings for each in changed.vessels if each.vessel == state.vessel] == [9]
    assert [each for each in changed.vessels if each.vessel != state.vessel] == [
        each for each in situation.vessels if each.vessel != state.vessel
    ]
    place = data.draw(st.sampled_from(situation.places))
    assert situation.with_place(place) == situation


def test_a_drain_takes_its_space_from_the_scraps():
    assert Vessel("blue", 18.0).usable_l == pytest.approx(18.0 * 0.9 - 1.5)
    assert Vessel("blue", 18.0, drain_space_l=3.0).usable_l == pytest.approx(18.0 * 0.9 - 3.0)
    assert Vessel("blue", 18.0, has_drain=False, drain_space_l=5.0).usable_l == pytest.approx(18.0 * 0.9)


@given(site=sites())
def test_an_emptied_vessel_keeps_its_count_of_fillings_by_which_its_batch_is_named(site):
    for state in at_start(site, USUAL).vessels:
        assert (state.emptied().vessel, state.emptied().fillings) == (state.vessel, state.fillings)
        assert state.emptied().mass_kg == 0.0
        assert state.batch == f"{state.vessel}/{state.fillings}"
