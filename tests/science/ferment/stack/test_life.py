"""`stack.life`, `stack.water` and `stack.air`: a vessel in plain Python keeps what it is given."""

import math
from functools import lru_cache

import numpy as np
import pytest

from sourloam.science.ferment.layer.acidity import TEN, open_charge
from sourloam.science.ferment.layer.state import GROUPS, LN_FROM, OXYGEN, SIZE, STRONG, State
from sourloam.science.ferment.layer.step import state_of
from sourloam.science.ferment.stack.air import L_PER_MOL, OXYGEN_OF_AIR, breathe, headspace_l, open_lid
from sourloam.science.ferment.stack.given import SOLUTES, SUMP, Laid, Stack, flora_of, vessel_of
from sourloam.science.ferment.stack.life import (
    CORE_C,
    FLOODED,
    KEPT,
    OXYGEN_LEFT,
    PH,
    WATER,
    Core,
    Course,
    ferment,
    lay,
    live_all,
    place_of,
)
from sourloam.science.ferment.stack.water import draw_off, run_down
from tests.science.ferment.layers import (
    bucket,
    carbon_g,
    days_of,
    drawn,
    followed,
    laid,
    nitrogen_g,
    with_vessel,
)

ROOM = {"mixed-household-scraps": 3.0}
WET = {"vegetable-scraps": 3.5}
FROSTY = [18.0] * 3 + [-12.0] * 5 + [18.0] * 6
AMOUNTS = [i for i in range(LN_FROM) if i != STRONG]
WATER_KG, VOLUME_L, ADDED_G, PROTEOLYSIS = (
    Laid._fields.index(name) for name in ("water_kg", "volume_l", "added_g", "proteolysis_per_d")
)
CO2, CELL_SUGAR, SUGAR = (State._fields.index(name) for name in ("co2_mol", "cell_sugar_g", "sugar_g"))
STRONG_AND_ALKALI = [STRONG, State._fields.index("alkali_eq")]


def in_turn(recipe, layers=3, **keys):
    return [laid(recipe, 4, laid_d=2.0 * i, **keys) for i in range(layers)]


# What is asked of each is a balance, so that each is a different way for it to fail.
COURSES = {
    "draining": (bucket(in_turn(WET), days=14, sump_l=20.0), {"drains_times": 1.7, "runs_in_h": 4.0}),
    "flooded": (bucket(in_turn(WET), days=14, sump_l=0.0, draws_every_d=0), {"drains_times": 1.7, "runs_in_h": 4.0}),
    "opened": (bucket(in_turn(ROOM), days=14, opened_on=(5, 6, 7, 9, 11)), {"swapped_frac": 0.9}),
    "leaking": (bucket(in_turn(ROOM), days=14), {"leak_l_per_d": 20.0}),
    "from a caddy": (bucket(in_turn(WET, caddy_h=60.0, caddy_c=25.0), days=14), {}),
    "thawed": (bucket(in_turn(WET), room_c=FROSTY), {"drains_times": 1.7}),
    "limed": (bucket(in_turn(ROOM, added=[("garden-lime", 0.1)]), days=14), {}),
}
EVERY = pytest.mark.parametrize("name", COURSES)


@lru_cache(maxsize=8)
def of(name):
    filling, vessel = COURSES[name]
    return followed(filling, 4, **vessel)


def sums(course, day, what):
    """Return what all layers hold at the end of a day, by member."""
    held = course.layers[:, day, :, :SIZE]
    return np.array(
        [
            sum(what(State(*row)) * water for row, water in zip(rows, waters, strict=True))
            for rows, waters in zip(held, course.starts.laid[:, :, WATER_KG], strict=True)
        ]
    )


def given(course, what, cells_of):
    """Return what all layers were laid with, bran with them, by member."""
    starts = course.starts
    added = starts.laid[:, :, ADDED_G] * starts.laid[:, :, WATER_KG]
    held = np.array(
        [
            sum(what(State(*row)) * water for row, water in zip(rows, waters, strict=True))
            for rows, waters in zip(starts.y, starts.laid[:, :, WATER_KG], strict=True)
        ]
    )
    return held + cells_of * added.sum(axis=1)


def ran_off(course, what):
    """Return what is in the liquid, where no cells are."""
    return np.array([what(State(*row[1 : 1 + SIZE])) for row in course.liquid])


@EVERY
@pytest.mark.parametrize("what", [carbon_g, nitrogen_g])
def test_what_was_laid_is_in_the_layers_the_liquid_and_the_gas(name, what):
    course = of(name)
    one_gram_of_cells = what(State(*[0.0] * SIZE)._replace(cells_g=1.0))
    went_in = given(course, what, one_gram_of_cells)
    came_out = sums(course, -1, what) + ran_off(course, what)
    assert came_out == pytest.approx(went_in, rel=1e-6)


@EVERY
def test_water_is_in_the_layers_or_ran_off(name):
    course = of(name)
    stayed = (course.layers[:, -1, :, WATER] * course.starts.laid[:, :, WATER_KG]).sum(axis=1)
    assert stayed + course.liquid[:, 0] == pytest.approx(course.starts.laid[:, :, WATER_KG].sum(axis=1), rel=1e-9)


@EVERY
def test_salts_and_acids_that_no_group_eats_are_in_the_layers_or_ran_off(name):
    filling, vessel = COURSES[name]
    starts = with_vessel(drawn(filling, 4), **vessel)
    flora = flora_of(starts.groups[0], starts.homolactic_frac[0])
    stack, at = stack_of(starts, 0), vessel_of(starts.vessel[0])
    days, out = days_of(filling), np.zeros(SUMP)
    present = lay(stack, flora, days, 500.0, before=0)
    before = (stack.solutes * stack.laid[:, WATER_KG, None]).sum(axis=0)
    stack.y[:, CELL_SUGAR] = 0.0
    for _ in range(20):
        run_down(stack, at, present, 3.0)
        draw_off(stack, out)
    after = (stack.solutes * stack.laid[:, WATER_KG, None]).sum(axis=0) + out[-len(SOLUTES) :]
    assert after == pytest.approx(before, rel=1e-12, abs=1e-15)


@EVERY
def test_strong_ions_and_undissolved_alkali_are_in_the_layers_or_ran_off(name):
    course = of(name)
    waters = course.starts.laid[:, :, WATER_KG]
    last = course.layers[:, -1][..., STRONG_AND_ALKALI].sum(axis=2)
    first = [lay_charge(course.starts, member, COURSES[name][0]) for member in range(4)]
    came_out = (last * waters).sum(axis=1) + course.liquid[:, 1 + STRONG]
    assert came_out == pytest.approx(np.array(first), rel=1e-6, abs=1e-9)


def lay_charge(starts, member, filling):
    """Return strong ions and alkali of all layers as they are laid, after their time in the caddy."""
    stack = stack_of(starts, member)
    flora = flora_of(starts.groups[member], starts.homolactic_frac[member])
    lay(stack, flora, days_of(filling), 500.0, before=0)
    return float((stack.y[:, STRONG_AND_ALKALI].sum(axis=1) * stack.laid[:, WATER_KG]).sum())


def stack_of(starts, member):
    layers = starts.y.shape[1]
    return Stack(
        starts.y[member].copy(),
        starts.solutes[member].copy(),
        np.ones(layers),
        -TEN * starts.ph[member],
        np.full(layers, 0.5),
        starts.laid[member],
        np.zeros(SUMP),
        np.zeros(8),  # more than it takes
    )


@pytest.mark.parametrize("name", ["opened", "leaking", "limed", "flooded"])
def test_the_charges_of_a_layer_cancel_at_the_recorded_ph(name):
    filling, vessel = COURSES[name]
    course = followed(filling, 4, **(vessel | {"drains_times": 0.0}))  # so that no salt has moved
    stack = stack_of(course.starts, 0)
    for i, row in enumerate(course.layers[0, -1]):
        place = place_of(stack, i, course.vessel[0, -1, CORE_C])
        open_eq, slope = open_charge(10.0 ** -row[PH], state_of(row[:SIZE]), place)
        assert abs(open_eq) < 1e-9 + 1e-9 * slope


@EVERY
def test_no_more_cells_live_than_have_grown(name):
    layers = of(name).layers
    alive = np.exp(layers[..., LN_FROM : LN_FROM + len(GROUPS)]).sum(axis=-1)
    grown = layers[..., State._fields.index("cells_g")]
    there = np.isfinite(grown)
    assert (alive[there] <= grown[there] * 1.005).all()


@EVERY
def test_nothing_recorded_is_negative_or_no_number_but_in_layers_to_come(name):
    course = of(name)
    laid_h = course.starts.laid[:, :, 0]
    days = np.arange(course.layers.shape[1])
    there = days[None, :, None] * 24.0 > laid_h[:, None, :] + 1e-6
    there[:, 0] = laid_h <= 0.0
    assert np.isnan(course.layers[~there]).all()
    held = course.layers[there]
    assert np.isfinite(held).all()
    assert held[:, AMOUNTS].min() >= 0.0
    assert held[:, WATER].min() >= 0.0
    assert 1.0 < held[:, PH].min() <= held[:, PH].max() < 13.0
    assert course.liquid[:, 0].min() >= 0.0
    assert course.vessel[..., OXYGEN_LEFT].min() >= 0.0


def test_a_flooded_vessel_stands_in_its_liquid_and_a_draining_one_does_not():
    assert of("flooded").vessel[..., FLOODED].max(axis=1).min() >= 1.0
    assert of("draining").vessel[..., FLOODED].max() == 0.0


def test_liquid_that_stands_lets_nothing_out_and_a_drain_does():
    assert of("flooded").liquid[:, 0].max() == 0.0
    assert of("draining").liquid[:, 0].min() > 0.0


# Air


def airy(recipe=None):
    """Return a stack, its vessel and its groups, of which none but the tissue lives."""
    starts = with_vessel(drawn(bucket([laid(recipe or WET, 4)]), 4), leak_l_per_d=0.0)
    stack, vessel = stack_of(starts, 0), vessel_of(starts.vessel[0])
    flora = flora_of(starts.groups[0], starts.homolactic_frac[0])
    days = days_of(bucket([laid(WET, 4)]))
    lay(stack, flora, days, 0.0, before=0)
    stack.y[:, LN_FROM : LN_FROM + len(GROUPS)] = -60.0
    stack.air[1] = headspace_l(stack, vessel, 1)
    stack.air[0] = OXYGEN_OF_AIR * stack.air[1] / L_PER_MOL
    return stack, vessel, flora, days


def test_the_oxygen_that_tissue_uses_is_gone_from_the_air_and_came_back_as_gas():
    stack, vessel, flora, days = airy()
    air, gas = stack.air[0], stack.y[0, CO2] * stack.laid[0, WATER_KG]
    proteolysis = stack.laid.copy()
    stack.laid[:, PROTEOLYSIS] = 0.0  # without the gas of protein
    for _ in range(4):
        ferment(stack, vessel, flora, days, present=1, core=Core(20.0, 20.0, 20.0, 20.0))
    stack.laid[:] = proteolysis
    used = air - stack.air[0]
    assert used > 1e-4
    assert stack.air[2] == pytest.approx(used)
    assert stack.y[0, CO2] * stack.laid[0, WATER_KG] - gas == pytest.approx(used, rel=1e-6)
    assert stack.y[0, OXYGEN] == 0.0


def test_a_sealed_vessel_uses_up_its_oxygen_and_takes_no_more():
    stack, vessel, flora, days = airy()
    held = []
    for _ in range(40):
        ferment(stack, vessel, flora, days, present=1, core=Core(20.0, 20.0, 20.0, 20.0))
        held.append(stack.air[0])
    assert np.all(np.diff(held) <= 1e-15)
    assert held[-1] < 0.05 * held[0]


def test_leaks_and_an_open_lid_never_bring_more_oxygen_than_air_holds():
    stack, vessel, _, _ = airy()
    full = OXYGEN_OF_AIR * stack.air[1] / L_PER_MOL
    for oxygen in (0.0, 0.3 * full, full):
        stack.air[0] = oxygen
        breathe(stack, vessel._replace(leak_l_per_d=1000.0), 24.0)
        assert stack.air[0] == pytest.approx(full)
        stack.air[0] = oxygen
        open_lid(stack, vessel._replace(swapped_frac=1.0))
        assert stack.air[0] == pytest.approx(full)


def test_the_air_over_the_layers_is_never_richer_in_oxygen_than_air_is():
    # A layer pushes out as much air as it takes room, and the oxygen of that air goes with it.
    layers = [laid(WET, 4, laid_d=float(i), bran_kg=0.0) for i in range(4)]
    course = followed(bucket(layers, room_c=3.0, days=5), 4, swapped_frac=0.0, leak_l_per_d=0.0)
    room = np.maximum(20.0 - course.starts.laid[:, :, VOLUME_L].sum(axis=1), 0.02 * 20.0)
    full = OXYGEN_OF_AIR * room / L_PER_MOL
    assert np.all(course.vessel[:, 4, OXYGEN_LEFT] <= full * (1.0 + 1e-9))


# Frost and heat


def test_a_frozen_vessel_keeps_its_state():
    course = followed(bucket([laid(WET, 4)], room_c=[18.0] * 2 + [-15.0] * 12), 4, lag_h=2.0)
    kept = course.layers[:, 4:]
    assert kept[:, 1:] == pytest.approx(np.broadcast_to(kept[:, :1], kept[:, 1:].shape), rel=1e-9, abs=1e-12)


def test_thaw_sets_the_sugar_of_burst_cells_free_at_once():
    course = followed(
        bucket([laid(WET, 4, bran_kg=0.0)], room_c=[-15.0] * 5 + [1.0] * 3),
        4,
        lag_h=2.0,
        burst_share=0.9,
        drains_times=0.0,
    )
    in_cells, free = course.layers[..., 0, CELL_SUGAR], course.layers[..., 0, SUGAR]
    assert np.all(in_cells[:, 6] < 0.11 * in_cells[:, 5])
    assert free[:, 6] == pytest.approx(free[:, 5] + in_cells[:, 5] - in_cells[:, 6], rel=0.1)


def test_the_core_of_a_vessel_lags_the_room_by_its_own_time():
    steps = [10.0] * 4 + [20.0] * 10
    course = followed(bucket([laid(WET, 4)], room_c=steps), 4, lag_h=30.0)
    core, warmer = course.vessel[..., CORE_C], course.starts.warmer_c
    for day in (5, 6, 8):
        want = 20.0 - 10.0 * math.exp(-24.0 * (day - 4) / 30.0)
        assert core[:, day] - warmer == pytest.approx(np.full(4, want), abs=1e-9)


def test_carbon_dioxide_is_made_and_never_taken_back():
    for name in COURSES:
        made = of(name).layers[..., CO2]
        assert np.nanmin(np.diff(made, axis=1)) >= -1e-12


def test_the_same_vessel_lives_the_same_life_twice():
    filling, _ = COURSES["draining"]
    starts, days = drawn(filling, 4), days_of(filling)

    def live():
        course = Course(np.full((4, 15, 3, SIZE + 2), np.nan), np.zeros((4, 15, KEPT)), np.zeros((4, SUMP)))
        live_all(starts, days, course)
        return course

    one, other = live(), live()
    assert np.array_equal(one.layers, other.layers, equal_nan=True)
    assert np.array_equal(one.vessel, other.vessel, equal_nan=True)
