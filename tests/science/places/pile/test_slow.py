"""`science.places.pile.slow`: leaf mould, cold piles, saving up; custom, since nobody measured them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.parameters import load_parameters
from sourloam.science.places.pile import slow

P = load_parameters(slow.SlowParameters, "slow_pile")


def mould(**given_):
    usual = {"is_tough": False, "is_shredded": False, "is_dry": False, "months": 12.0}
    return slow.leaf_figures(200.0, P, **(usual | given_))


def test_leaf_mould_takes_what_custom_says():
    """Common practice, no source: one to two years; half a year shredded; up to three years where leaves are thick."""
    assert 10.0 <= mould()["mould_months"].value <= 24.0
    assert 4.0 <= mould(is_shredded=True)["mould_months"].value <= 9.0
    assert mould(is_tough=True)["mould_months"].high >= 36.0
    assert mould(is_shredded=True)["left_l"].value <= 100.0  # half or less within a year


def test_a_batch_vanishes_from_a_cold_pile_in_two_to_four_weeks_in_season():
    """Common practice, no source."""
    assert 14.0 <= slow.vanish_d(P.vanish_d.value, 2.0, 18.0) <= 28.0


@given(mean=st.floats(0.0, 25.0), colder=st.floats(0.1, 10.0))
def test_in_the_cold_it_takes_longer(mean, colder):
    assert slow.cold_months(240.0, 2.0, mean - colder) > slow.cold_months(240.0, 2.0, mean)
    assert slow.vanish_d(21.0, 2.0, mean - colder) > slow.vanish_d(21.0, 2.0, mean)


@given(weekly=st.floats(5.0, 500.0), vessel=st.floats(10.0, 300.0))
def test_saved_up_there_is_enough_and_room_for_it(weekly, vessel):
    figures = slow.saving_figures(weekly, 750.0, vessel, P)
    assert figures["saving_weeks"].value * weekly == pytest.approx(750.0)
    assert figures["vessels"].value * vessel >= 750.0 * P.pressed_frac.low - vessel


def test_soured_it_keeps_its_nitrogen_and_lying_it_does_not():
    figures = slow.saving_figures(60.0, 750.0, 60.0, P)
    assert figures["lost_soured_pct"].high < figures["lost_lying_pct"].value


def test_sacks_hold_what_is_wanted():
    assert slow.sacks(810.0, 80.0) == 11.0
