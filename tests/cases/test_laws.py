"""The laws that the answers brought, against what the table itself works out and against one another."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.fleet.theory import vessels_for
from sourloam.plan.sizes import fitting_l, spare_d
from sourloam.plan.winter import in_frost_kg, packed_l

DAYS = st.floats(1.0, 120.0)


@pytest.mark.parametrize("weekly_l", [2.1, 2.3])
def test_a_bucket_that_takes_ten_or_eleven_weeks_should_hold_five_or_six_litres(weekly_l):
    """The handbook's rule: two weeks at 80 %; 2.1 to 2.3 L a week give 5 to 6 L (rows C049 and C050 of the table)."""
    fits = fitting_l(weekly_l * 52.0, 364.0, 1.0, fills_in_d=14.0, filled_frac=0.8)
    assert 5.0 <= fits <= 6.0


def test_eleven_buckets_of_frozen_ground_take_up_175_litres():
    """16 L every two weeks over 22 weeks (row C042 of the table), at any density."""
    frozen = in_frost_kg(16.0 / 14.0 * 365.0 * 0.7, 22 * 7, 365.0)
    assert packed_l(frozen, 0.7) == pytest.approx(175.0, abs=2.0)


@given(fill_d=DAYS, away_d=DAYS, vessels=st.integers(1, 12))
def test_one_waits_empty_just_where_the_closed_form_calls_the_vessels_enough(fill_d, away_d, vessels):
    spare = spare_d(fill_d, away_d, 0.0, vessels)
    if abs(spare) > 1e-6:
        assert (spare > 0.0) == (vessels_for(fill_d, away_d) <= vessels)
