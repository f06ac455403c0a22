"""`science.materials.recipe`: published worked examples, and that an answer meets its goal or says that none does."""

import csv
import json
from pathlib import Path

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.materials.mix import Ingredient, mix_carbon_to_nitrogen, mix_moisture_wb_frac
from sourloam.science.materials.recipe import (
    NoRecipe,
    Recipe,
    added_for_both_kg,
    added_for_moisture_kg,
    added_for_ratio_kg,
    nitrogen_source_kg,
    recipe,
    water_to_add_kg,
)
from tests.published import Published

EXAMPLES = {
    row["id"]: row
    for row in csv.DictReader(
        (Path(__file__).parent / "data" / "recipe_worked_examples.csv").read_text("utf-8").splitlines()
    )
}
LEAVES = Published("cornell_moisture", "leaves for 60 %, kg", given=(10.0, 0.77, 0.35, 0.60), want="6.8")
UREA = Published("extension_351921", "urea for 400 lb of sawdust, lb", given=(240.0, 0.6, 30.0, 0.46), want="16")
PARTS = st.builds(Ingredient, st.floats(0.1, 100.0), st.floats(0.05, 0.95), st.floats(0.2, 0.6), st.floats(0.001, 0.1))


def handbook(nitrogen_pct, carbon_pct, moisture_pct, mass=1.0):
    return Ingredient(mass, moisture_pct / 100.0, carbon_pct / 100.0, nitrogen_pct / 100.0)


def weighing(part, mass_kg):
    return Ingredient(mass_kg, part.moisture_wb_frac, part.carbon_db_frac, part.nitrogen_db_frac)


def test_leaves_for_a_moisture_are_as_published():
    mass, first, second, goal = LEAVES.given
    added = added_for_moisture_kg(Ingredient(mass, first, 0.4, 0.02), Ingredient(0.0, second, 0.4, 0.02), goal)
    assert added == pytest.approx(float(LEAVES.want), abs=LEAVES.tolerance)


def test_urea_for_sawdust_is_as_published():
    carbon, nitrogen, goal, held = UREA.given
    assert nitrogen_source_kg(carbon, nitrogen, goal, held) == pytest.approx(float(UREA.want), abs=UREA.tolerance)


@pytest.mark.parametrize("case", [(LEAVES, "R02"), (UREA, "R08")], ids=["R02", "R08"])
def test_the_printed_cases_are_those_of_the_copied_table(case):
    printed, key = case
    assert (EXAMPLES[key]["basis"], EXAMPLES[key]["expected"]) == ("READ", printed.want)


@pytest.mark.parametrize("key", ["R09", "R12", "R13"])
def test_recalled_ratio_examples_regression(key):
    """Recalled or worked out beside the source: it holds the code to yesterday, and is no evidence."""
    given_, row = json.loads(EXAMPLES[key]["inputs_json"]), EXAMPLES[key]
    first = handbook(given_["n1"], given_["c1"], given_["m1"], given_["q1_kg"])
    added = added_for_ratio_kg(first, handbook(given_["n2"], given_["c2"], given_["m2"]), given_["goal_cn"])
    assert added == pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("key", ["R16", "R17"])
def test_recalled_examples_with_three_materials_regression(key):
    """Worked out beside the source: it holds the code to yesterday, and is no evidence."""
    said, row = json.loads(EXAMPLES[key]["inputs_json"]), EXAMPLES[key]
    first, second, third = handbook(*said["mat1"], said["q1_kg"]), handbook(*said["mat2"]), handbook(*said["mat3"])
    both = added_for_both_kg(first, second, third, goal_wb_frac=said["goal_m"] / 100.0, goal=said["goal_cn"])
    assert np.abs(np.subtract(both, json.loads(row["expected"]))) == pytest.approx(0.0, abs=0.02)


def test_recalled_water_example_regression():
    """Worked out beside the source: it holds the code to yesterday, and is no evidence."""
    dry, wet = 7.12, 16.0
    assert water_to_add_kg(Ingredient(wet, 1.0 - dry / wet, 0.4, 0.02), 0.60) == pytest.approx(1.80, abs=0.01)


@given(PARTS, PARTS, st.floats(0.1, 0.9))
def test_what_is_added_for_moisture_meets_it(first, second, goal):
    low, high = sorted((first.moisture_wb_frac, second.moisture_wb_frac))
    assume(low + 0.01 < goal < high - 0.01)
    added = added_for_moisture_kg(first, second, goal)
    assert mix_moisture_wb_frac(first, weighing(second, added)) == pytest.approx(goal)


@given(PARTS, PARTS, st.floats(0.1, 0.9))
def test_what_is_added_for_a_ratio_meets_it(first, second, between):
    low, high = sorted(mix_carbon_to_nitrogen(each) for each in (first, second))
    assume(low * 1.2 < high)
    goal = low ** (1.0 - between) * high**between
    added = added_for_ratio_kg(first, second, goal)
    assert mix_carbon_to_nitrogen(first, weighing(second, added)) == pytest.approx(goal)


@given(PARTS, PARTS, st.floats(1.0, 500.0))
def test_a_ratio_beyond_both_gives_no_amount(first, second, goal):
    low, high = sorted(mix_carbon_to_nitrogen(each) for each in (first, second))
    assume(goal < low * 0.99 or goal > high * 1.01)
    assert isinstance(recipe(added_for_ratio_kg(first, second, goal)), NoRecipe)


@given(PARTS, st.floats(0.1, 0.9))
def test_water_added_meets_the_goal(first, goal):
    water = water_to_add_kg(first, goal)
    assert (first.water_kg + water) / (first.mass_kg + water) == pytest.approx(goal)


@given(PARTS, PARTS, PARTS, st.floats(0.3, 0.8), st.floats(10.0, 60.0))
def test_two_materials_meet_both_goals_or_none_do(first, second, third, goal_wb_frac, goal):
    answer = recipe(*added_for_both_kg(first, second, third, goal_wb_frac=goal_wb_frac, goal=goal))
    if isinstance(answer, NoRecipe):
        assert min(answer.added_kg) < 0.0 or np.inf in answer.added_kg
        return
    assume(max(answer.added_kg) < 1e5)
    parts = (first, weighing(second, answer.added_kg[0]), weighing(third, answer.added_kg[1]))
    assert mix_moisture_wb_frac(*parts) == pytest.approx(goal_wb_frac, rel=1e-4)
    assert mix_carbon_to_nitrogen(*parts) == pytest.approx(goal, rel=1e-4)


def test_what_cannot_be_met_says_so_and_is_not_clipped():
    food, straw, leaves = handbook(2.4, 36, 69, 10.0), handbook(0.7, 56, 12), handbook(0.9, 48.6, 38)
    answer = recipe(
        *added_for_both_kg(food, straw, leaves, goal_wb_frac=0.55, goal=30.0), names=("straw", "dry leaves")
    )
    assert str(answer) == (
        "These materials cannot meet that goal in any amounts: it would take -0.427 kg of straw, 9.32 kg of dry leaves."
    )


def test_a_material_of_the_wanted_moisture_already_gives_no_amount():
    first, second = handbook(2.0, 40, 70), handbook(1.0, 40, 60)
    assert isinstance(recipe(added_for_moisture_kg(first, second, 0.60)), NoRecipe)


def test_what_can_be_met_is_a_recipe():
    first, second = handbook(2.4, 45, 77, 10.0), handbook(0.75, 50, 35)
    assert recipe(added_for_moisture_kg(first, second, 0.60)) == Recipe((pytest.approx(6.8),))


def test_members_are_solved_each_for_itself():
    moistures = np.linspace(0.70, 0.85, 200)
    added = added_for_moisture_kg(Ingredient(10.0, moistures, 0.4, 0.02), Ingredient(0.0, 0.1, 0.4, 0.01), 0.6)
    assert np.shape(added) == (200,)
    assert np.all(np.diff(added) > 0.0)


def test_a_goal_that_no_pile_has_is_refused():
    with pytest.raises(OutOfRange, match=r"^goal = 0 is outside 1 to 1000: no pile is made for such a C:N."):
        added_for_ratio_kg(handbook(2, 40, 60), handbook(1, 40, 60), 0.0)


def test_a_source_without_nitrogen_is_refused():
    with pytest.raises(OutOfRange, match="it would be no source of nitrogen"):
        nitrogen_source_kg(240.0, 0.6, 30.0, 0.0)
