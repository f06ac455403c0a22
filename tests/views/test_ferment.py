"""`views.ferment`: what is said of a forecast follows from its members; the JSON is plain and finite."""

import json
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.views.ferment_json import ferment_object
from sourloam.views.ferment_words import RARE, chance_words, interval_of
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.views.test_as_json import walked

FIGURES = {
    *("soured_day", "ready_day", "due_day", "chance_not_ready", "final_ph", "leachate_l", "dry_matter_loss_pct"),
    *("nitrogen_loss_pct", "lactic_g_per_kg"),
}
TOLD = section(CLI, "sourloam.ferment/1")
KINDS = ["drowned", "mouldy", "putrid", "stuck", "yeasty"]


def test_the_forecast_is_plain_finite_json(forecast):
    held = ferment_object(forecast)
    assert json.loads(json.dumps(held, allow_nan=False)) == held
    for _, value in walked(held):
        assert value is None or isinstance(value, str | bool | int | float)
        assert not isinstance(value, float) or math.isfinite(value)


def test_it_has_the_fields_that_the_format_promises(forecast):
    held = ferment_object(forecast)
    assert held["schema"] == "sourloam.ferment/1"
    assert held["figures"].keys() >= FIGURES
    assert ("hold_day" in held["figures"]) == forecast.batch.has_animal
    assert held["course"]["day"] == list(range(len(held["course"]["day"])))
    for name in ("ph", "leachate_l", "gas_l", "lactic_g_per_kg_water"):
        course = held["course"][name]
        assert {len(course[each]) for each in ("median", "low", "high")} == {len(held["course"]["day"])}
    assert sorted(each["kind"] for each in held["failing"]) == KINDS
    assert [each["rank"] for each in held["failing"]] == [1, 2, 3, 4, 5]
    assert {each["word"] for each in held["failing"]} <= {"low", "raised", "high"}
    assert all(each["because"] for each in held["failing"])
    assert held["because"]
    assert all({"do", "amount", "unit", "because"} <= each.keys() for each in held["advice"])


def test_every_field_is_told(forecast):
    held = ferment_object(forecast)
    found = {re.sub(r"^course\.(?!day)\w+", "course.NAME", path) for path in paths(held)}
    told = set(first_cells(TOLD))
    assert {path for path in found if path != "figures.NAME"} <= told
    empty = tuple(f"{name}[]" for name in ("advice", "hints", "assumptions") if not held[name])
    assert {each for each in told - found if not each.startswith(empty or "-")} <= {"figures.NAME.never"}
    assert all(f"`{name}`" in TOLD for name in (*held["figures"], *held["course"]) if name != "day")


def test_a_figure_lies_in_its_interval(forecast):
    for number in forecast.numbers:
        if number.value is not None:
            assert number.low <= number.value <= number.high


def test_every_course_lies_in_its_band(forecast):
    for course in forecast.course.values():
        rows = zip(course.low, course.median, course.high, strict=True)
        assert all(low <= middle <= high for low, middle, high in rows if middle is not None)


def test_a_batch_is_due_no_sooner_than_it_is_ready_and_not_before_the_least_time(forecast):
    ready, due = forecast.number("ready_day"), forecast.number("due_day")
    if ready.value is not None:
        assert due.value >= max(ready.value, forecast.batch.least_d)


def test_no_chance_is_told_finer_than_1_in_50(forecast):
    chance = forecast.number("chance_not_ready")
    assert chance.high >= RARE
    assert "%" not in forecast.says
    assert not re.search(r"\b[01] of 100\b", forecast.says)


def test_dates_are_said_where_they_are_known(forecast_named):
    assert " Mar" in forecast_named("example").heading
    assert " Mar" not in forecast_named("barbecue").says
    assert "on day " in forecast_named("barbecue").says


def test_a_cold_week_shows_in_the_course(forecast_named):
    ph = forecast_named("example").course["ph"].median
    at_17, at_7 = ph[13] - ph[14], ph[15] - ph[21]
    assert at_7 / 6.0 < at_17


def test_meat_asks_for_a_hold_and_air_for_care(forecast_named):
    cautions = " ".join(forecast_named("barbecue").cautions)
    assert "Meat, fish, egg or dairy is in it" in cautions
    assert "bury it deep and off food beds" in cautions
    assert "Local rules go before this." in cautions
    assert "Meat" not in " ".join(forecast_named("frost").cautions)


def test_a_lid_that_cannot_breathe_is_vented_and_one_that_can_is_not(forecast_named):
    assert "Let gas out every day until day" in " ".join(forecast_named("barbecue").hints)
    assert "let the lid lift" in " ".join(forecast_named("example").hints)


def test_frost_before_it_has_soured_counts_as_fresh_and_a_full_vessel_may_crack(forecast_named):
    hints = " ".join(forecast_named("frost").hints)
    assert "what freezes before that counts as fresh" in hints
    assert "may crack in frost" in hints
    assert "freezing" not in " ".join(forecast_named("example").hints)


def test_where_nothing_gets_there_the_figure_is_null_and_the_words_say_so(forecast_named):
    view = forecast_named("frost")
    assert ferment_object(view)["figures"]["ready_day"] is None
    assert view.heading == "Not ready within 20 days after the last layer."
    assert not view.is_likely


def test_what_would_help_says_what_it_gives(forecast_named):
    advice = forecast_named("barbecue").advice
    assert advice
    assert all(re.search(r"(cases|ready on day)", each.because) for each in advice)


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "fewer than 1 in 50"),
        (0.019, "fewer than 1 in 50"),
        (0.03, "3 of 100"),
        (0.25, "5 of 20"),
        (0.93, "93 of 100"),
        (0.995, "more than 49 of 50"),
    ],
)
def test_a_chance_is_said_as_a_count(share, words):
    assert chance_words(share) == words


@given(st.integers(20, 5000), st.floats(0.0, 1.0))
def test_the_interval_of_a_share_holds_it_and_narrows_with_the_cases(count, part):
    share = round(part * count) / count
    low, high = interval_of(share, count)
    assert 0.0 <= low <= share + 1e-12
    assert share - 1e-12 <= high <= 1.0
    wider = interval_of(share, max(count // 4, 1))
    assert wider[1] - wider[0] >= high - low
