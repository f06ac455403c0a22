"""`science.inoculum.keeping`: colder keeps longer, the interval is wide, custom is not simply believed."""

from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.base.figure import recomputed
from sourloam.science.inoculum.keeping import (
    BranLot,
    bran_keeps_d,
    bran_keeps_until,
    decline_log10_per_month,
    keeps_d,
    least_bran_log10,
    serum_keeps_d,
    serum_keeps_until,
)
from tests.science.inoculum.chain_parameters import PARAMETERS

MADE = date(2026, 10, 1)


def test_the_decline_of_bran_covers_what_was_published_for_a_rod_dried_on_bran():
    # pmc5620634: 20 °C, 20 % humidity, 4 weeks: 1 to 2 powers of ten. That range is the tolerance.
    published = (1.0, 2.0)
    decline = PARAMETERS.bran_decline_at_20c_log10_per_month
    assert decline.low < published[1]
    assert decline.high > published[0]


@given(st.floats(-20.0, 30.0), st.floats(0.5, 5.0))
def test_bran_in_a_colder_store_keeps_longer(store_c, colder):
    assert bran_keeps_d(store_c, PARAMETERS).value < bran_keeps_d(store_c - colder, PARAMETERS).value


def test_the_interval_of_bran_reaches_down_to_a_few_weeks():
    # A lot that nobody has tested for three months may be dead.
    until = bran_keeps_until(BranLot(MADE, 4.0), 20.0, PARAMETERS)
    assert until.low < date(2027, 1, 1) < until.high
    assert MADE < until.low < until.middle < until.high


def test_custom_and_the_decline_of_serum_disagree():
    # Common practice, no source: cold serum keeps 12 to 24 months. The decline does not bear that out at its middle.
    until = serum_keeps_until(MADE, 4.0, PARAMETERS)
    assert until.middle < date(2027, 10, 1) < until.high


@given(st.floats(5.0, 9.0), st.floats(0.0, 4.0), st.floats(0.05, 3.0))
def test_at_the_end_of_its_days_a_count_stands_at_the_least(least, above, decline):
    months = keeps_d(least + above, least, decline) / (365.25 / 12.0)
    assert least + above - months * decline == pytest.approx(least)


def test_a_count_that_is_too_low_keeps_no_time():
    assert keeps_d(5.0, 6.0, 1.0) == 0.0


def test_twenty_grams_to_a_kilogram_need_fifty_times_the_count():
    assert 10.0 ** least_bran_log10(0.0, 20.0) == pytest.approx(50.0)


def test_ten_degrees_more_are_one_step_of_q10():
    assert decline_log10_per_month(1.0, 30.0, 20.0, 2.5) == pytest.approx(2.5)


@pytest.mark.parametrize(
    "figure", [bran_keeps_d(8.0, PARAMETERS), serum_keeps_d(4.0, PARAMETERS)], ids=["bran", "serum"]
)
def test_the_days_recompute_from_their_leaves(figure):
    assert np.array_equal(recomputed(figure), figure.members)


def test_serum_in_a_warm_room_is_refused():
    with pytest.raises(OutOfRange, match=r"^store_c = 20 °C is outside 0 to 12 °C: serum is only known"):
        serum_keeps_until(MADE, 20.0, PARAMETERS)


def test_bran_in_an_oven_is_refused():
    with pytest.raises(OutOfRange, match=r"^store_c = 60 °C is outside -25 to 35 °C: how bran keeps there"):
        bran_keeps_until(BranLot(MADE, 4.0), 60.0, PARAMETERS)
