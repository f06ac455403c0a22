"""`fleet.theory` and the simulation that must meet it: how many equal vessels keep one open at all times."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.fleet.theory import vessels_for
from tests.fleet.worlds import DAILY, PLAIN, rotation

# Worked by hand, as the spine asks for it: 14 days away, free outlet, a steady stream.
BY_HAND = [(14.0, 2), (7.0, 3), (5.2, 4), (3.0, 6)]


@pytest.mark.parametrize(("fill_d", "wanted"), BY_HAND)
def test_vessels_for_some_fill_times_as_worked_by_hand(fill_d, wanted):
    assert vessels_for(fill_d, 14.0) == wanted


@pytest.mark.parametrize(("fill_d", "wanted"), BY_HAND)
def test_a_lived_year_needs_as_many_vessels_as_worked_by_hand(fill_d, wanted):
    assert rotation(wanted, fill_d).stalled_days == 0
    assert rotation(wanted - 1, fill_d).stalled_days > 0


@settings(max_examples=40)
@given(st.floats(1.5, 30.0), st.integers(1, 30))
def test_a_lived_year_never_needs_more_than_theory_and_at_most_one_fewer(fill_d, away_d):
    # A vessel counts as full at 0.98 of its room and a day is the smallest step, so the fill time may be off by that
    # on either side of a whole number of vessels.
    numbers = {"ready_at_20c_d": float(away_d)}
    enough = int(vessels_for(0.98 * fill_d, away_d))
    assert _lived(enough, fill_d, numbers).stalled_days == 0
    short = int(vessels_for(fill_d, away_d)) - 2
    if short >= 1:
        assert _lived(short, fill_d, numbers).stalled_days > 0


def _lived(count, fill_d, numbers):
    return rotation(count, fill_d, days=120, numbers=PLAIN._replace(**numbers), habits=DAILY._replace(least_d=0.0))


@given(st.floats(0.5, 60.0), st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_a_longer_ferment_never_needs_fewer_vessels(fill_d, away_d, more_d):
    assert vessels_for(fill_d, away_d + more_d) >= vessels_for(fill_d, away_d) >= 1
