"""`base.figure`: every figure can be computed again from its leaves, and says what it rests on."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.figure import MEMBERS, Figure, derive, derived, law, law_of, leaf, recomputed, written
from sourloam.base.source import Basis
from sourloam.base.spread import Spread

POSITIVE = st.floats(0.1, 1000.0)


@law("mass = volume x density", unit="kg", source="handbook", place="table 2", basis=Basis.READ)
def mass_kg(volume_l, density_kg_per_l):
    return volume_l * density_kg_per_l


@law("twice a mass", unit="kg")
def doubled_kg(mass_kg):
    return 2.0 * mass_kg


@law("the days until scraps overflow", unit="d", model="a toy of a run")
def days_until_full(rate_l_per_d):
    return np.where(rate_l_per_d > 1.0, np.ceil(20.0 / rate_l_per_d), np.inf)


def lopsided(name, low=8.0, median=10.0, high=16.0, shape="normal"):
    return leaf(name, Spread(median, low, high, shape), "L", source="handbook", place="page 3", basis=Basis.READ)


def made_of(*members):
    return Figure("days", "d", np.array(members, dtype=float))


def tree():
    volume, density = lopsided("volume"), leaf("density", Spread(0.5, 0.4, 0.7, "lognormal"), "kg/L")
    return derive("doubled", doubled_kg, mass_kg=derive("mass", mass_kg, volume_l=volume, density_kg_per_l=density))


def test_a_tree_of_reasons_computes_again_from_its_leaves():
    figure = tree()
    assert np.array_equal(recomputed(figure), figure.members)


def test_a_derived_figure_evaluates_its_law_member_by_member():
    volume, density = lopsided("volume"), leaf("density", Spread(0.5, 0.4, 0.7, "lognormal"), "kg/L")
    mass = derive("mass", mass_kg, volume_l=volume, density_kg_per_l=density)
    assert np.array_equal(mass.members, volume.members * density.members)


def test_a_derived_figure_takes_formula_unit_source_and_basis_from_its_law():
    mass = derive("mass", mass_kg, volume_l=lopsided("volume"), density_kg_per_l=written("density", 0.5, "kg/L"))
    assert (mass.unit, mass.source, mass.place, mass.basis) == ("kg", "handbook", "table 2", Basis.READ)
    assert mass.law == law_of(mass_kg)
    assert [name for name, _ in mass.inputs] == ["volume_l", "density_kg_per_l"]


def test_the_same_leaves_give_the_same_members_again():
    assert np.array_equal(tree().members, tree().members)


def test_the_name_of_a_leaf_decides_its_stream():
    assert not np.array_equal(lopsided("one").members, lopsided("two").members)


def test_another_seed_gives_other_members():
    spread = Spread(10.0, 8.0, 16.0, "normal")
    assert not np.array_equal(leaf("x", spread, "L", seed=1).members, leaf("x", spread, "L", seed=2).members)


@pytest.mark.parametrize("shape", ["fixed", "normal", "lognormal", "uniform"])
def test_a_leaf_has_the_value_that_its_source_says(shape):
    assert lopsided("rest", shape=shape).value == 10.0


@pytest.mark.parametrize("shape", ["normal", "lognormal"])
def test_a_leaf_has_the_interval_that_its_source_says(shape):
    figure = lopsided("rest", shape=shape)
    assert (figure.low, figure.high) == (pytest.approx(8.0, rel=0.02), pytest.approx(16.0, rel=0.02))


def test_what_a_person_wrote_has_no_interval_and_says_what_was_typed():
    figure = written("volume", 18.0, "L", typed="18 L")
    assert (figure.low, figure.value, figure.high) == (18.0, 18.0, 18.0)
    assert (figure.source, figure.typed, figure.members.size) == ("keeper", "18 L", MEMBERS)


def test_a_function_without_a_law_cannot_give_a_figure():
    def unexplained(volume_l):
        return volume_l

    with pytest.raises(TypeError, match=r"^unexplained has no @law, so a figure from it could not be explained$"):
        derive("mass", unexplained, volume_l=lopsided("volume"))


def test_a_simulated_figure_takes_the_run_at_the_medians():
    rate = leaf("rate", Spread(3.0, 0.5, 9.0, "lognormal"), "L/d")
    figure = derive("days", days_until_full, rate_l_per_d=rate)
    assert figure.value == 7.0  # 20 L at 3 L/d
    assert figure.low <= figure.value <= figure.high
    assert figure.never_frac == np.mean(rate.members <= 1.0)


def test_a_simulated_figure_may_run_fewer_members_and_still_computes_again():
    rate = leaf("rate", Spread(3.0, 2.0, 5.0, "lognormal"), "L/d")
    figure = derived("days", days_until_full, {"rate_l_per_d": rate}, runs=20)
    assert np.array_equal(figure.members, days_until_full(rate.members[:20]))
    assert np.array_equal(recomputed(figure), figure.members)


def test_a_figure_of_fewer_runs_can_be_an_input():
    rate = leaf("rate", Spread(3.0, 2.0, 5.0, "lognormal"), "L/d")
    few = derived("days", days_until_full, {"rate_l_per_d": rate}, runs=20)
    mass = derive("mass", mass_kg, volume_l=few, density_kg_per_l=lopsided("density"))
    assert mass.members.size == 20
    assert np.array_equal(recomputed(mass), mass.members)


def test_a_law_that_gives_one_number_for_all_members_is_spread_over_them():
    @law("always the same", unit="1")
    def always(_volume_l):
        return 4.0

    figure = derive("four", always, _volume_l=lopsided("volume"))
    assert (figure.value, figure.members.size) == (4.0, MEMBERS)


def test_members_in_which_it_never_happens_are_left_out_of_the_interval():
    figure = made_of(1.0, 2.0, 3.0, np.inf)
    assert (figure.low, figure.value, figure.high) == (1.0, 2.0, 3.0)
    assert figure.never_frac == 0.25


def test_what_no_member_supports_has_no_value():
    figure = made_of(np.inf, np.inf)
    assert np.isnan([figure.low, figure.value, figure.high]).all()
    assert figure.never_frac == 1.0


@given(members=st.lists(POSITIVE, min_size=1, max_size=50))
def test_the_value_lies_within_its_interval_and_all_three_are_members(members):
    figure = made_of(*members)
    assert figure.low <= figure.value <= figure.high
    assert {figure.low, figure.value, figure.high} <= set(members)


def test_other_words_change_nothing_else():
    figure = tree()
    renamed = figure.called("twice the mass of the bucket")
    assert renamed.words == "twice the mass of the bucket"
    assert np.array_equal(renamed.members, figure.members)
    assert np.array_equal(recomputed(renamed), figure.members)
