"""`views.as_json`: plain objects, finite, with ISO dates, under a schema's name."""

import json
import math
import re
from datetime import date

import pytest

from sourloam.base.errors import BadInput, Problem
from sourloam.plan.year import plan_year
from sourloam.views.as_json import plan_object, reason_object
from sourloam.views.plan import view_of
from sourloam.views.problems import error_object, problems_object
from tests.fleet.sites import question
from tests.plan.plans import FILES, PAILS, asked, planned

every_plan = pytest.mark.parametrize("name", FILES)
FROZEN = '[[vessel]]\nid = "pail"\nvolume = "20 L"\ntemperature = "-5 C"\n'
DATES = ("first", "last", "first_layer", "sealed", "ready", "ready_low", "ready_high", "placed", "date", "on", "usable")


def view(name):
    names = {each.id: each.id for part in asked(name).site.parts().values() for each in part}
    return view_of(planned(name), names, asked(name).sources)


def walked(held, key=""):
    """Give every value of an object with the key that it stands under."""
    if isinstance(held, dict):
        for name, each in held.items():
            yield from walked(each, name)
    elif isinstance(held, list):
        for each in held:
            yield from walked(each, key)
    else:
        yield key, held


@every_plan
def test_a_plan_is_plain_finite_json(name):
    held = plan_object(view(name))
    assert json.loads(json.dumps(held, allow_nan=False)) == held
    for _, value in walked(held):
        assert value is None or isinstance(value, str | bool | int | float)
        assert not isinstance(value, float) or math.isfinite(value)


@every_plan
def test_a_plan_has_the_fields_that_the_format_promises(name):
    held = plan_object(view(name))
    assert held["schema"] == "sourloam.plan/1"
    assert isinstance(held["summary"], str)
    assert isinstance(held["enough"], bool)
    assert held["figures"].keys() >= {
        *("scraps_kg_per_year", "vessels_needed", "stall_days_per_year", "bran_kg_per_year", "leachate_l_per_year"),
    }
    batch = {"id", "vessel", "first_layer", "sealed", "ready", "ready_low", "ready_high", "placed", "place"}
    assert all(each.keys() >= batch for each in held["batches"])
    assert all(each.keys() >= {"id", "subject", "date", "what", "because"} for each in held["tasks"])
    assert all(isinstance(each, str) for each in (*held["cautions"], *held["assumptions"]))


@every_plan
def test_dates_are_iso_8601(name):
    days = [value for key, value in walked(plan_object(view(name))) if key in DATES and value is not None]
    assert days
    assert all(date.fromisoformat(each).isoformat() == each for each in days)


@every_plan
def test_a_figure_is_a_value_in_its_interval_with_a_unit(name):
    for figure in plan_object(view(name))["figures"].values():
        assert figure["low"] <= figure["value"] <= figure["high"]
        assert re.fullmatch(r"[A-Za-z0-9%/{}\[\].]+", figure["unit"])


def test_a_figure_that_no_member_supports_is_null():
    # Nothing ferments at -5 °C: no number of days, and no number of vessels, would do.
    asking = question(vessel=FROZEN)
    held = plan_object(view_of(plan_year(asking), {}, asking.sources))
    assert held["figures"]["ferment_days_coldest"] is None
    assert held["figures"]["vessels_needed"] is None
    assert held["enough"] is False
    assert json.dumps(held, allow_nan=False)
    assert all(each["ready"] is None for each in held["batches"])


def test_a_chance_of_never_stands_beside_the_figure():
    # At 0 °C half of the members are under their least temperature.
    asking = question(vessel=FROZEN.replace("-5 C", "0.5 C"))
    figure = plan_object(view_of(plan_year(asking), {}, asking.sources))["figures"]["ferment_days_coldest"]
    assert 0.0 < figure["never"] < 1.0
    assert math.isfinite(figure["high"])


def test_tasks_in_json_are_those_of_the_plan():
    held = plan_object(view(PAILS))
    assert [each["id"] for each in held["tasks"]] == [each.id for each in planned(PAILS).tasks]


def test_a_reason_is_a_tree_of_figures_with_their_sources():
    reason = reason_object(view(PAILS).reasons["bran_kg_per_year"])
    assert reason["schema"] == "sourloam.reason/1"
    assert reason["formula"].startswith("scraps × ")
    assert next(each["name"] for each in reason["inputs"]) == "scraps_kg_per_year"
    assert json.dumps(reason, allow_nan=False)


def test_faults_are_told_one_by_one_with_line_and_cure():
    fault = Problem('vessel "blue"', 'volume = "18 kg" is a mass;', 'write "18 L".', 5, "vessel.0.volume")
    held = problems_object(BadInput("yard.toml", (fault, Problem("", "it is empty;", "begin with format = 1."))))
    assert held["schema"] == "sourloam.problems/1"
    assert held["problems"][0] == {
        "file": "yard.toml",
        "line": 5,
        "key": "vessel.0.volume",
        "found": 'vessel "blue": volume = "18 kg" is a mass;',
        "try": 'write "18 L".',
    }
    assert held["problems"][1]["found"] == "it is empty;"
    assert held["problems"][1]["line"] is None


def test_an_error_names_its_kind():
    held = error_object("surroundings", OSError("the disk is full."))
    assert held == {"schema": "sourloam.error/1", "kind": "surroundings", "says": "the disk is full."}
