"""`science.climate.psychrometrics` beside an open library, and by its own laws."""

import numpy as np
import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.climate.psychrometrics import (
    SEA_LEVEL_PA,
    drying_pull_pa,
    indoor_humidity_frac,
    saturation_pa,
    vapour_pa,
    water_kg_per_kg,
    wet_bulb_c,
)

AIR = st.floats(-30.0, 60.0)
HUMIDITY = st.floats(0.02, 0.99)
ROOM = st.floats(5.0, 35.0)


@pytest.fixture(autouse=True, scope="module")
def metric():
    psychrolib.SetUnitSystem(psychrolib.SI)


@given(AIR)
def test_air_holds_as_much_water_as_the_library_says(air_c):
    # psychrolib: ASHRAE Handbook, Fundamentals (2017), chapter 1, equations 5 and 6.
    assert saturation_pa(air_c) == pytest.approx(psychrolib.GetSatVapPres(air_c), rel=1e-6)


@given(AIR, HUMIDITY)
def test_the_water_in_air_is_that_of_the_library(air_c, humidity):
    ours = water_kg_per_kg(vapour_pa(air_c, humidity))
    assert ours == pytest.approx(psychrolib.GetHumRatioFromRelHum(air_c, humidity, SEA_LEVEL_PA), rel=1e-6, abs=1e-7)


@given(st.floats(0.0, 60.0), st.floats(0.05, 0.99))
def test_wet_matter_in_wind_is_as_cold_as_the_library_says(air_c, humidity):
    # The library searches to a thousandth of a degree; below freezing it changes from water to ice.
    theirs = psychrolib.GetTWetBulbFromRelHum(air_c, humidity, SEA_LEVEL_PA)
    if theirs > 0.1:
        assert wet_bulb_c(air_c, humidity) == pytest.approx(theirs, abs=2e-3)


@given(st.floats(-15.0, 15.0), HUMIDITY, ROOM)
def test_outdoor_air_in_a_room_keeps_its_water(outdoor_c, humidity, room_c):
    inside = indoor_humidity_frac(outdoor_c, humidity, room_c)
    if inside < 1.0:
        there = water_kg_per_kg(vapour_pa(outdoor_c, humidity))
        assert water_kg_per_kg(vapour_pa(room_c, inside)) == pytest.approx(there)
        theirs = psychrolib.GetRelHumFromHumRatio(room_c, there, SEA_LEVEL_PA)
        assert inside == pytest.approx(theirs, rel=1e-6)


@given(st.floats(15.0, 35.0), st.floats(0.2, 0.9), st.floats(0.01, 0.08))  # the wet bulb stays above freezing
def test_drier_air_pulls_harder(air_c, humidity, more):
    assert drying_pull_pa(air_c, humidity) > drying_pull_pa(air_c, humidity + more)


def test_full_air_dries_nothing():
    assert drying_pull_pa(20.0, 1.0) == pytest.approx(0.0, abs=1e-3)


def test_members_broadcast():
    assert np.shape(wet_bulb_c(np.full((200, 1), 20.0), np.linspace(0.3, 0.9, 5))) == (200, 5)


def test_humidity_in_per_cent_is_refused():
    with pytest.raises(OutOfRange, match=r"^humidity_frac = 55 is outside 0 to 1: relative humidity is a share"):
        vapour_pa(20.0, 55.0)


def test_an_oven_is_refused():
    with pytest.raises(OutOfRange, match=r"^air_c = 150 °C is outside -60 to 80 °C: nobody dries"):
        saturation_pa(150.0)
