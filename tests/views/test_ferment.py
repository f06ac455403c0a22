"""`views.ferment`: what is said of a forecast follows from its members; the JSON is plain and finite."""

import json
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.ferment.kernel import live_all
from sourloam.service.batches import AskedBatch
from sourloam.service.ferment import forecast_batch
from sourloam.views.ferment_json import ferment_object
from sourloam.views.ferment_verdict import HALF, RARE, chance_words
from sourloam.views.ferment_words import interval_of
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.architecture.tree import ROOT
from tests.views.forecasts import EXAMPLE, HARD, MEMBERS, NAMES
from tests.views.test_as_json import walked

FIGURES = {
    *("soured_day", "ready_day", "due_day", "chance_not_ready", "final_ph", "leachate_l", "dry_matter_loss_pct"),
    *("nitrogen_loss_pct", "lactic_g_per_kg"),
}
TOLD = section(CLI, "sourloam.ferment/1")
YARD = ROOT / "examples" / "quillet_yard.toml"
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


def test_half_of_all_cases_lie_within_the_nine_in_ten(forecast):
    for course in forecast.course.values():
        ends = (course.low, course.inner_low, course.median, course.inner_high, course.high)
        for held in zip(*ends, strict=True):
            assert None in held or list(held) == sorted(held)


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
    assert not re.search(r"\b0 of 20\b|of 100\b|of 50\b", forecast.says)


def test_dates_are_said_where_they_are_known(forecast_named):
    assert " Mar" in forecast_named("example").heading
    assert " Mar" not in forecast_named("fish").says
    assert "on day " in forecast_named("fish").says


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


def test_a_cold_week_a_leaky_lid_and_a_barbecue_give_three_courses_each_with_its_reason(tmp_path):
    text = EXAMPLE.read_text("utf-8")
    warm = text.replace('is = "7 C"', 'is = "17 C"')
    changed = {
        "warm": warm,
        "cold": text,
        "leaky": warm.replace('# leak = "2 L/day"', 'leak = "20 L/day"'),
        "barbecue": warm.replace(
            '"900 g vegetable peelings", "200 g cooked chicken"',
            '"1.2 kg raw chicken", "500 g bread", "400 g mayonnaise"',
        ),
    }
    assert len(set(changed.values())) == 4
    view = {}
    for name, held in changed.items():
        (tmp_path / f"{name}.toml").write_text(held, encoding="utf-8")
        asked = AskedBatch((str(tmp_path / f"{name}.toml"),), members=300)
        view[name] = forecast_batch(asked, compiler=live_all, is_advised=False)

    def day(name, figure):
        return view[name].number(figure).value

    assert day("cold", "ready_day") > day("warm", "ready_day") + 2.0
    assert "7 °C to 17 °C" in view["cold"].because
    assert view["leaky"].failing[0].kind == "mouldy"
    assert "air that gets in" in view["leaky"].failing[0].because
    assert view["warm"].failing[0].word != "high"
    assert day("barbecue", "due_day") > day("warm", "due_day")
    assert view["barbecue"].number("due_day").never_frac > view["warm"].number("due_day").never_frac
    assert max(view["barbecue"].course["ph"].median[14:]) > max(view["warm"].course["ph"].median[14:])
    assert "chicken" in view["barbecue"].says


def test_over_38_degrees_heat_is_warned_of_and_a_cooler_place_is_tried(forecast_named):
    hot = forecast_named("hot")
    assert "Heat: at 40 °C gas comes fast" in " ".join(hot.hints)
    assert "Heat" not in " ".join(forecast_named("example").hints)


def test_a_site_that_saw_many_batches_is_told_small_chances_and_others_are_not(tmp_path):
    site = tmp_path / "yard.toml"
    often = {}
    for batches in (0, 400):
        site.write_text(f"{YARD.read_text('utf-8')}\n[past]\nbatches = {batches}\n", encoding="utf-8")
        view = forecast_batch(AskedBatch(("blue-1/1",), site=site, members=MEMBERS), compiler=live_all)
        often[batches] = {each.often for each in view.failing}
    assert "fewer than 1 in 50" in often[0]
    assert any(re.fullmatch(r"1 in \d+", each) for each in often[400])


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
    assert all(re.search(r"(cases|sooner|get ready)", each.because) for each in advice)


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "fewer than 1 in 50"),
        (0.019, "fewer than 1 in 50"),
        (0.021, "1 of 20"),
        (0.25, "5 of 20"),
        (0.93, "19 of 20"),
        (0.979, "19 of 20"),
        (0.995, "nearly all"),
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


def said(view):
    return " ".join((view.says, view.because, *view.hints, *view.cautions))


@pytest.mark.parametrize("name", [*NAMES, *HARD])
def test_a_date_is_shown_only_where_half_of_the_cases_get_there(forecast_named, name):
    for number in forecast_named(name).numbers:
        if number.name.endswith("_day"):
            assert (number.value is None) == (number.never_frac > HALF)


@pytest.mark.parametrize("name", [*NAMES, *HARD])
def test_what_goes_wrong_as_often_as_not_is_never_likely(forecast_named, name):
    view = forecast_named(name)
    count = re.match(r"(\d+) of 20", view.goes_wrong)
    assert not (view.is_likely and (view.goes_wrong == "nearly all" or (count and int(count[1]) > 10)))
    if view.is_likely:
        assert f"It goes wrong in {view.goes_wrong} cases" in view.says
        assert view.number("ready_day").value is not None
        assert view.number("due_day").value is not None


@pytest.mark.parametrize("name", ["example", "fish"])
def test_nothing_is_due_before_it_was_held_sour(forecast_named, name):
    view = forecast_named(name)
    assert view.number("hold_day").value <= view.number("due_day").value


def test_meat_that_is_never_held_sour_has_no_day_and_is_called_failed(forecast_named):
    view = forecast_named("leaky")
    cautions = " ".join(view.cautions)
    assert "it is never held sour for a fortnight: treat it as failed." in cautions
    assert "leave it until day" not in cautions
    assert "It is sour then" not in said(view)
    assert not view.is_likely


@pytest.mark.parametrize("name", ["bare", "little"])
def test_meat_or_fish_without_bran_stays_out_however_well_the_model_thinks_of_it(forecast_named, name):
    view = forecast_named(name)
    assert "Leave out the raw white fish until there is bran." in view.says
    assert "No day above makes it safe." in " ".join(view.cautions)
    assert not view.is_likely
    assert {each.do for each in view.advice} <= {f"Strew {dose} g of bran on each kilogram" for dose in (10, 20, 30)}


def test_eggshell_needs_no_bran(forecast_named):
    assert "Leave out" not in forecast_named("shells").says


def test_what_does_not_fit_is_said_first_and_nothing_else_is_advised(forecast_named):
    view = forecast_named("over")
    assert view.heading.startswith("It does not fit: pressed it takes ")
    assert not view.is_likely
    assert view.advice == ()
    assert "Pressed it takes" not in " ".join(view.hints)


def test_rot_is_called_rot(forecast_named):
    view = forecast_named("rot")
    assert view.heading.startswith("It rots: ")
    assert "--days" not in view.says


def test_what_is_too_short_too_hot_or_frozen_is_said_so(forecast_named):
    assert "Only 5 days were looked at: follow it longer with --days." in forecast_named("short").says
    assert forecast_named("ice").heading.startswith("It stands frozen throughout")
    assert "Liquid: hardly any." in forecast_named("ice").hints
    oven = forecast_named("oven")
    assert "What holds it up: it is too hot for lactic bacteria." in oven.says
    assert "--days" not in oven.says
    assert "cold" not in said(oven)


def test_why_it_is_due_later_than_ready_is_what_makes_it_so(forecast_named):
    assert "since it must stay sour for a fortnight with raw white fish in it" in forecast_named("fish").says
    assert "since it is left shut for 14 days at least" in forecast_named("peel").says


@pytest.mark.parametrize("name", ["example", "leaky", "over", "fish", "many"])
def test_a_vessel_with_a_tap_is_not_given_a_way_out(forecast_named, name):
    view = forecast_named(name)
    told = (*(each.do for each in view.advice), *(each.because for each in view.failing))
    assert not [each for each in told if "way out" in each]


def test_every_way_of_going_wrong_has_its_count(forecast):
    for each in forecast.failing:
        assert re.fullmatch(r"fewer than 1 in 50|1?\d of 20|nearly all", each.often)
        if each.word != "low":
            assert each.often != "fewer than 1 in 50"


def test_what_was_laid_in_at_once_has_no_newest_layer(forecast_named):
    assert "newest" not in said(forecast_named("fish"))


def test_gas_has_one_rule_in_one_text(forecast_named):
    told = said(forecast_named("barbecue"))
    assert told.count("Let gas out every day") == 1
    assert "first week" not in told
