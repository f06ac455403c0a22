"""`science.inoculum.drying` and `.making`: drier, warmer and thinner air is never slower; damp air never dries."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.base.figure import recomputed
from sourloam.science.inoculum.chain import bran_batch
from sourloam.science.inoculum.drying import drying_d, drying_m2, drying_per_h, mould_d, pull_times
from sourloam.science.inoculum.making import count_figures, day_figures, making_figures
from sourloam.science.inoculum.recipe import recipe_for
from sourloam.science.inoculum.water import resting_moisture_wb_frac
from tests.science.inoculum.culture_known import BENCH, CARRIERS, KNOWN, STARTS, kitchen, told

C = KNOWN.culture
BRAN = CARRIERS["wheat-bran"]
LAYER, GAB = BRAN["monolayer_kg_per_kg"].value, (C.gab_c.value, C.gab_k.value)
DRY = resting_moisture_wb_frac(C.stop_activity.value, LAYER, *GAB)


def days(room_c, humidity, layer_m):
    rest = resting_moisture_wb_frac(humidity, LAYER, *GAB)
    pull = pull_times(room_c, humidity, C.thin_c.value, C.thin_humidity_frac.value)
    pace = drying_per_h(C.thin_per_h.value, pull, layer_m, C.depth_power.value)
    return drying_d(0.43, DRY, rest, pace)


def made(bran_kg=8.0, where=None, start="rice"):
    recipe = recipe_for(BRAN, BENCH.sugars[0], BENCH.milks[0], KNOWN.inoculum, start=STARTS[start])
    room = where or kitchen()
    return making_figures(told("bran_kg", bran_kg, "kg"), KNOWN, recipe, BRAN, kitchen=room), recipe


@given(st.floats(12.0, 30.0), st.floats(0.2, 0.5), st.floats(0.005, 0.04))
def test_warmer_drier_and_thinner_is_never_slower(room_c, humidity, layer_m):
    here = days(room_c, humidity, layer_m)
    assert days(room_c + 2.0, humidity, layer_m) <= here + 1e-9
    assert days(room_c, humidity - 0.05, layer_m) <= here + 1e-9
    assert days(room_c, humidity, layer_m * 0.8) <= here + 1e-9


@given(st.floats(12.0, 30.0), st.floats(0.61, 0.95))
def test_damp_air_never_dries_bran(room_c, humidity):
    assert days(room_c, humidity, 0.01) == np.inf


@pytest.mark.parametrize(("room_c", "per_h"), [(40.0, 0.35), (50.0, 0.55)])
def test_the_pace_follows_the_air_as_was_judged_for_an_oven(room_c, per_h):
    # Judgement, no source: 0.10 an hour at 20 °C and half-dry air, 0.35 and 0.55 in an oven that warms the same air.
    humidity = {40.0: 0.16, 50.0: 0.096}[room_c]
    assert 0.1 * pull_times(room_c, humidity, 20.0, 0.5) == pytest.approx(per_h, rel=0.25)


def test_drying_in_a_usual_room_agrees_with_what_the_plan_takes():
    takes, plan = made()[0]["drying_d"], KNOWN.inoculum.drying_d
    assert plan.low <= takes.value <= plan.high


def test_what_is_dry_already_takes_no_time():
    assert drying_d(0.10, DRY, 0.08, 0.1) == 0.0


def test_mould_is_slower_in_the_cold():
    assert mould_d(5.0, 10.0, 2.0) == pytest.approx(10.0)


def test_slow_drying_moulds_more_often():
    wet, dry = (made(where=kitchen(18.0, each, 0.03))[0]["mould_pct"].value for each in (0.57, 0.40))
    assert dry < wet


def test_a_layer_that_nobody_spreads_is_refused():
    with pytest.raises(OutOfRange, match=r"^layer_m = 0\.5 m is outside 0\.002 to 0\.2 m: bran is spread by hand"):
        drying_per_h(0.1, 1.0, 0.5, 1.4)
    with pytest.raises(OutOfRange, match=r"^layer_m = "):
        drying_m2(10.0, 0.2, 1.8, 0.5)


# The making as a whole


@settings(max_examples=20)
@given(st.floats(0.2, 200.0))
def test_the_figures_are_the_batch_of_the_plan(bran_kg):
    figures, recipe = made(bran_kg)
    batch = bran_batch(bran_kg, KNOWN.inoculum, recipe=recipe)
    for name in ("carrier_kg", "water_l", "serum_l", "milk_l"):
        assert figures[name].value == pytest.approx(getattr(batch, name), rel=0.03)  # medians of members and of inputs


def test_every_figure_recomputes_from_its_leaves():
    figures, _ = made()
    for each in figures.values():
        assert np.array_equal(recomputed(each), each.members), each.name


def test_what_is_poured_comes_to_what_is_aimed_at():
    moisture = made()[0]["moisture_pct"]
    assert moisture.value == pytest.approx(43.0, abs=0.3)
    assert moisture.low < 42.5
    assert moisture.high > 43.5


def test_a_tenth_waits():
    # Common practice, no source: pour nine tenths, squeeze, and pour the rest if it crumbles.
    figures, _ = made()
    assert 0.0999 <= figures["hold_back_l"].value / figures["liquid_l"].value < 0.25


@pytest.mark.parametrize("start", ["rice", "heel"])
def test_bran_comes_to_the_same_life_from_serum_and_from_a_heel(start):
    room = kitchen()
    figures, _ = made(where=room, start=start)
    days_ = day_figures(KNOWN, room, figures["drying_d"])
    lives = count_figures(KNOWN, figures, room, days_, heel=start == "heel")
    assert lives["mixed_log10"].value > KNOWN.inoculum.least_log10_per_g.value
    assert lives["wet_log10"].value > lives["mixed_log10"].value
    known = KNOWN.inoculum.bran_log10_per_g
    assert known.low < lives["log10_cfu_per_g"].value < known.high
