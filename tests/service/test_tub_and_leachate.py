"""The use cases of a soil tub and of the liquid: decisions, what they say, and faults."""

from datetime import date

import pytest

from sourloam.base.errors import BadInput
from sourloam.cli.show_place import place_text
from sourloam.service.leachate import AskedLeachate, judge_leachate
from sourloam.service.product import AskedProduct
from sourloam.service.tub import AskedTub, judge_tub
from sourloam.views.place import Decision

MAY = date(2027, 5, 1)


def asked(product=None, state=None):
    return AskedProduct(MAY, MAY, product=product, state=state, members=100)


def tub(product="10 kg", state=None, **more):
    return judge_tub(AskedTub(asked(product, state), **more))


def liquid(**more):
    return judge_leachate(AskedLeachate(asked(), **{"liquid": "500 ml", **more}))


def value(view, name):
    return next(each.value for each in (*view.numbers, *view.behind) if each.name == name)


def test_a_tub_takes_a_bucket_and_is_soil_sooner_where_it_is_warm():
    warm, cool = tub(temp="22 C"), tub(temp="10 C")
    assert warm.decision is cool.decision is Decision.YES
    assert value(warm, "days") < value(cool, "days")


def test_a_small_tub_takes_a_part():
    view = tub("20 kg", volume="40 L")
    assert 0.0 < view.tables["takes_kg"] < 20.0
    assert "go elsewhere" in place_text(view)


def test_tubs_keep_up_with_how_often_a_batch_comes():
    assert value(tub(every="1 week"), "tubs") > value(tub(every="6 weeks"), "tubs")


@pytest.mark.parametrize(
    ("more", "decision", "says"),
    [
        ({"state": "failed"}, Decision.NO, "it failed"),
        ({"state": "unfinished"}, Decision.NOT_YET, "not ready"),
        ({"temp": "-4 C"}, Decision.NOT_YET, "frozen"),
        ({"filled": date(2027, 4, 20)}, Decision.NOT_YET, "it has lain 11 days"),
        ({"filled": date(2027, 2, 1)}, Decision.YES, "it is soil"),
    ],
)
def test_a_tub_says_no_and_not_yet_where_it_must(more, decision, says):
    view = tub(**more)
    assert view.decision is decision
    assert says in view.says


@pytest.mark.parametrize(
    ("more", "decision"),
    [
        ({}, Decision.YES),
        ({"dilute": "1:10"}, Decision.NO),
        ({"dilute": "1:1000", "for_what": "seedlings"}, Decision.YES),
        ({"for_what": "pond"}, Decision.NO),
        ({"for_what": "drain"}, Decision.ASK),
        ({"for_what": "pile", "drawn": "3 days"}, Decision.YES),
        ({"drawn": "3 days"}, Decision.NO),
        ({"soil": "frozen"}, Decision.NOT_YET),
        ({"soil": "waterlogged"}, Decision.NOT_YET),
    ],
)
def test_where_the_liquid_may_go(more, decision):
    view = liquid(**more)
    assert view.decision is decision
    assert view.tables["drink"] == "never"


@pytest.mark.parametrize("to", ["seedlings", "pots", "bed", "fruiting", "trees"])
@pytest.mark.parametrize("ec", [2.0, 15.0, 50.0])
def test_nothing_stronger_than_one_in_a_hundred_goes_on_plants(to, ec):
    assert value(liquid(for_what=to, ec=ec), "dilution") >= 100.0


def test_a_stronger_liquid_is_thinned_more_and_makes_more_feed():
    weak, strong = (liquid(ec=each, target_ec=0.5, water_ec=0.4) for each in (10.0, 50.0))
    assert value(strong, "dilution") > value(weak, "dilution") >= 100.0


def test_the_winter_sink_names_litres_of_dry_browns():
    assert "L of cardboard" in place_text(liquid(soil="frozen"))


def test_faults_are_named_at_once():
    with pytest.raises(BadInput, match=r"(?s)--liquid.*--target-ec"):
        liquid(liquid="0 ml", target_ec=0.3)
    with pytest.raises(BadInput, match=r"(?s)--volume.*--ratio"):
        tub(volume="0 L", ratio=0.0)
