"""`plan.ground`: what each place gets, and from when it may be planted."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from sourloam.fleet.life import BatchLife, Placing
from sourloam.plan.ground import ground
from sourloam.plan.tasks import tasks
from sourloam.science.vessel.contents import Contents
from tests.fleet.sites import lived, question
from tests.plan.plans import DEMO, FILES, asked, garden, planned

TOMATOES_ON = date(2027, 6, 12)


def dug_in(on, usable_on):
    """Return the places of the garden after a batch was dug in on a day, whatever the plan would have said."""
    asking, life, _ = garden()
    placing = Placing("beans", on, 12.0, 60.0, usable_on)
    batch = BatchLife("pail-1/1", "pail-1", date(2027, 5, 1), Contents(scraps_kg=12.0), placings=(placing,))
    return ground(asking, replace(life, batches=(batch,)))


def test_a_crop_that_comes_before_the_rest_is_over_is_warned_of_with_the_day():
    (bed, *_) = dug_in(date(2027, 6, 8), usable_on=date(2027, 6, 25))
    ((_, on, warning),) = bed.plantings
    assert on == TOMATOES_ON
    assert warning == "too soon: the bed rests until 25 Jun, 13 days longer"
    assert bed.free_on == date(2027, 6, 25)


@pytest.mark.parametrize(
    ("on", "usable_on"),
    [
        (date(2027, 5, 20), date(2027, 6, 12)),  # rested on the very day
        (date(2027, 6, 13), date(2027, 6, 30)),  # dug in beside the standing crop
    ],
)
def test_a_crop_that_comes_in_time_is_not_warned_of(on, usable_on):
    (bed, *_) = dug_in(on, usable_on)
    assert [warning for _, _, warning in bed.plantings] == [""]


def test_the_task_of_a_crop_that_comes_too_soon_says_so():
    asking, life, _ = garden()
    places = dug_in(date(2027, 6, 8), usable_on=date(2027, 6, 25))
    planting = next(each for each in tasks(asking, life, (), lots=(), places=places) if each.id == "plant:beans/1")
    assert planting.because == "Too soon: the bed rests until 25 Jun, 13 days longer."


@pytest.mark.parametrize("name", FILES)
def test_no_plan_digs_in_what_would_not_be_rested_in_time(name):
    warnings = [warning for place in planned(name).ground for _, _, warning in place.plantings]
    assert not any(warnings)


def test_a_bed_may_be_planted_from_the_day_on_which_all_of_it_has_rested():
    _, _, plan = garden()
    bed = next(each for each in plan.ground if each.place == "beans")
    given = [each for batch in plan.batches for each in batch.placings if each.place == "beans"]
    assert given
    assert bed.free_on == max(each.usable_on for each in given)


def test_a_batch_is_broken_down_in_soil_in_2_to_4_weeks_while_it_is_warm():
    # Common practice, no source: 2 to 4 weeks, longer in the cool.
    asking = question(taker="", rest='[[bed]]\nid = "fallow"\narea = "60 m2"\ndug = "strips"\n')
    rests = [(each.on, (each.usable_on - each.on).days) for batch in lived(asking).batches for each in batch.placings]
    warm = [days for on, days in rests if on.month in (6, 7, 8)]
    assert warm
    assert all(14 <= days <= 28 for days in warm)
    assert max(days for on, days in rests if on.month in (3, 4)) > max(warm)


@pytest.mark.parametrize("name", FILES)
def test_no_bed_gets_more_nitrogen_than_its_cap(name):
    # A place that had some before got the less: its cap counts what it was given in the year.
    cap = asked(name).knowledge.bed.nitrogen_cap_g_per_m2.value
    areas = {each.id: each.area_m2 for each in asked(name).site.beds}
    for place in planned(name).ground:
        if place.kind == "bed":
            assert place.nitrogen_g_per_m2 == pytest.approx(place.nitrogen_g / areas[place.place])
            assert place.nitrogen_g_per_m2 <= cap * (1 + 1e-9)
        else:
            assert place.nitrogen_g_per_m2 is None


def test_places_that_got_nothing_are_named_too():
    assert {each.place for each in planned(DEMO).ground} >= {"allotment", "hedge"}
    assert all((each.got_kg == 0.0) == (each.free_on is None) for each in planned(DEMO).ground)


def test_meat_in_a_bed_sets_the_clock_of_raw_manure_for_what_is_harvested_there():
    # 7 CFR 205.203(c)(1): 120 days where the edible part touches the soil.
    plan = planned("examples/quillet_yard.toml")
    bed = next(each for each in plan.ground if each.place == "long-bed")
    given = [each.on for batch in plan.batches for each in batch.placings if each.place == "long-bed"]
    dug = max(each for each in given if each.year == 2027)
    (harvest,) = bed.harvests
    from_on = dug + timedelta(days=120)
    assert f"from {from_on.day} " in harvest


def test_no_bed_is_planted_within_two_weeks_of_digging_in_however_warm_it_is():
    for name in FILES:
        for batch in planned(name).batches:
            beds = {each.id for each in asked(name).site.beds}
            assert all((each.usable_on - each.on).days >= 14 for each in batch.placings if each.place in beds)
