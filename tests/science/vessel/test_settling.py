"""`science.vessel.settling`: its limits, and what a vessel holds against summing the days one by one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.vessel.settling import holds_kg, settled_frac

SETTLES = st.floats(0.0, 0.5)
SETTLING_D = st.floats(0.5, 12.0)
FILLING_D = st.floats(0.2, 60.0)


@given(SETTLES, SETTLING_D)
def test_a_fresh_layer_has_not_settled_and_an_old_one_has_settled_in_full(settles, settling_d):
    assert settled_frac(0.0, settles, settling_d) == 1.0
    assert settled_frac(50.0 * settling_d, settles, settling_d) == pytest.approx(1.0 - settles)


@given(st.floats(0.0, 100.0), st.floats(0.0, 100.0), SETTLES, SETTLING_D)
def test_nothing_swells_again(age_d, more_d, settles, settling_d):
    assert settled_frac(age_d + more_d, settles, settling_d) <= settled_frac(age_d, settles, settling_d)


@given(SETTLES, SETTLING_D, FILLING_D)
def test_what_a_vessel_holds_is_the_sum_of_its_layers_as_they_have_settled(settles, settling_d, filling_d):
    held = holds_kg(18.0, 0.65, settles_frac=settles, settling_d=settling_d, filling_d=filling_d)
    slices = 4000
    ages_d = (np.arange(slices) + 0.5) * filling_d / slices
    room_l = np.sum(held / slices / 0.65 * settled_frac(ages_d, settles, settling_d))
    assert room_l == pytest.approx(18.0, rel=1e-5)


@given(SETTLES, SETTLING_D, FILLING_D, st.floats(0.0, 60.0))
def test_a_vessel_that_is_filled_slowly_holds_more_up_to_what_settling_gives_back(settles, settling_d, first, more):
    fast, slow = (
        holds_kg(18.0, 0.65, settles_frac=settles, settling_d=settling_d, filling_d=days)
        for days in (first, first + more)
    )
    assert 18.0 * 0.65 * (1 - 1e-9) <= fast <= slow * (1 + 1e-9)
    assert slow <= 18.0 * 0.65 / (1.0 - settles) * (1 + 1e-9)


def test_a_vessel_that_is_filled_at_once_holds_what_was_pressed_into_it():
    held = holds_kg(18.0, 0.65, settles_frac=0.2, settling_d=4.0, filling_d=0.0)
    assert held == pytest.approx(18.0 * 0.65)


def test_members_are_evaluated_side_by_side():
    settles = np.array([0.1, 0.2, 0.3])
    held = holds_kg(18.0, 0.65, settles_frac=settles, settling_d=4.0, filling_d=14.0)
    alone = [holds_kg(18.0, 0.65, settles_frac=each, settling_d=4.0, filling_d=14.0) for each in settles]
    assert held == pytest.approx(alone)
