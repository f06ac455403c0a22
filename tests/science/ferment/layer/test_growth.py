"""`layer.growth` against a printed table and published limits of growth, and by its own law."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.ferment.layer.growth import (
    acid_factor,
    dying,
    food_factor,
    ph_factor,
    starving,
    temperature_factor,
    water_factor,
)
from sourloam.science.ferment.layer.state import GROUPS
from sourloam.science.microbes.cardinal import cardinal_temperature
from tests.published import Published
from tests.science.ferment.layers import FLORAS, ORGANISMS, flora_within_ranges, held_back

MIDDLE = flora_within_ranges(0)
SEAWEED = MIDDLE.warm._replace(least_c=5.0, best_c=20.0, most_c=30.0)
OUTSIDE = [
    Published("macrogrow_t_lim", f"T_lim at {at:g} °C, for floats", given=(at,), want=want)
    for at, want in [
        (4.0, "0.00000000"),
        (6.0, "0.02000000"),
        (12.0, "0.53454545"),
        (20.0, "1.00000000"),
        (26.0, "0.65333333"),
        (29.0, "0.19692308"),
        (30.0, "0.00000000"),
    ]
]
# 51.9 mmol of lactic acid to a gram of cells, 7.2 in an hour; the acid weighs 90.08 g/mol.
ACID_OF_CELLS = [
    Published(
        "passos1994",
        "lactic acid to a gram of cells grown",
        given=("made_per_growth", "value"),
        want="51.9",
        within=4.2,
        why="the interval that the authors print",
    ),
    Published(
        "passos1994",
        "lactic acid of a gram of cells in an hour",
        given=("made_per_h", "low"),  # another strain makes five times as much, so that it is the low end
        want="7.2",
        within=0.9,
        why="the interval that the authors print",
    ),
]
EACH = [(flora, name) for flora in range(3) for name in GROUPS]
GROUP = st.builds(getattr, FLORAS, st.sampled_from(GROUPS))


def valid(group):
    return group.least_c < group.best_c < group.most_c and group.best_c > (group.least_c + group.most_c) / 2.0


@pytest.mark.parametrize("case", OUTSIDE, ids=str)
def test_the_printed_table_of_the_temperature_model_is_met(case):
    (at,) = case.given
    assert temperature_factor(SEAWEED, at) == pytest.approx(float(case.want), abs=case.tolerance)


@given(GROUP.filter(valid), st.floats(-20.0, 60.0))
def test_the_pace_at_a_temperature_is_that_of_the_model_for_arrays(group, temperature_c):
    want = cardinal_temperature(temperature_c, least_c=group.least_c, best_c=group.best_c, most_c=group.most_c)
    assert temperature_factor(group, temperature_c) == pytest.approx(want, abs=1e-12)


@pytest.mark.parametrize("seed", range(40))
def test_every_group_within_its_ranges_has_one_best_temperature(seed):
    assert all(valid(getattr(flora_within_ranges(seed), name)) for name in GROUPS)


@given(GROUP)
def test_the_pace_is_whole_at_the_best_values_and_nothing_at_the_ends(group):
    assert temperature_factor(group, group.best_c) == pytest.approx(1.0)
    assert ph_factor(group, group.best_ph) == pytest.approx(1.0)
    assert water_factor(group, 1.0) == pytest.approx(1.0)
    assert temperature_factor(group, group.least_c) == temperature_factor(group, group.most_c) == 0.0
    assert ph_factor(group, group.least_ph) == ph_factor(group, group.most_ph) == 0.0
    assert water_factor(group, group.least_aw) == 0.0


@given(GROUP, st.floats(-40.0, 80.0), st.floats(0.0, 14.0), st.floats(0.5, 1.0), st.floats(0.0, 3.0))
def test_no_factor_leaves_0_to_1(group, temperature_c, ph, activity, acid):
    factors = (
        temperature_factor(group, temperature_c),
        ph_factor(group, ph),
        water_factor(group, activity),
        acid_factor(group, acid, acid, 1.0),
        food_factor(group.half_sugar_g, acid),
    )
    assert all(0.0 <= each <= 1.0 + 1e-9 for each in factors)


def test_coliforms_stop_beside_the_published_undissociated_lactic_acid():
    # presser1998, abstract: no growth above 11 mM undissociated. 36 mM in all at pH 4.2 hold 11.3.
    group = MIDDLE.enteric._replace(lactic_mol=ORGANISMS["enteric"]["lactic_mol"].value)
    assert acid_factor(group, held_back(0.036, 4.2, 3.86), 0.0, 1.0) == 0.0
    assert acid_factor(group, held_back(0.034, 4.2, 3.86), 0.0, 1.0) > 0.0


def test_coliforms_stop_at_the_published_ph_without_any_acid():
    # presser1998, abstract: at or under pH 3.9 none, whatever the acid.
    group = MIDDLE.enteric._replace(least_ph=ORGANISMS["enteric"]["least_ph"].value, best_ph=7.0, most_ph=9.2)
    assert ph_factor(group, 3.9) == 0.0
    assert ph_factor(group, 4.0) > 0.0


@pytest.mark.parametrize(("total", "ph"), [(0.150, 4.6), (1.510, 6.25)])
def test_butyric_bacteria_stop_between_the_two_published_limits(total, ph):
    # thylin1995, abstract: 150 mM of lactate stop it at pH 4.6 and 1510 mM at pH 6.25: 8.9 and 2.1 mM undissociated.
    # One limit stands for both here, so it must lie where the sharper of the two already stops it somewhere.
    limits = ORGANISMS["sugar_putrid"]["lactic_mol"]
    assert 0.0021 < limits.low <= limits.high < 0.0095 + 1e-9
    if ph < 5.0:
        group = MIDDLE.sugar_putrid._replace(lactic_mol=limits.value)
        assert acid_factor(group, held_back(total, ph, 3.40), 0.0, 1.0) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize("case", ACID_OF_CELLS, ids=str)
def test_the_packaged_acid_of_lactic_cells_is_the_published_one(case):
    name, end = case.given
    value = getattr(ORGANISMS["warm"][name], end)
    assert 1000.0 * value / 90.08 == pytest.approx(float(case.want), abs=case.tolerance)


@given(GROUP, st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 0.5))
def test_more_acid_never_quickens_a_group(group, lactic, acetic, more):
    before = acid_factor(group, lactic, acetic, 1.0)
    assert acid_factor(group, lactic + more, acetic, 1.0) <= before
    assert acid_factor(group, lactic, acetic + more, 1.0) <= before


@given(st.floats(-5.0, 40.0), st.floats(2.5, 6.0), st.floats(0.0, 10.0), st.floats(0.0, 1.0))
def test_cells_die_faster_where_it_is_warmer_and_more_acid(temperature_c, ph, warmer, more):
    assert dying(temperature_c + warmer, ph) >= dying(temperature_c, ph)
    assert dying(temperature_c, ph - more) >= dying(temperature_c, ph)


def test_death_is_given_at_25_degrees_and_ph_4():
    assert dying(25.0, 4.0) == pytest.approx(1.0)
    assert dying(25.0, 5.5) == 0.0


@given(aired=st.floats(0.0, 1.0), cells_g=st.floats(1e-9, 5.0))
def test_what_has_air_wastes_less_and_nothing_wastes_that_has_enough(aired, cells_g):
    assert starving(MIDDLE.mould, cells_g, 1.0) == 0.0
    assert 0.0 <= starving(MIDDLE.mould, cells_g, aired) <= starving(MIDDLE.mould, cells_g, 0.0)


def test_without_air_mould_wastes_slower_than_it_burns_food_in_air_and_spores_wait():
    upkeep_per_h = MIDDLE.mould.made_per_h / MIDDLE.mould.made_per_growth
    assert 0.0 < starving(MIDDLE.mould, 1.0, 0.0) < upkeep_per_h
    assert starving(MIDDLE.mould, 1e-8, 0.0) < 1e-3 * starving(MIDDLE.mould, 1.0, 0.0)
