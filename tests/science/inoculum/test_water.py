"""`science.inoculum.water`: isotherm and sugar, against printed points and by their own laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.inoculum.water import (
    activity_of,
    held_kg_per_kg,
    resting_moisture_wb_frac,
    sucrose_activity,
    sugared_frac,
)
from tests.published import Published
from tests.science.inoculum.culture_known import CARRIERS, KNOWN

GAB = (KNOWN.culture.gab_c.value, KNOWN.culture.gab_k.value)
BRAN = (CARRIERS["wheat-bran"]["monolayer_kg_per_kg"].value, *GAB)
ACTIVITY = st.floats(0.02, 0.97)

RESTING = [
    Published(
        "wheat_resting",
        "wheat, 25 °C",
        given=(0.14,),
        want="0.71",
        title="water activity of wheat at about 14 % of water",
    ),
]
SUGARED = [
    Published(
        "sloan1975",
        "table 3.1, amorphous sucrose, 65 g of water to 100 g",
        given=(100.0 / 165.0,),
        want="0.90",
        within=0.018,
        why="a review of such predictions (sereno2001) states deviations of up to 2 %, as of the instruments",
        title="water activity of sucrose in water, 61 % by mass",
    ),
]


@pytest.mark.parametrize("case", RESTING, ids=str)
def test_the_isotherm_of_bran_meets_what_was_printed_for_wheat(case):
    assert activity_of(*case.given, *BRAN) == pytest.approx(float(case.want), abs=case.tolerance)


@pytest.mark.parametrize("case", SUGARED, ids=str)
def test_the_water_activity_of_sugar_meets_the_printed_table(case):
    # At 0.80 the table has 35 g of water to 100 g: beyond what dissolves, and beyond what serum is kept with.
    assert sucrose_activity(*case.given) == pytest.approx(float(case.want), abs=case.tolerance)


def test_equal_weights_of_serum_and_sugar_stop_no_yeast():
    # praphailong1997: all of 30 spoilage yeasts grew at 50 % sucrose. Common practice, no source: equal weights.
    share = sugared_frac(1.0, KNOWN.inoculum.serum_dry_wb_frac.value)
    assert share == pytest.approx(0.53, abs=0.01)
    yeast, rods = 0.88, 0.92
    assert yeast < sucrose_activity(share) < 0.94
    assert sucrose_activity(share) > rods - 0.01


@given(ACTIVITY)
def test_the_isotherm_can_be_read_both_ways(activity):
    moisture = resting_moisture_wb_frac(activity, *BRAN)
    assert activity_of(moisture, *BRAN) == pytest.approx(activity, abs=1e-6)


@given(ACTIVITY, st.floats(0.001, 0.02))
def test_damper_air_leaves_more_water(activity, more):
    assert held_kg_per_kg(min(activity + more, 0.99), *BRAN) > held_kg_per_kg(activity, *BRAN)


@given(st.floats(0.0, 0.7), st.floats(0.01, 0.2))
def test_more_sugar_binds_more_water(share, more):
    assert sucrose_activity(share + more) < sucrose_activity(share) <= 1.0


def test_pure_water_is_free():
    assert sucrose_activity(0.0) == pytest.approx(1.0)


def test_members_broadcast():
    assert np.shape(activity_of(np.full(200, 0.12), *BRAN)) == (200,)


def test_dripping_air_has_no_isotherm():
    with pytest.raises(OutOfRange, match=r"^water_activity = 1 is outside 0 to 0\.99: so near to wet"):
        held_kg_per_kg(1.0, *BRAN)


def test_more_sugar_than_all_is_refused():
    with pytest.raises(OutOfRange, match=r"^sucrose_frac = 1\.2 is outside 0 to 1: it is a share"):
        sucrose_activity(1.2)
