"""`science.load.assess`: what a load comes to adds up, and every figure opens."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.figure import recomputed
from sourloam.science.load import laws
from tests.science.load.kitchen import MATERIALS, load

COMMON = ("potato-peel", "lettuce-leaves", "bread", "cooked-rice", "apple-cores", "coffee-grounds", "raw-chicken")
AMOUNTS = st.dictionaries(st.sampled_from(COMMON), st.floats(0.05, 5.0), min_size=1, max_size=5)


@settings(max_examples=20)
@given(AMOUNTS)
def test_every_figure_recomputes_from_its_leaves(amounts):
    for figure in load(amounts).figures.values():
        assert np.allclose(recomputed(figure)[: figure.members.size], figure.members, equal_nan=True)


@settings(max_examples=20)
@given(AMOUNTS, st.floats(0.2, 5.0))
def test_shares_do_not_depend_on_how_much_there_is(amounts, times):
    once, often = load(amounts), load({name: mass * times for name, mass in amounts.items()})
    for name in ("dry_matter_pct", "c_to_n", "start_ph", "critical_ph", "lactic_needed_g_per_kg", "fermentability"):
        assert often.figures[name].value == pytest.approx(once.figures[name].value, rel=1e-6)


@settings(max_examples=20)
@given(AMOUNTS)
def test_the_start_lies_between_the_ph_of_the_driest_and_the_wettest_of_its_parts(amounts):
    found = load(amounts)
    lows = min(MATERIALS[name].ph.low for name in amounts) - 0.5
    highs = max(MATERIALS[name].ph.high for name in amounts) + 0.5
    assert lows < found.figures["start_ph"].value < highs


def test_one_material_alone_has_its_own_ph():
    found = load({"tomato-trimmings": 1.0})
    assert found.figures["start_ph"].value == pytest.approx(MATERIALS["tomato-trimmings"].ph.median, abs=0.05)


def test_what_can_be_made_is_counted_from_sugar_and_released_starch():
    sugar_only = laws.lactic_possible_kg(sugars_kg=1.0, starch_kg=0.0, lactic_yield=1.0, release_per_d=0.05, days=14.0)
    with_starch = laws.lactic_possible_kg(sugars_kg=1.0, starch_kg=1.0, lactic_yield=1.0, release_per_d=0.05, days=14.0)
    assert sugar_only == 1.0
    assert with_starch == pytest.approx(1.0 + 1.1111 * (1.0 - np.exp(-0.7)), rel=1e-3)


def test_eggshell_takes_up_acid_and_meal_takes_up_more():
    plain, shells = load({"lettuce-leaves": 2.0}), load({"lettuce-leaves": 2.0, "eggshell": 0.05})
    meal = load({"lettuce-leaves": 2.0, "eggshell-meal": 0.05})
    needed = [each.figures["lactic_needed_kg"].value for each in (plain, shells, meal)]
    assert needed == sorted(needed)
    assert needed[0] < needed[1] < needed[2]


def test_dry_goods_soak_up_what_the_wet_part_sets_free():
    wet, with_paper = load({"watermelon-rind": 3.0}), load({"watermelon-rind": 3.0, "cardboard": 0.3})
    assert with_paper.figures["free_water_l"].value < wet.figures["free_water_l"].value


def test_more_bran_does_not_cure_wetness():
    plain, with_bran = load({"watermelon-rind": 3.0}), load({"watermelon-rind": 3.0, "wheat-bran": 0.06})
    drop = plain.figures["free_water_l"].value - with_bran.figures["free_water_l"].value
    assert 0.0 <= drop < 0.15 * plain.figures["free_water_l"].value


def test_without_a_drain_the_liquid_stays_in_what_is_kept():
    drained, standing = load({"watermelon-rind": 3.0}), load({"watermelon-rind": 3.0}, drain=False)
    assert standing.figures["kept_dry_pct"].value < drained.figures["kept_dry_pct"].value


def test_bran_is_at_least_the_floor_of_practice_and_more_on_meat():
    plants, meat = load({"potato-peel": 2.0}), load({"raw-chicken": 2.0})
    assert plants.figures["bran_g"].value >= 0.9 * 20.0
    assert meat.figures["bran_g"].value > 1.4 * plants.figures["bran_g"].value


def test_scraps_that_dried_in_the_caddy_are_weighed_as_they_were():
    fresh = laws.fresh_kg(weighed_kg=0.85, loss_frac_per_d=0.05, days=3.0, dry_wb_frac=0.15)
    assert fresh == pytest.approx(1.0)
    forgotten = laws.fresh_kg(weighed_kg=0.2, loss_frac_per_d=0.05, days=90.0, dry_wb_frac=0.15)
    assert forgotten * 0.15 < 0.2  # there was never more dry matter than was weighed


def test_salt_is_common_salt_by_its_sodium():
    assert laws.salt_g_per_kg(0.001, 1.0) == pytest.approx(2.54, abs=0.005)
