"""The figures of a plan: each recomputes from its leaves, rests on known sources, and agrees with the lived year."""

import numpy as np
import pytest

from sourloam.base.figure import recomputed
from sourloam.base.source import Basis
from sourloam.plan.simulated import RUNS
from sourloam.plan.year import plan_year
from tests.plan.plans import FILES, PAILS, asked, garden, lived, planned

every_plan = pytest.mark.parametrize("name", FILES)


def leaves(figure):
    if not figure.inputs:
        yield figure
    for _, each in figure.inputs:
        yield from leaves(each)


@every_plan
def test_every_tree_of_reasons_recomputes_from_its_leaves(name):
    for figure in planned(name).figures.values():
        assert figure.inputs or figure.source, figure.name
        assert np.array_equal(recomputed(figure), figure.members, equal_nan=True), figure.name


@every_plan
def test_every_leaf_has_a_known_source_a_basis_and_a_unit(name):
    sources = asked(name).sources
    for figure in planned(name).figures.values():
        for each in leaves(figure):
            assert each.source in sources, (figure.name, each.name)
            assert isinstance(each.basis, Basis)
            assert each.unit
            assert each.words


@every_plan
def test_what_was_recalled_or_judged_has_an_interval(name):
    # A value without a source is no certainty. A recipe that a keeper follows is one, and so are limits by rule.
    for figure in planned(name).figures.values():
        for each in leaves(figure):
            if each.basis in (Basis.MEMORY, Basis.JUDGEMENT):
                assert each.low < each.high, (figure.name, each.name)


@every_plan
def test_every_figure_has_its_name_its_words_and_an_interval_around_it(name):
    for key, figure in planned(name).figures.items():
        assert figure.name == key
        assert figure.words != key
        assert figure.unit
        assert np.isnan(figure.value) or figure.low <= figure.value <= figure.high


@every_plan
def test_the_scraps_of_the_year_are_those_that_came_day_by_day(name):
    came = sum(day.scraps_kg for day in lived(name).days)
    assert planned(name).figures["scraps_kg_per_year"].value == pytest.approx(came, rel=0.01)


@every_plan
def test_the_bran_of_the_year_is_that_of_the_layers_where_nothing_is_turned_away(name):
    life = lived(name)
    loaded = sum(day.bran_kg for day in life.days)
    scraps = sum(day.scraps_kg for day in life.days)
    share = sum(load.contents.scraps_kg for load in life.loads) / scraps
    assert planned(name).figures["bran_kg_per_year"].value * share == pytest.approx(loaded, rel=0.03)


def test_a_vessel_fills_in_the_days_that_the_figure_says():
    # The closed form takes every vessel as filled evenly; the lived year loads it as the keeper does.
    _, life, plan = garden()
    full = [each for each in life.batches if each.sealed_on]
    days = np.mean([(each.sealed_on - each.first_layer_on).days for each in full])
    assert plan.figures["fill_days"].value == pytest.approx(days, abs=1.5)


def test_a_batch_is_ready_in_the_days_that_the_figure_says():
    plan = planned(PAILS)
    days = {(each.ready - each.sealed).days for each in plan.batches if each.sealed and each.ready}
    room = plan.figures["ferment_days_coldest"].value  # the pails stand indoors, at one temperature
    assert days == {int(np.ceil(room))}


@every_plan
def test_a_simulated_figure_names_what_ran(name):
    for key in ("vessels_needed", "stall_days_per_year", "turned_away_kg_per_year"):
        figure = planned(name).figures[key]
        assert "day by day" in figure.law.model
        assert figure.members.size == RUNS
        assert np.all((figure.members >= 0.0) | np.isnan(figure.members))


def test_the_same_question_gives_the_same_figures():
    asking, _, plan = garden()
    again = plan_year(asking)
    for name, figure in plan.figures.items():
        assert np.array_equal(figure.members, again.figures[name].members, equal_nan=True)
