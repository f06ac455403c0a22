"""`science.climate.climate` and `rooms`: air, soil, frost and rooms through the year."""

from dataclasses import fields, replace
from datetime import date, timedelta
from itertools import pairwise
from math import cos, pi
from pickle import dumps, loads
from statistics import fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import NotFound, OutOfRange
from sourloam.base.figure import written
from sourloam.evidence.parameters import load_parameters
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.ground import wave_c
from sourloam.science.climate.parameters import ClimateParameters
from sourloam.science.climate.rooms import ROOMS, room_c
from sourloam.science.climate.series import DayRange

P = load_parameters(ClimateParameters, "climate")
BARE = replace(
    P,
    soil_above_air_k=written("offset", 0.0, "K"),
    soil_amplitude_ratio=written("ratio", 1.0, "1"),
    surface_lag_d=written("lag", 0.0, "d"),
)
DUBLIN_C = (6.0, 5.9, 7.2, 8.8, 11.4, 14.0, 15.8, 15.7, 13.8, 11.1, 8.2, 6.4)
MINSK_C = (-4.9, -4.9, -0.5, 7.0, 13.0, 16.0, 18.1, 17.0, 11.7, 6.2, 0.4, -3.8)
MONTHS = st.lists(st.floats(-20.0, 30.0), min_size=12, max_size=12)
YEAR = [date(2023, 1, 1) + timedelta(days=each) for each in range(365)]
LEAP_YEAR = [date(2024, 1, 1) + timedelta(days=each) for each in range(366)]


def _climate(months, parameters=P, indoors_c=20.0):
    return Climate.from_monthly(months, indoors_c=indoors_c, latitude_deg=53.0, parameters=parameters)


def _soil_swing_k(climate, depth_m):
    soil = [climate.soil_c(on, depth_m) for on in YEAR]
    return max(soil) - min(soil)


def _soil_year_c(climate, depth_m):
    return fmean(climate.soil_c(on, depth_m) for on in YEAR)


def test_soil_under_one_wave_of_air_is_the_closed_form():
    days = [DayRange(on, 10 - 8 * cos(2 * pi * (each + 0.5 - 20) / 365), 10 - 8 * cos(2 * pi * (each + 0.5 - 20) / 365))
            for each, on in enumerate(YEAR)]  # fmt: skip
    climate = Climate.from_daily(days, indoors_c=20, latitude_deg=53, parameters=BARE)
    for each, depth in ((0, 0.0), (100, 0.1), (200, 0.3), (364, 1.75)):
        want = wave_c(
            (each + 0.5) * 365.25 / 365,
            depth,
            mean_c=10,
            swing_k=8,
            coldest_day=20 * 365.25 / 365,
            diffusivity_m2_per_s=BARE.diffusivity_m2_per_s.value,
        )
        assert climate.soil_c(YEAR[each], depth) == pytest.approx(want, abs=1e-6)


@given(months=MONTHS)
def test_the_soil_varies_less_the_deeper_one_digs(months):
    climate = _climate(months)
    swings = [_soil_swing_k(climate, depth) for depth in (0.0, 0.1, 0.5, 2.0, 8.0)]
    assert all(deeper <= shallow + 1e-9 for shallow, deeper in pairwise(swings))


@given(months=MONTHS, month=st.integers(0, 11), warmer=st.floats(0.0, 10.0), depth=st.floats(0.0, 3.0))
def test_a_warmer_month_never_makes_the_year_in_the_soil_colder(months, month, warmer, depth):
    warmed = [each + warmer * (place == month) for place, each in enumerate(months)]
    colder, milder = (_climate(each) for each in (months, warmed))
    assert _soil_year_c(milder, depth) >= _soil_year_c(colder, depth) - 1e-9


@given(months=MONTHS, depth=st.floats(0.0, 3.0))
def test_the_year_in_the_soil_is_warmer_than_in_the_air_by_the_offset_alone(months, depth):
    climate = _climate(months)
    air = fmean(climate.air_c(on) for on in YEAR)
    assert _soil_year_c(climate, depth) - air == pytest.approx(P.soil_above_air_k.value, abs=1e-9)


@pytest.mark.parametrize("months", [DUBLIN_C, MINSK_C])
def test_half_a_year_of_shift_is_the_other_side_of_the_equator(months):
    north, south = _climate(months), _climate(months[6:] + months[:6])
    assert south.soil_mean_c == pytest.approx(north.soil_mean_c, abs=0.3)  # months differ by up to three days
    assert _soil_swing_k(south, 0.2) == pytest.approx(_soil_swing_k(north, 0.2), abs=0.6)


def test_winter_soil_is_coldest_in_july_in_the_south():
    south = _climate(MINSK_C[6:] + MINSK_C[:6])
    assert min(YEAR, key=lambda on: south.soil_c(on, 0.1)).month in {7, 8}
    assert south.is_frozen(date(2023, 7, 25))
    assert not south.is_frozen(date(2023, 1, 25))


def test_every_day_of_ordinary_and_leap_years_has_its_temperature():
    climate = _climate(DUBLIN_C)
    for days in (YEAR, LEAP_YEAR):
        steps = [abs(climate.air_c(b) - climate.air_c(a)) for a, b in pairwise([*days, days[-1] + timedelta(days=1)])]
        assert max(steps) < 0.2
    assert climate.air_c(date(2100, 12, 31)) == climate.air_c(date(2023, 12, 31))  # 2100 has no leap day
    assert climate.air_c(date(2000, 12, 31)) == climate.air_c(date(2024, 12, 31))
    assert climate.air_c(date(2024, 2, 29)) == pytest.approx(climate.air_c(date(2024, 2, 28)), abs=0.2)


@pytest.mark.parametrize("days", [YEAR, LEAP_YEAR], ids=["ordinary", "leap"])
def test_ground_is_frozen_where_soil_at_ten_centimetres_is_below_zero(days):
    climate = _climate(MINSK_C)
    frozen = [on for on in days if climate.is_frozen(on)]
    assert frozen == [on for on in days if climate.soil_c(on, 0.1) < 0]
    assert 60 < len(frozen) < 120


def test_ground_never_freezes_where_winters_are_mild():
    assert not any(_climate(DUBLIN_C).is_frozen(on) for on in LEAP_YEAR)


def test_measured_days_and_their_months_have_the_same_seasons():
    monthly = _climate(MINSK_C)
    days = [DayRange(on, monthly.air_c(on) - 4, monthly.air_c(on) + 4) for on in YEAR]
    daily = Climate.from_daily(days, indoors_c=20, latitude_deg=53, parameters=P)
    assert [daily.air_c(on) for on in YEAR] == pytest.approx([monthly.air_c(on) for on in YEAR])
    assert [daily.soil_c(on, 0.2) for on in YEAR] == pytest.approx([monthly.soil_c(on, 0.2) for on in YEAR])


def test_a_climate_is_a_value():
    one, same, other = _climate(DUBLIN_C), _climate(DUBLIN_C), _climate(MINSK_C)
    one.is_frozen(YEAR[0])  # what is worked out once does not make it another
    assert (one, hash(one)) == (same, hash(same))
    assert one != other
    assert loads(dumps(one)) == one
    assert {each.name for each in fields(one)} == {"year", "indoors_c", "latitude_deg", "parameters"}


@pytest.mark.parametrize("depth", [-0.1, 20.5, float("nan")])
def test_a_depth_that_is_none_is_refused(depth):
    with pytest.raises(OutOfRange, match=r"^depth_m = .* is outside 0 to 20 m: it is counted downwards"):
        _climate(DUBLIN_C).soil_c(YEAR[0], depth)


def test_an_impossible_kitchen_is_refused():
    with pytest.raises(OutOfRange, match=r"^indoors_c = 68 °C is outside -5 to 45 °C: nobody keeps a kitchen so"):
        _climate(DUBLIN_C, indoors_c=68)


def test_a_place_beyond_the_poles_is_refused():
    with pytest.raises(OutOfRange, match=r"^latitude_deg = 91 deg is outside -90 to 90 deg: the poles lie at 90"):
        Climate.from_monthly(DUBLIN_C, indoors_c=20, latitude_deg=91, parameters=P)


def test_kitchen_and_outdoors_are_what_they_are():
    climate = _climate(DUBLIN_C)
    assert {room_c(room, on, climate) for room in ("kitchen", "indoors") for on in YEAR} == {20.0}
    assert [room_c("outdoors", on, climate) for on in YEAR] == [climate.air_c(on) for on in YEAR]


@given(months=MONTHS, indoors=st.floats(5.0, 30.0))
def test_a_cellar_lies_between_the_soil_and_the_rooms_above(months, indoors):
    climate = _climate(months, indoors_c=indoors)
    for on in YEAR[::30]:
        soil = climate.soil_c(on, P.cellar_depth_m.value)
        assert min(soil, indoors) - 1e-9 <= room_c("cellar", on, climate) <= max(soil, indoors) + 1e-9


@given(months=MONTHS)
def test_a_cellar_varies_less_than_the_air_above_it(months):
    climate = _climate(months)
    cellar = [room_c("cellar", on, climate) for on in YEAR]
    air = [climate.air_c(on) for on in YEAR]
    assert max(cellar) - min(cellar) <= max(air) - min(air) + 1e-9


def test_a_shed_is_warmer_than_the_air_and_slower():
    days = [DayRange(on, 10.0 * (each % 2), 10.0 * (each % 2)) for each, on in enumerate(YEAR)]
    climate = Climate.from_daily(days, indoors_c=20, latitude_deg=53, parameters=P)
    shed = [room_c("shed", on, climate) for on in YEAR[10:350]]
    assert max(shed) - min(shed) < 5.0  # against 10 outdoors
    assert fmean(shed) - fmean(climate.air_c(on) for on in YEAR[10:350]) == pytest.approx(
        P.shed_above_air_k.value, abs=0.1
    )


def test_every_room_has_a_temperature_on_every_day_of_a_leap_year():
    climate = _climate(MINSK_C)
    assert all(-30 < room_c(room, on, climate) < 40 for room in ROOMS for on in LEAP_YEAR)


def test_an_unknown_room_is_refused_with_the_near_one():
    with pytest.raises(NotFound, match=r'^"sheed" is not a known room\. Did you mean shed\?$'):
        room_c("sheed", YEAR[0], _climate(DUBLIN_C))


def test_a_room_like_none_is_refused_with_all_of_them():
    with pytest.raises(NotFound, match=r"Did you mean kitchen, indoors, cellar, shed or outdoors\?$"):
        room_c("xyz", YEAR[0], _climate(DUBLIN_C))
