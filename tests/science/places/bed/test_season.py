"""`science.places.bed.season` and `dose`: published forms of nitrogen and salt, and the laws of a bed in time."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.bed import dose, season
from sourloam.science.places.ground.salinity import relative_yield_frac
from sourloam.science.places.ground.thermal import days_at_20c, first_day
from tests.published import Published

FREE = [  # the points that the bulletin prints; lb to a short ton of dry matter
    Published("pnw636", "nitrogen at 1.5 % of dry matter, lb/ton", given=(1.5,), want="0"),
    Published("pnw636", "nitrogen at 3.5 % of dry matter, lb/ton", given=(3.5,), want="35"),
]
YIELDS = [  # threshold and slope as printed; the yield follows from the function of the paper
    Published("maas1990", "bean at 3.0 dS/m: threshold 1.0, slope 19", given=(3.0, 1.0, 0.19), want="0.62"),
    Published("maas1990", "tomato at 4.0 dS/m: threshold 2.5, slope 9.9", given=(4.0, 2.5, 0.099), want="0.8515"),
    Published("maas1990", "lettuce at 2.3 dS/m: threshold 1.3, slope 13", given=(2.3, 1.3, 0.13), want="0.870"),
]
SOIL = st.lists(st.floats(-5.0, 30.0), min_size=30, max_size=120).map(np.array)
SHARE = st.floats(0.01, 0.99)
RATE = st.floats(0.005, 0.6)


def rates(fast=0.3, slow=0.042, turnover=0.05, rots=0.7, kept=0.4, c_to_n=8.0):
    return season.Rates(*(np.array([each]) for each in (fast, slow, turnover, rots, kept, c_to_n)))


def applied(carbon=100.0, fast=0.15, nitrogen=5.5, ammonia=0.07, free=0.2):
    amounts = (carbon, carbon * fast, nitrogen, nitrogen * ammonia, free)
    return season.Applied(*(np.array([each]) for each in amounts))


@pytest.mark.parametrize("case", FREE, ids=str)
def test_nitrogen_of_residue_comes_free_as_the_bulletin_prints(case):
    pounds = season.free_by_content_frac(*case.given) * 20.0 * case.given[0]
    assert pounds == pytest.approx(float(case.want), abs=case.tolerance)


def test_by_c_to_n_it_is_even_where_microbes_need_all_there_is():
    # break-even C:N = C:N of the microbes ÷ what they keep = 8 ÷ 0.4 = 20, the theory that textbooks give
    assert season.free_by_c_to_n_frac(20.0, 0.75, 0.4, 8.0) == pytest.approx(0.0, abs=1e-12)
    assert season.free_by_c_to_n_frac(19.0, 0.75, 0.4, 8.0) > 0.0 == season.free_by_c_to_n_frac(25.0, 0.75, 0.4, 8.0)


@pytest.mark.parametrize("case", YIELDS, ids=str)
def test_a_crop_loses_yield_by_the_published_threshold_and_slope(case):
    assert relative_yield_frac(*case.given) == pytest.approx(float(case.want), abs=case.tolerance)


def test_under_its_threshold_a_crop_loses_nothing_and_far_beyond_it_has_nothing():
    assert relative_yield_frac(0.9, 1.0, 0.19) == 1.0
    assert relative_yield_frac(50.0, 1.0, 0.19) == 0.0
    with pytest.raises(OutOfRange, match=r"^soil_ds_per_m = -1 dS/m is outside 0 to 100 dS/m: sea water has about 50"):
        relative_yield_frac(-1.0, 1.0, 0.19)


@given(SOIL, st.floats(1.5, 3.0), st.floats(0.0, 8.0))
def test_a_warm_day_counts_as_its_own_temperature_and_a_cold_one_for_nothing(soil_c, q10, stops_c):
    passed = days_at_20c(soil_c, q10, stops_c)
    assert passed.shape == (1, soil_c.size + 1)
    assert np.all(np.diff(passed) >= 0.0)
    assert np.all(np.diff(passed)[0, soil_c < stops_c] == 0.0)


def test_at_20_degrees_a_day_is_a_day():
    assert days_at_20c(np.full(28, 20.0), 2.0, 5.0)[0, -1] == pytest.approx(28.0)
    # 14 days at 20 °C are 28 at 10 °C with Q10 2: the worked rest of the rule
    assert first_day(days_at_20c(np.full(60, 10.0), 2.0, 5.0), 14.0)[0] == 28.0


@given(SOIL, st.floats(0.1, 10.0), st.floats(0.5, 60.0))
def test_colder_soil_never_rests_sooner(soil_c, colder_k, wanted_d):
    warm, cold = (days_at_20c(each, 2.0, 5.0) for each in (soil_c, soil_c - colder_k))
    assert first_day(cold, wanted_d)[0] >= first_day(warm, wanted_d)[0]


@given(SOIL, SHARE, SHARE, SHARE, st.tuples(RATE, RATE, RATE))
def test_carbon_and_nitrogen_are_all_somewhere_on_every_day(soil_c, fast, ammonia, free, per_d):
    given_in = applied(fast=fast, ammonia=ammonia, free=free)
    found = season.pools(given_in, rates(*per_d), days_at_20c(soil_c, 2.0, 5.0))
    carbon = found.fast_carbon_g + found.slow_carbon_g + found.humus_carbon_g + found.gone_carbon_g
    nitrogen = found.organic_nitrogen_g + found.tied_nitrogen_g + found.free_nitrogen_g
    assert np.allclose(carbon, 100.0, rtol=1e-9)
    assert np.allclose(nitrogen, 5.5, rtol=1e-9, atol=1e-9)


@given(SOIL, st.floats(0.05, 0.5))
def test_acid_and_sugar_borrow_nitrogen_and_give_it_back(soil_c, fast):
    passed = days_at_20c(np.abs(soil_c) + 6.0, 2.0, 5.0)
    with_acid, without = (season.pools(applied(fast=each), rates(), passed) for each in (fast, 1e-9))
    assert np.all(with_acid.free_nitrogen_g <= without.free_nitrogen_g + 1e-9)
    late = season.pools(applied(fast=fast), rates(), np.array([[0.0, 400.0]]))
    assert late.tied_nitrogen_g[0, -1] == pytest.approx(0.0, abs=1e-6)


@given(st.floats(0.1, 20.0), st.floats(0.1, 30.0), st.floats(0.1, 2.0))
def test_twice_the_dose_is_never_less_salt_and_never_less_sour(kg_per_m2, ions, acid):
    water = {"salt_mg_per_l": 640.0, "mixed_m": 0.2, "saturated_frac": 0.45}
    once, twice = (dose.soil_ds_per_m(dose.held_g_per_m2(each * kg_per_m2, ions), 0.5, **water) for each in (1, 2))
    assert twice >= once
    assert dose.shift_ph(2 * kg_per_m2, acid, 4.0) >= dose.shift_ph(kg_per_m2, acid, 4.0)


@given(st.floats(0.2, 6.0), st.floats(0.1, 0.9), st.floats(1.0, 30.0), st.floats(0.05, 0.4))
def test_the_dose_by_salt_brings_the_soil_to_what_the_crop_bears(bears, has_frac, ions, depth_m):
    water = {"salt_mg_per_l": 640.0, "mixed_m": depth_m, "saturated_frac": 0.45}
    has = bears * has_frac
    kg = dose.by_salt_kg_per_m2(bears, has, ions_g_per_kg=ions, **water)
    assert dose.soil_ds_per_m(dose.held_g_per_m2(kg, ions), has, **water) == pytest.approx(bears)


def test_no_ground_is_refused():
    with pytest.raises(OutOfRange, match=r"^area_m2 = 0 m2 is outside .*: on no ground nothing can be dug in"):
        dose.given_kg_per_m2(10.0, 0.0, 2.0)


def test_a_bucket_covers_the_ground_of_the_worked_example():
    # 15 kg, a quarter dry, 2.5 % nitrogen: 93.75 g, so 5.515 m2 at 170 kg to a hectare, 3.750 at 250 (uk_nvz)
    for cap, want in ((17.0, 5.515), (25.0, 3.750)):
        kg_per_m2 = dose.by_year_kg_per_m2(cap, 0.0, 6.25)
        assert dose.area_m2(15.0, kg_per_m2) == pytest.approx(want, abs=0.0005)
