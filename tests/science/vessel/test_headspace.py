"""`science.vessel.headspace`: gas that cannot get out presses as an ideal gas does."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.vessel.headspace import gauge_bar

R_BAR_L = 0.083145  # L bar / (mol K): R of the 2019 SI, 8.314463 J/(mol K)
CELSIUS_K = 293.15


@given(mol=st.floats(1e-4, 10.0), room_l=st.floats(0.1, 100.0))
def test_moles_in_a_room_press_by_the_gas_law(mol, room_l):
    """What they would fill at one atmosphere is what they press when shut in."""
    gas_l = mol * R_BAR_L * CELSIUS_K / 1.01325
    assert gauge_bar(gas_l, room_l) == pytest.approx(mol * R_BAR_L * CELSIUS_K / room_l, rel=1e-6)


def test_no_gas_presses_nothing_and_half_the_room_doubles_it():
    assert gauge_bar(0.0, 2.0) == 0.0
    assert gauge_bar(3.0, 1.0) == pytest.approx(2.0 * gauge_bar(3.0, 2.0))
