"""`science.places.pile` in time: published numbers of the parts, curves named beforehand, and what must always hold."""

from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.pile.heat import Start, follow, left_alone
from sourloam.science.places.pile.rates import (
    by_air,
    by_moisture,
    enthalpy,
    free_air_frac,
    haug_bracket,
    humidity,
    nitrogen_lost_frac,
    oxygen_pct,
    steady_rise_k,
)
from tests.published import Published
from tests.science.places.pile.heaps import RATES, middle_run, pile_of, weather

# Worked by hand from the printed formulae (haug1993, recalled): they hold the code to its law, not the law to nature.
BRACKET = {0.0: 0.2785, 10.0: 0.5277, 20.0: 0.9995, 35.0: 2.5998, 55.0: 8.9793, 60.0: 11.891, 70.0: 17.6989}
MOISTURE = {0.4: 0.5028, 0.5: 0.8557, 0.6: 0.9720}
AIR = {0.15: 0.5142, 0.20: 0.7757, 0.30: 0.9736}
BASE = {"grass-clippings": 0.42, "straw": 0.20, "dry-leaves": 0.20, "water": 0.18}

# Curves that were named before the model was run, with what was read of each.
DRUM = Published(
    "drum_550l",
    "550 L, vegetable waste, C:N 30: greatest",
    given=(550.0,),
    want="61.2",
    within=8.0,
    why="piles of one mix differ by as much; the mark that was set beforehand",
)
DRUM_HOT = Published(
    "drum_550l",
    "550 L, C:N 24: greatest",
    given=(550.0,),
    want="63.5",
    within=8.0,
    why="piles of one mix differ by as much; the mark that was set beforehand",
)
VESSEL = Published(
    "cornell_physics",
    "indoor vessel of 38 L: greatest",
    given=(38.0,),
    want="45",
    within=13.0,
    why="40 to 50 °C are printed, and 8 K beside them is the mark that was set beforehand",
)


@pytest.mark.parametrize(("celsius", "times"), BRACKET.items())
def test_the_bracket_is_what_its_formula_gives(celsius, times):
    assert haug_bracket(celsius) == pytest.approx(times, abs=5e-4)


@pytest.mark.parametrize(("wet", "left"), MOISTURE.items())
def test_moisture_leaves_what_its_formula_gives(wet, left):
    assert by_moisture(wet) == pytest.approx(left, abs=5e-4)


@pytest.mark.parametrize(("free", "left"), AIR.items())
def test_air_leaves_what_its_formula_gives(free, left):
    assert by_air(free) == pytest.approx(left, abs=5e-4)


@pytest.mark.parametrize(("density", "free"), [(0.600, 0.495), (0.450, 0.621)])
def test_free_air_is_what_the_phases_leave(density, free):
    assert free_air_frac(density, 0.60, 0.85) == pytest.approx(free, abs=2e-3)


def test_moist_air_carries_what_a_table_of_it_says():
    saturated = enthalpy(np.array(60.0), humidity(np.array(60.0)))
    assert float(saturated) == pytest.approx(458.3, abs=1.0)


def test_a_cube_of_38_litres_rises_by_what_the_lumped_balance_gives():
    heat_w = 0.05 * 0.038 * 500.0 * 0.4 * 0.85 * 0.6 * 21e6 / 86400.0
    assert steady_rise_k(heat_w, 0.038 ** (1 / 3), 0.4) == pytest.approx(25.85, abs=0.05)


def test_nitrogen_lost_follows_the_ratio():
    assert [nitrogen_lost_frac(each) for each in (15, 20, 30, 40)] == pytest.approx(
        [0.4995, 0.416, 0.249, 0.10], abs=2e-3
    )


def test_an_impossible_temperature_is_refused():
    with pytest.raises(OutOfRange, match="nothing rots there"):
        haug_bracket(120.0)


def test_a_drum_of_550_litres_gets_as_hot_as_was_measured():
    """Vegetable scraps, cow manure and sawdust in the proportions of such drums, walled, in a warm place.

    The temperature at which a pile cooks itself to a stop was set with this in view; the other curves were not used.
    """
    hot, mild = (
        pile_of({"vegetable-scraps": vegetables, "cow-manure": manure, "softwood-sawdust": dust, "dry-leaves": 8.0})
        for vegetables, manure, dust in ((75.0, 50.0, 17.0), (70.0, 45.0, 27.0))
    )
    assert middle_run(hot, 25.0, walled=True)[1].max() == pytest.approx(float(DRUM_HOT.want), abs=DRUM_HOT.tolerance)
    assert middle_run(mild, 25.0, walled=True)[1].max() == pytest.approx(float(DRUM.want), abs=DRUM.tolerance)


def test_an_indoor_vessel_of_ten_gallons_gets_as_warm_as_was_measured_and_as_soon():
    day, core, _ = middle_run(pile_of({"mixed-household-scraps": 8.0, "wood-chips": 3.0, "dry-leaves": 2.5}), 20.0)
    assert core.max() == pytest.approx(float(VESSEL.want), abs=VESSEL.tolerance)
    assert 1.0 <= day[np.argmax(core)] <= 6.0  # two to three days are printed; a factor of two


def test_a_cubic_metre_heats_within_the_week_of_the_eighteen_day_method():
    """Common practice, no source: from 1 m3 up, built in one go, 55 to 65 °C by days 6 to 8."""
    start = pile_of(
        {"mixed-household-scraps": 100.0, "grass-clippings": 60.0, "dry-leaves": 110.0, "straw": 20.0, "water": 40.0}
    )
    day, core, _ = middle_run(start, 14.0)
    assert 50.0 <= core.max() <= 73.0
    assert day[np.argmax(core >= 55.0)] <= 8.0


@pytest.mark.parametrize("air_c", [5.0, 15.0])
def test_twenty_litres_do_not_heat(air_c):
    core = middle_run(pile_of({"dry-leaves": 2.5}, sour_kg=4.0), air_c)[1]
    assert core.max() < air_c + 12.0


def test_the_more_of_it_is_ferment_the_later_it_is_hot():
    """No measured curve of an acid start could be read, so only the order is held: sundberg2005 names the cause."""
    first = []
    for share in (0.10, 0.33, 0.60):
        start = pile_of({name: 400.0 * (1.0 - share) * part for name, part in BASE.items()}, sour_kg=400.0 * share)
        day, core, _ = middle_run(start)
        assert core.max() > 50.0
        first.append(day[np.argmax(core > 50.0)])
    assert first[0] < first[1] < first[2]


def test_a_sour_pile_sticks_at_about_forty_degrees_until_its_acid_is_gone():
    start = pile_of({name: 160.0 * part for name, part in BASE.items()}, sour_kg=240.0)
    day, core, course = middle_run(start)
    sour = (course.table("ph")[:, 0] < 5.7) & (day > 2.0)
    assert sour.any()
    assert core[sour].max() < 50.0


@settings(max_examples=12, deadline=None)
@given(air_c=st.floats(0.0, 20.0), colder_k=st.floats(1.0, 10.0), greens=st.floats(20.0, 120.0))
def test_once_sweet_a_colder_pile_is_never_sooner(air_c, colder_k, greens):
    start = pile_of({"grass-clippings": greens, "straw": 20.0, "dry-leaves": 60.0, "water": 40.0})
    sweet = Start(**{each.name: getattr(start, each.name) for each in fields(start)} | {"acid": np.full(100, 1e-9)})
    for warm_c in (30.0, 40.0):
        times = []
        for outside in (air_c, air_c - colder_k):
            day, core, _ = middle_run(sweet, outside, days=20)
            times.append(day[np.argmax(core > warm_c)] if (core > warm_c).any() else np.inf)
        assert times[0] <= times[1]


@settings(max_examples=10, deadline=None)
@given(scraps=st.floats(5.0, 200.0), leaves=st.floats(5.0, 200.0), sour=st.floats(0.01, 100.0), air=st.floats(-10, 30))
def test_everything_is_somewhere(scraps, leaves, sour, air):
    start = pile_of({"mixed-household-scraps": scraps, "dry-leaves": leaves}, sour_kg=sour)
    course = follow(start, RATES, weather(air), days=30, decide=lambda now: (round(now.day) == 5, round(now.day) == 9))
    end, dry = course.end, start.acid + start.fast + start.slow + start.rest
    assert end.carbon + end.lost_carbon == pytest.approx(start.carbon, rel=1e-9)
    assert end.nitrogen + end.lost_nitrogen == pytest.approx(start.nitrogen, rel=1e-9)
    assert end.dry + end.lost_dry == pytest.approx(dry, rel=1e-9)
    assert end.water + end.dried == pytest.approx(start.water + end.made + end.poured, rel=1e-9)
    assert (end.lost_carbon >= 0).all()
    assert (end.lost_nitrogen >= 0).all()
    assert (end.carbon > -1e-9).all()


@given(wanted=st.floats(0.0, 50.0), air=st.floats(0.01, 100.0))
def test_oxygen_is_what_is_used_as_fast_as_it_comes(wanted, air):
    left = float(oxygen_pct(np.array(wanted), np.array(air)))
    assert 0.0 <= left <= 20.9 + 1e-9
    assert wanted * left / (left + 2.0) == pytest.approx(air * 0.232 / 20.9 * (20.9 - left), rel=1e-6, abs=1e-9)


def test_halving_the_steps_moves_the_greatest_warmth_by_less_than_two_degrees():
    start = pile_of({"mixed-household-scraps": 100.0, "grass-clippings": 60.0, "dry-leaves": 130.0, "water": 40.0})
    coarse, fine = (middle_run(start, fine=each)[1].max() for each in (1.0, 2.0))
    assert abs(coarse - fine) < 2.0


def test_frost_stops_it_and_nothing_is_negative():
    start = pile_of({"dry-leaves": 20.0}, sour_kg=5.0)
    course = follow(start, RATES, weather(-15.0), days=30, decide=left_alone)
    assert np.isfinite(course.table("core_c")).all()
    assert (course.table("moisture_frac") > 0).all()
