"""`views.reason`: a figure opened down to what it rests on."""

import numpy as np
import pytest

from sourloam.base.figure import Figure
from sourloam.views.reason import leaves, number_of, reason_of
from tests.plan.plans import FILES, PAILS, asked, planned


def opened(name):
    return {key: reason_of(each, asked(name).sources) for key, each in planned(name).figures.items()}


def nodes(reason):
    yield reason
    for each in reason.inputs:
        yield from nodes(each)


@pytest.mark.parametrize("name", FILES)
def test_every_node_is_a_formula_with_inputs_or_a_value_with_a_source(name):
    for reason in opened(name).values():
        for node in nodes(reason):
            if node.inputs:
                assert node.formula
            else:
                assert node.source
                assert node.basis


@pytest.mark.parametrize("name", FILES)
def test_every_number_lies_in_its_interval(name):
    for reason in opened(name).values():
        for node in nodes(reason):
            number = node.number
            assert number.value is None or number.low <= number.value <= number.high
            assert number.unit
            assert number.words
            assert 0.0 <= number.never_frac <= 1.0


def test_what_the_keeper_wrote_is_shown_as_it_was_written():
    typed = [each.typed for each in leaves(opened(PAILS)["scraps_kg_per_year"])]
    assert "13 lb/week" in typed


def test_the_leaves_of_a_reason_are_all_that_has_no_inputs():
    reason = opened(PAILS)["leachate_l_per_year"]
    assert [each.number.name for each in leaves(reason)] == [
        node.number.name for node in nodes(reason) if not node.inputs
    ]


def test_a_simulated_figure_names_its_model_its_members_and_what_moves_it_most():
    reason = opened(PAILS)["stall_days_per_year"]
    assert "day by day" in reason.model
    assert "9 members" in reason.model
    names = {each.number.words for each in reason.inputs}
    assert reason.strongest
    assert set(reason.strongest) <= names


def test_an_input_that_moves_nothing_is_not_called_strong():
    still, moving = (Figure(name, "1", np.arange(20.0), words=name) for name in ("still", "moving"))
    still = Figure("still", "1", np.ones(20), words="still")
    law = planned(PAILS).figures["stall_days_per_year"].law
    moved = Figure("result", "d", moving.members**2, law=law, inputs=(("still", still), ("moving", moving)))
    assert reason_of(moved, {}).strongest == ("moving",)


def test_a_number_that_is_none_is_shown_as_none():
    number = number_of(Figure("days", "d", np.array([np.inf, np.inf])))
    assert (number.value, number.low, number.high, number.never_frac) == (None, None, None, 1.0)


def test_what_a_person_wrote_is_exact():
    assert number_of(Figure("year", "d", np.array([365.0, 365.0]))).is_exact
    assert not number_of(Figure("year", "d", np.array([364.0, 365.0, 366.0]))).is_exact
