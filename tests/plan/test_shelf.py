"""`plan.shelf`: the shelf of one day adds up to the vessels of that day."""

from datetime import timedelta

import pytest

from sourloam.fleet.setting import medians, set_up
from sourloam.fleet.simulate import room_l, simulate
from sourloam.plan.shelf import busiest_shelf
from tests.fleet.sites import lived as lived_site
from tests.fleet.sites import question
from tests.plan.plans import FILES, asked, lived, planned

every_plan = pytest.mark.parametrize("name", FILES)
PARTLY_FULL = (
    '[[vessel]]\nid = "old"\nvolume = "20 L"\nstate = "filling"\nfilled = "40 %"\n'
    '[[vessel]]\nid = "done"\nvolume = "20 L"\nstate = "fermenting"\n'
)


def ends(asking, on):
    """Return the situation at the end of a day, lived anew, and its world."""
    situation, world = set_up(asking.site, asking.year, medians(asking.knowledge), situation=asking.situation)
    return simulate(situation, (on - asking.first).days + 1, world).end, world


@every_plan
def test_the_layers_of_a_vessel_add_up_to_the_room_that_its_contents_take(name):
    shelf = planned(name).shelf
    end, world = ends(asked(name), shelf.on)
    for shown, state in zip(shelf.vessels, end.vessels, strict=True):
        assert shown.vessel == state.vessel
        assert sum(each.litres for each in shown.layers) == pytest.approx(room_l(state, world))
        went_in = sum(each.scraps_kg + each.bran_kg for each in shown.layers)
        assert went_in == pytest.approx(state.contents.mass_kg)
        assert shown.mass_kg == pytest.approx(state.mass_kg)


@every_plan
def test_the_layers_lie_in_the_order_in_which_they_went_in(name):
    for shown in planned(name).shelf.vessels:
        days = [each.on for each in shown.layers]
        assert days == sorted(days)
        assert (shown.phase == "empty") == (shown.layers == ()) == (shown.batch == "")


@every_plan
def test_a_drawn_vessel_holds_its_volume(name):
    for shown in planned(name).shelf.vessels:
        area_m2 = 3.141592653589793 / 4.0 * shown.width_m**2
        assert area_m2 * shown.height_m * 1000.0 == pytest.approx(shown.volume_l)
        assert sum(each.litres for each in shown.layers) <= shown.volume_l * shown.fill_limit_frac


@every_plan
def test_no_day_of_the_plan_has_more_vessels_in_use(name):
    shelf = planned(name).shelf
    last = planned(name).first + timedelta(days=365)
    spans = [(each.first_layer_on, each.placed_on if each.is_placed else last) for each in lived(name).batches]
    in_use = [sum(first <= shelf.on + timedelta(days=k) < end for first, end in spans) for k in range(-400, 400)]
    shown = sum(each.phase != "empty" for each in shelf.vessels)
    assert shown == max(in_use)


def test_what_lay_in_a_vessel_before_the_first_day_is_its_lowest_layer():
    asking = question(vessel=PARTLY_FULL)
    shelf = busiest_shelf(asking, lived_site(asking))
    first_batches = [each for each in shelf.vessels if each.batch.endswith("/1")]
    assert first_batches
    for shown in first_batches:
        assert shown.layers[0].on < asking.first
        assert shown.layers[0].litres > 0.0
