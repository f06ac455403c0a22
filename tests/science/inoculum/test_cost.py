"""`science.inoculum.cost`: sums that a keeper could make on paper, and what must hold whatever the prices are."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.inoculum.cost import break_even_kg, made_per_kg, over, per_kg_scraps, per_month, times

PRICE = st.floats(0.01, 50.0)


def test_a_bill_is_its_lines_over_the_bran():
    assert made_per_kg(5.0, amount_0=5.2, price_0=1.2, amount_1=0.063, price_1=1.5) == pytest.approx(1.2669)


@given(PRICE, st.floats(5.0, 60.0))
def test_a_kilogram_of_scraps_costs_its_dose(price, dose):
    assert per_kg_scraps(price, dose) * 1000.0 == pytest.approx(price * dose)


def test_a_month_is_its_days():
    assert per_month(0.18, over(6.0, 7.0)) == pytest.approx(0.18 * 6.0 / 7.0 * 365.25 / 12.0)


@given(st.floats(0.0, 5.0), PRICE, PRICE)
def test_at_the_break_even_both_ways_cost_the_same(fixed, bought, made):
    batch = break_even_kg(fixed, bought, made)
    if bought > made:
        assert batch * bought == pytest.approx(fixed + batch * made)
    else:
        assert batch == np.inf


def test_a_price_is_times_its_amount():
    assert times(0.5, 1.1) == pytest.approx(0.55)
