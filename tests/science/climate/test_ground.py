"""`science.climate.ground` against printed results, and by its own laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.climate.ground import damping_depth_m, lag_d, wave_c
from tests.published import Published

ALPHA = 0.5e-6  # m2/s, the soil of the worked example in okstate_rainorshine
DEPTH = st.floats(0.0, 3.0)
DIFFUSIVITY = st.floats(1e-7, 1e-6)


def _swing_k(depth_m, *, swing_k, period_d):
    """Half of what lies between the warmest and the coldest of one wave."""
    wave = wave_c(
        np.linspace(0, period_d, 2001),
        depth_m,
        mean_c=10,
        swing_k=swing_k,
        coldest_day=0,
        diffusivity_m2_per_s=ALPHA,
        period_d=period_d,
    )
    return np.ptp(wave) / 2


def test_the_wave_of_a_day_reaches_as_deep_as_printed():
    case = Published("okstate_rainorshine", "chapter 13.4, daily damping depth", (ALPHA, 1.0), "0.117")
    assert damping_depth_m(*case.given) == pytest.approx(float(case.want), abs=case.tolerance)


def test_the_wave_of_a_year_reaches_deeper_by_as_much_as_printed():
    case = Published("okstate_rainorshine", "chapter 13.4, annual against daily depth", (365.0, 1.0), "19.1")
    year, day = (damping_depth_m(ALPHA, period) for period in case.given)
    assert year / day == pytest.approx(float(case.want), abs=case.tolerance)


def test_the_swing_of_a_day_at_ten_centimetres_is_as_printed():
    case = Published("okstate_rainorshine", "chapter 13.4, swing at 10 cm of 7 K at the surface", (0.1, 7.0), "3")
    depth, swing = case.given
    assert _swing_k(depth, swing_k=swing, period_d=1.0) == pytest.approx(float(case.want), abs=case.tolerance)


@given(day=st.floats(0, 366), depth=st.floats(0.05, 2.0), alpha=DIFFUSIVITY)
def test_the_wave_obeys_the_conduction_of_heat(day, depth, alpha):
    """dT/dt = alpha d2T/dz2, by differences; this is what the closed form claims to solve."""
    wave = {"mean_c": 10.0, "swing_k": 10.0, "coldest_day": 21.0, "diffusivity_m2_per_s": alpha}
    step_d, step_m = 0.5, 0.01
    in_time = (wave_c(day + step_d, depth, **wave) - wave_c(day - step_d, depth, **wave)) / (2 * step_d * 86_400)
    above, here, below = (wave_c(day, depth + each, **wave) for each in (-step_m, 0.0, step_m))
    assert in_time == pytest.approx(alpha * (above - 2 * here + below) / step_m**2, rel=1e-3, abs=1e-10)


@given(shallow=DEPTH, deeper=st.floats(0.01, 3.0))
def test_the_swing_falls_with_depth(shallow, deeper):
    assert _swing_k(shallow + deeper, swing_k=8, period_d=365.25) < _swing_k(shallow, swing_k=8, period_d=365.25)


@given(depth=DEPTH, alpha=DIFFUSIVITY)
def test_the_coldest_day_comes_later_by_the_lag(depth, alpha):
    wave = {"mean_c": 10.0, "swing_k": 10.0, "diffusivity_m2_per_s": alpha}
    late = 21.0 + lag_d(depth, alpha)
    coldest = 10.0 - 10.0 * np.exp(-depth / damping_depth_m(alpha))
    assert wave_c(late, depth, coldest_day=21.0, **wave) == pytest.approx(coldest)


def test_members_and_days_broadcast():
    alpha = np.full((200, 1), ALPHA)  # members
    days = np.arange(365.0)
    wave = wave_c(days, 0.2, mean_c=10, swing_k=10, coldest_day=21, diffusivity_m2_per_s=alpha)
    assert np.shape(wave) == (200, 365)


@pytest.mark.parametrize("depth", [-0.1, 21.0, np.nan])
def test_a_depth_that_is_none_is_refused(depth):
    with pytest.raises(OutOfRange, match=r"^depth_m = .* is outside 0 to 20 m: it is counted downwards"):
        wave_c(1, depth, mean_c=10, swing_k=10, coldest_day=21, diffusivity_m2_per_s=ALPHA)


@pytest.mark.parametrize("alpha", [0.0, -1e-6, 1e-3, np.nan])
def test_a_soil_that_is_none_is_refused(alpha):
    with pytest.raises(OutOfRange, match=r"^diffusivity_m2_per_s = .* no soil conducts so badly or so well\.$"):
        damping_depth_m(alpha)


def test_a_period_that_is_none_is_refused():
    with pytest.raises(OutOfRange, match=r"^period_d = 0 d is outside 0\.01 to 4000 d: the law is meant for days"):
        lag_d(0.2, ALPHA, 0.0)
