"""The use case of a bed: its decision, the limit that binds, and how both follow the ground and the day."""

from datetime import date

import numpy as np
import pytest

from sourloam.base.errors import BadInput
from sourloam.cli.show_place import place_text
from sourloam.evidence.parameters import load_parameters
from sourloam.science.places.bed.bed import Bed
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.bed.place import BedPlace
from sourloam.science.places.offer import PlaceState
from sourloam.service.bed import AskedBed, judge_bed
from sourloam.service.product import AskedProduct
from sourloam.views.place import Decision
from sourloam.views.place_json import place_object

APRIL = date(2027, 4, 15)


def bed(product="10 kg", on=APRIL, *, state=None, animal=None, anyway=False, **asked):
    given = AskedProduct(on, on, product=product, state=state, animal=animal, is_anyway=anyway, members=100)
    return judge_bed(AskedBed(given, **asked)).view


def value(view, name):
    return next(each.value for each in (*view.numbers, *view.behind) if each.name == name)


def test_a_usual_bed_takes_a_bucket_and_says_what_would_end_first():
    view = bed(area="9 m2", crop="tomato")
    assert view.decision is Decision.YES
    assert view.says == "dig in all 10.0 kg."
    assert "phosphorus" in view.because[0]


def test_a_bed_too_small_takes_a_part_and_sends_the_rest_elsewhere():
    view = bed("30 kg", area="2 m2", crop="tomato")
    assert view.tables["takes_kg"] == pytest.approx(2.0 * value(view, "dose_kg_per_m2"), rel=0.05)
    assert "go elsewhere" in view.says


def test_colder_months_never_give_an_earlier_day():
    rests = [value(bed(on=date(2027, month, 1)), "rest_days_transplant") for month in (7, 4, 12)]
    assert rests == sorted(rests)


def test_a_reading_of_the_soil_corrects_its_forecast():
    cold, plain, warm = (value(bed(soil_temp=each), "rest_days_sowing") for each in ("6 C", None, "15 C"))
    assert warm < plain < cold


def test_root_crops_wait_longest_and_plants_least():
    view = bed()
    assert value(view, "rest_days_transplant") < value(view, "rest_days_sowing") < value(view, "rest_days_root_crop")


@pytest.mark.parametrize(
    ("asked", "decision", "says"),
    [
        ({"soil": "frozen"}, Decision.NOT_YET, "frozen"),
        ({"soil": "waterlogged"}, Decision.NOT_YET, "stands in water"),
        ({"well": "20 m"}, Decision.NO, "50 m are kept"),
        ({"stream": "6 m"}, Decision.NO, "10 m are kept"),
        ({"slope": "30 %"}, Decision.NO, "a slope of 30 %"),
        ({"tree": "0.5 m"}, Decision.NO, "keep 1 m off"),
        ({"depth": "12 cm"}, Decision.NO, "leave no room"),
        ({"given": "17 g/m2"}, Decision.NOT_YET, "nitrogen of the year"),
        ({"state": "unfinished"}, Decision.NOT_YET, "not ready"),
        ({"state": "failed"}, Decision.NO, "core of a pile that heats"),
        ({"state": "unknown"}, Decision.NO, "nobody knows"),
        ({"state": "failed", "is_food": False}, Decision.YES, "dig"),
        ({"state": "unfinished", "anyway": True}, Decision.YES, "dig"),
    ],
)
def test_what_speaks_against_a_bed_is_said_first(asked, decision, says):
    view = bed(**asked)
    assert view.decision is decision
    assert says in view.says
    assert place_object(view)["decision"] == decision.value


def test_free_lime_takes_the_acid_and_so_the_soil_does_not_turn():
    assert value(bed(fizz=True), "shift_ph") == 0.0
    assert value(bed(), "shift_ph") > 0.0


def test_a_harvest_waits_for_the_longest_of_all_rules_and_all_are_shown():
    # 7 CFR 205.203(c)(1): 120 days where it touches the soil, 90 where not; six months in soil beside it
    touching, high = bed(animal=True, crop="lettuce"), bed(animal=True, crop="sweetcorn")
    assert (value(touching, "earliest_harvest_days"), value(high, "earliest_harvest_days")) == (183.0, 90.0)
    local = bed(animal=True, crop="lettuce", local_wait="12 months")
    assert value(local, "earliest_harvest_days") == pytest.approx(365.25)
    assert all(each in place_text(local) for each in ("365 days", "120 days", "183 days"))
    assert "earliest_harvest_days" not in place_object(bed())["figures"]


def test_only_a_passed_seedling_test_ends_a_rest_early():
    lain = {"dug": date(2027, 4, 1), "on": APRIL}
    assert bed(**lain).decision is Decision.NOT_YET
    assert bed(seedlings="9/10", **lain).decision is Decision.YES
    assert bed(seedlings="6/10", **lain).decision is Decision.NOT_YET
    assert "Root crops" in place_text(bed(seedlings="9/10", **lain))


def test_unfinished_scraps_tie_up_more_nitrogen():
    ready, raw = (bed(state=each, anyway=True, area="9 m2") for each in ("ready", "unfinished"))
    assert value(raw, "n_first_third_g_per_m2") < value(ready, "n_first_third_g_per_m2")


def test_every_crop_of_the_table_has_its_credit():
    credit = bed(area="4 m2").tables["crops"]
    assert len(credit) >= 25
    assert all(each["credit_pct"]["low"] <= each["credit_pct"]["value"] for each in credit)


def test_all_faults_are_named_at_once():
    with pytest.raises(BadInput) as caught:
        bed(area="0 m2", ph=15.0, crop="triffid", seedlings="ten")
    said = str(caught.value)
    assert all(each in said for each in ("--area", "--ph: 15 is no pH of a soil", "triffid", "--seedlings"))


@pytest.mark.parametrize("name", ["carbon", "nitrogen", "phosphorus", "potassium", "sodium"])
def test_what_a_batch_holds_is_on_the_ground_and_none_of_it_twice(name):
    given = AskedProduct(APRIL, APRIL, product="10 kg", members=100)
    found = judge_bed(AskedBed(given, area="40 m2", crop="tomato"))
    on_ground = 40.0 * found.dug.figures[f"{name}_g_per_m2"].members
    assert np.allclose(on_ground, found.given.content[f"{name}_g"].members, rtol=1e-9)


def test_twice_the_batch_is_never_less_salt():
    once, twice = (value(bed(each, area="6 m2", crop="tomato"), "salt_g_per_m2") for each in ("4 kg", "8 kg"))
    assert twice >= once


@pytest.mark.parametrize("month", [1, 3, 5, 7, 9, 11])
def test_the_verb_and_the_plan_let_a_bed_rest_for_the_same_time(month):
    on = date(2027, month, 10)
    given = AskedProduct(on, on, product="10 kg", members=100)
    found = judge_bed(AskedBed(given, area="20 m2"))
    place = BedPlace(Bed("bed", 20.0), load_parameters(BedParameters, "bed"))
    product = found.given.content.product()
    _, effect = place.after(PlaceState("bed"), product, product.mass_kg, on, climate=found.given.climate)
    assert value(found.view, "rest_days_transplant") == (effect.usable_on - on).days


def test_the_deeper_it_is_dug_the_less_sour_and_salty_the_soil_turns():
    shallow, deep = (bed(area="4 m2", depth=each) for each in ("25 cm", "50 cm"))
    assert value(deep, "shift_ph") < value(shallow, "shift_ph")
    assert value(deep, "soil_ds_per_m") < value(shallow, "soil_ds_per_m")
