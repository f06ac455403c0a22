"""A load through its days: its liquid, its bran and its whole filling, by their own laws; reasons that open."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.figure import recomputed, written
from sourloam.evidence.parameters import load_parameters
from sourloam.science.ferment.parameters import FermentParameters
from sourloam.science.load.advice import Do, advise
from sourloam.science.load.bed import as_planned, full_with_kg, mixed_g_per_kg
from sourloam.science.load.bran import Wild, bran_times, habit_bran_g, kilogram_lasts_d, wild_fails_frac
from sourloam.science.load.course import Habit, deep, with_course
from sourloam.science.load.full import full_layers, scraps_room_l
from sourloam.science.load.liquid import draw_off_d, first_draw_l, first_liquid_d, liquid_ph, liquid_shares, runs_off_l
from sourloam.science.load.verdict import limits
from sourloam.science.vessel.geometry import floor_m2
from sourloam.science.vessel.leachate import drained_frac, drained_while_filling_frac
from tests.science.load.kitchen import MATERIALS, MEMBERS, known, load, means

FERMENT = load_parameters(FermentParameters, "ferment", members=MEMBERS)
WILD = Wild(FERMENT.ready_at_20c_d, FERMENT.without_bran_times, FERMENT.failing_share)
WEEK = Habit(7.0)
DAYS, LITRES = st.floats(0.5, 60.0), st.floats(0.05, 20.0)
PEELS = {"potato-peel": 2.0, "carrot-peel": 1.0}


def lived(amounts, habit=WEEK, **where):
    return with_course(load(amounts, **where), known(), habit, WILD)


@settings(max_examples=10)
@given(st.booleans(), st.booleans(), st.booleans(), st.sampled_from((None, 3)))
def test_every_figure_recomputes_from_its_leaves(has_bran, smells, drain, loads):
    found = lived(PEELS | {"cheese": 0.2}, Habit(14.0, loads, smells, has_bran), drain=drain)
    for figure in found.figures.values():
        assert np.allclose(recomputed(figure)[: figure.members.size], figure.members, equal_nan=True)


# The liquid


@given(DAYS, DAYS, DAYS, DAYS)
def test_what_is_filled_in_slowly_drains_no_sooner_and_never_goes_back(age_d, more_d, filling_d, draining_d):
    early, late = (drained_while_filling_frac(age, filling_d, draining_d) for age in (age_d, age_d + more_d))
    assert -1e-12 <= early <= late <= 1.0 + 1e-12
    assert early <= drained_frac(age_d, draining_d) + 1e-12


@given(DAYS, DAYS)
def test_what_is_filled_in_at_once_drains_as_one_load(age_d, draining_d):
    at_once = drained_while_filling_frac(age_d, 1e-4, draining_d)
    assert at_once == pytest.approx(drained_frac(age_d, draining_d), abs=1e-3)


@given(LITRES, DAYS, DAYS, st.floats(0.01, 1.0))
def test_on_the_day_of_the_first_liquid_there_is_as_much_as_is_seen(whole_l, filling_d, draining_d, seen_l):
    day = first_liquid_d(whole_l, filling_d, draining_d, seen_l)
    if whole_l <= seen_l:
        assert day == np.inf
        assert first_draw_l(whole_l, day, 3.0, filling_d=filling_d, draining_d=draining_d) == 0.0
    elif day < filling_d + 300.0:  # beyond that it is the end of the search
        assert whole_l * drained_while_filling_frac(day, filling_d, draining_d) == pytest.approx(seen_l, rel=1e-4)


@given(LITRES, st.floats(0.1, 5.0), DAYS, DAYS, st.floats(1.0, 7.0))
def test_between_two_draw_offs_the_base_never_overflows(whole_l, base_l, filling_d, draining_d, longest_d):
    every = draw_off_d(whole_l, base_l, filling_d=filling_d, draining_d=draining_d, longest_d=longest_d)
    assert every <= longest_d
    days = np.linspace(0.0, filling_d + 5.0 * draining_d, 50)
    come = [whole_l * np.asarray(drained_while_filling_frac(days + add, filling_d, draining_d)) for add in (0.0, every)]
    assert np.max(come[1] - come[0]) <= base_l * (1.0 + 1e-6)


@given(LITRES, st.floats(0.0, 500.0), st.floats(1.0, 3.0))
def test_bran_holds_back_no_more_than_it_soaks_up(free_l, bran_g, holds):
    left = runs_off_l(free_l, bran_g, holds)
    assert 0.0 <= left <= free_l
    assert free_l - left <= bran_g / 1000.0 * holds + 1e-12


def test_what_cannot_sour_stays_as_it_is_and_what_is_sour_stays_sour():
    water = {"tissue_eq": 0.05, "strong_eq": 0.04, "alkali_eq": 0.0, "water_kg": 0.9}
    held = water | {"soured_ph": 4.2, "citric": 0.0, "malic": 0.0, "lactic": 0.0, "acetic": 0.0}
    none, some, much = (liquid_ph(**held, lactic_possible_kg=each) for each in (0.0, 0.0005, 0.05))
    assert none > some > much == pytest.approx(4.2)
    assert liquid_ph(**(held | {"citric": 0.05}), lactic_possible_kg=0.05) < 4.2


def test_the_liquid_is_of_what_is_wet():
    shares = liquid_shares(load({"melon-rind": 2.0, "bread": 1.0, "potato-peel": 1.0}), known())
    assert sum(shares.values()) == pytest.approx(1.0)
    assert MATERIALS["bread"] not in shares
    assert max(shares, key=shares.get) is MATERIALS["melon-rind"]


def test_a_vessel_without_a_drain_has_a_bed_and_nothing_to_draw_off():
    drained, standing = lived(PEELS), lived(PEELS, drain=False)
    assert {"first_liquid_d", "draw_off_d", "liquid_ph"} <= drained.figures.keys()
    assert not {"first_liquid_d", "draw_off_d", "liquid_ph"} & standing.figures.keys()
    assert "bed_g" in standing.figures.keys() - drained.figures.keys()
    assert standing.figures["full_layers"].value < drained.figures["full_layers"].value


@pytest.mark.parametrize("parts", [None, 10.0, 300.0])
def test_the_water_is_the_liquid_times_the_parts_and_never_stronger_than_is_safe(parts):
    held = lived(PEELS, replace(WEEK, parts=parts)).figures
    wanted = max(parts or 0.0, known().load.dilution.value)
    assert held["watering_l"].value == pytest.approx(held["runs_off_l"].value * wanted)


# The bran


@given(st.floats(0.0, 1.0), st.floats(1.0, 4.0), st.floats(1.0, 4.0))
def test_a_load_gets_between_the_dose_of_plants_and_that_of_meat(animal, times, smell):
    assert smell - 1e-12 <= bran_times(animal, times, smell) <= smell * times + 1e-12


@given(st.floats(1.0, 5000.0), DAYS)
def test_a_kilogram_is_gone_when_it_has_been_used(bran_g, over_d):
    assert kilogram_lasts_d(bran_g, over_d) * bran_g / over_d == pytest.approx(1000.0)


def test_a_kilogram_lasts_nine_and_a_half_weeks_at_three_per_cent_of_three_and_a_half_kilograms_a_week():
    """Row C066 of the cases works it out."""
    assert kilogram_lasts_d(0.03 * 3500.0, 7.0) / 7.0 == pytest.approx(9.5, abs=0.05)


def test_a_handful_on_each_surface_of_a_pail_is_what_the_cover_reckons_at_its_most():
    """A handful of 30 g on 19 L: common practice, no source."""
    area = floor_m2(19.0, 1.2)
    assert habit_bran_g(1, area, known().load.cover_kg_per_m2.high) >= 30.0


@given(st.floats(0.0, 1.0), st.floats(1.0, 10.0))
def test_no_more_than_all_batches_fail(share, times):
    assert share <= wild_fails_frac(share, times) <= 1.0


def test_a_bad_smell_raises_all_bran_alike():
    plain, smelly = lived(PEELS), lived(PEELS, replace(WEEK, smells=True))
    for name in ("bran_g", "bran_usual_g"):
        times = smelly.figures[name].members / plain.figures[name].members
        assert np.allclose(times, known().load.smell_times.members)


def test_without_bran_no_figure_tells_of_any():
    found = lived(PEELS, replace(WEEK, has_bran=False, loads=7))
    assert not {name for name in found.figures if "bran_" in name or name.startswith("habit")}
    assert found.figures["wild_ready_d"].value > FERMENT.ready_at_20c_d.value
    assert found.figures["wild_fails_frac"].value > FERMENT.failing_share.value


# The filling


def test_a_pail_of_19_litres_takes_about_nine_thin_layers_on_a_thick_bed():
    """300 mm less a bed of 75 mm, in layers of 25 mm (row C021 of the cases); the shape of a pail is judgement."""
    area = floor_m2(19.0, 1.2)
    room = scraps_room_l(19.0, 0.0, 0.075, area)
    assert full_layers(room, area, 0.025) == pytest.approx(9.0, abs=0.5)


@given(st.floats(1.0, 250.0), st.floats(0.0, 0.1), st.floats(0.02, 0.06))
def test_layers_and_bed_fill_nine_tenths_of_a_vessel(volume_l, bed_m, layer_m):
    area = floor_m2(volume_l, 1.2)
    room = scraps_room_l(volume_l, 0.0, bed_m, area)
    count = full_layers(room, area, layer_m)
    if count > 1.0:
        assert 1000.0 * area * (bed_m + count * layer_m) == pytest.approx(0.9 * volume_l)


WET = {"potato-peel": 3.0}


def planned(amounts, **where):
    brought = load(amounts, drain=False, **where)
    advice = advise(brought, limits(brought, known()), known(), means())
    lived_with = with_course(brought, known(), WEEK, WILD)
    return lived_with.figures, as_planned(advice, lived_with)


@pytest.mark.parametrize("amounts", [WET, {"melon-rind": 4.0}, {"carrot-peel": 3.0, "potato-peel": 1.0}], ids=str)
def test_bed_and_what_is_mixed_in_are_what_the_liquid_wants_and_fit_the_vessel(amounts):
    held, _ = planned(amounts)
    enough = dict(held["mixed_g_per_kg"].inputs)["enough_g_per_kg"].value
    dry_g = held["bed_g"].members + held["full_mixed_g"].members
    assert np.median(dry_g / held["full_kg"].members) == pytest.approx(enough, rel=0.05)
    cardboard = MATERIALS["cardboard"]
    bare = dict(held["full_kg"].inputs)
    litres = bare["room_l"].value * held["full_kg"].value / bare["bare_kg"].value
    litres += held["full_mixed_g"].value / 1000.0 / cardboard.pressed_kg_per_l
    assert litres == pytest.approx(bare["room_l"].value, rel=0.1)


def test_the_advice_and_the_filling_mix_in_the_same():
    held, advice = planned(WET)
    (step,) = [each for each in advice.steps if each.do is Do.SOAK]
    assert step.amount_kg == pytest.approx(held["mixed_g_per_kg"].value / 1000.0 * 3.0, rel=0.01)


def test_what_soaks_up_its_own_liquid_gets_nothing_mixed_in():
    held, advice = planned({"potato-peel": 3.0, "cardboard": 1.5})
    assert advice is None or not any(each.because == "liquid" for each in advice.steps)
    assert held["full_mixed_g"].value == 0.0


@given(st.floats(0.0, 400.0), st.floats(0.0, 600.0), st.floats(0.5, 20.0), st.floats(1.0, 40.0), st.floats(0.05, 0.3))
def test_with_its_bed_a_filling_has_what_is_enough_and_no_more(enough, bed, bare_kg, room_l, pressed):
    mixed = mixed_g_per_kg(
        enough_g_per_kg=enough,
        bed_g=bed,
        bare_kg=bare_kg,
        room_l=room_l,
        pressed_kg_per_l=pressed,
    )
    scraps = full_with_kg(bare_kg, room_l, mixed, pressed)
    assert 0.0 <= scraps <= bare_kg * (1.0 + 1e-9)
    if mixed > 0.0:
        assert bed + mixed * scraps == pytest.approx(enough * scraps, rel=1e-6)
    else:
        assert bed >= enough * scraps * (1.0 - 1e-9)


def test_depths_that_were_written_stand_in_place_of_the_usual_ones():
    layer = written("layer_m", 0.02, "m", members=MEMBERS)
    thin = deep(known(), layer_m=layer, bed_m=None)
    assert thin.vessel.layer_m is layer
    assert thin.vessel.bed_m is known().vessel.bed_m
