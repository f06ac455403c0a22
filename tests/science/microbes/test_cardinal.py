"""`science.microbes.cardinal` against a printed table of the model, and by its own law."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from sourloam.base.errors import OutOfRange
from sourloam.science.microbes.cardinal import cardinal_temperature
from tests.published import Published

SEAWEED = (5.0, 20.0, 30.0)
# No table of values was within reach in rosso1993 itself; the model's own authors are checked through this one.
OUTSIDE = [
    Published("macrogrow_t_lim", f"T_lim at {at:g} °C", given=(at, *SEAWEED), want=want)
    for at, want in [
        (4.0, "0.00000000"),
        (6.0, "0.02000000"),
        (8.0, "0.14666667"),
        (12.0, "0.53454545"),
        (16.0, "0.86871795"),
        (20.0, "1.00000000"),
        (22.0, "0.96333333"),
        (26.0, "0.65333333"),
        (29.0, "0.19692308"),
        (30.0, "0.00000000"),
    ]
]
LACTIC = {"least_c": 4.0, "best_c": 34.0, "most_c": 43.0}


@st.composite
def limits(draw):
    """Three cardinal temperatures for which the curve has its one peak."""
    least = draw(st.floats(-5.0, 15.0))
    most = least + draw(st.floats(10.0, 50.0))
    best = least + (most - least) * draw(st.floats(0.55, 0.95))
    return {"least_c": least, "best_c": best, "most_c": most}


@pytest.mark.parametrize("case", OUTSIDE, ids=str)
def test_a_printed_table_of_the_model_is_met(case):
    now, least, best, most = case.given
    pace = cardinal_temperature(now, least_c=least, best_c=best, most_c=most)
    assert pace == pytest.approx(float(case.want), abs=case.tolerance)


@given(limits())
def test_the_pace_is_whole_at_the_best_temperature_and_nothing_at_both_ends(cardinal):
    ends = cardinal_temperature([cardinal["least_c"], cardinal["most_c"]], **cardinal)
    assert cardinal_temperature(cardinal["best_c"], **cardinal) == pytest.approx(1.0)
    assert ends == pytest.approx([0.0, 0.0], abs=1e-12)


@given(limits())
def test_a_general_optimiser_finds_the_peak_at_the_best_temperature(cardinal):
    found = minimize_scalar(
        lambda now: -cardinal_temperature(now, **cardinal),
        bounds=(cardinal["least_c"], cardinal["most_c"]),
        method="bounded",
        options={"xatol": 1e-7},
    )
    assert found.x == pytest.approx(cardinal["best_c"], abs=1e-2)


@given(limits(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_warmer_is_never_slower_below_the_best_and_never_faster_above(cardinal, one, other):
    low, high = sorted((one, other))
    below = cardinal["least_c"] + (cardinal["best_c"] - cardinal["least_c"]) * np.array([low, high])
    above = cardinal["best_c"] + (cardinal["most_c"] - cardinal["best_c"]) * np.array([low, high])
    slow, fast = cardinal_temperature(below, **cardinal)
    near, far = cardinal_temperature(above, **cardinal)
    assert slow <= fast + 1e-12
    assert near >= far - 1e-12


@given(limits(), st.floats(-50.0, 100.0))
def test_the_pace_is_a_share_everywhere(cardinal, now):
    assert -1e-12 <= cardinal_temperature(now, **cardinal) <= 1.0 + 1e-12


def test_members_and_days_broadcast():
    least = np.full((200, 1), 4.0)  # members
    days = np.linspace(10.0, 25.0, 30)[None, :]
    assert np.shape(cardinal_temperature(days, least_c=least, best_c=34.0, most_c=43.0)) == (200, 30)


def test_regression_values_of_the_lactic_defaults():
    # Worked out once with the same formula: no evidence, only a guard against a change.
    pace = cardinal_temperature([10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0], **LACTIC)
    assert pace == pytest.approx([0.0710, 0.2268, 0.4481, 0.7000, 0.9212, 0.9933, 0.6545], abs=0.0005)


@pytest.mark.parametrize("best", [5.0, 23.5, 43.0, 50.0])
def test_cardinal_temperatures_without_a_single_peak_are_refused(best):
    with pytest.raises(OutOfRange, match=r"^best_c = .* °C is outside 23\.5 to 43 °C: it must lie between") as caught:
        cardinal_temperature(20.0, least_c=4.0, best_c=[34.0, best], most_c=43.0)
    assert caught.value.value == best


@pytest.mark.parametrize("now", [-300.0, 200.0, np.nan])
def test_an_impossible_temperature_is_refused(now):
    with pytest.raises(OutOfRange, match=r"^temperature_c = .* °C is outside -60 to 150 °C: growth is not known"):
        cardinal_temperature([20.0, now], **LACTIC)
