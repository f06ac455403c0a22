"""`layer.work`, `layer.change` and `layer.reactions`: every group, and all together, keep carbon and nitrogen."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BalanceError
from sourloam.science.ferment.layer.acidity import ln_protons
from sourloam.science.ferment.layer.change import change, warmth, works
from sourloam.science.ferment.layer.growth import warmed
from sourloam.science.ferment.layer.reactions import Pathway
from sourloam.science.ferment.layer.species import CARBON, G_PER_MOL, NITROGEN
from sourloam.science.ferment.layer.state import GROUPS, State
from sourloam.science.ferment.layer.work import cells_of, surroundings
from tests.science.ferment.layers import FLORAS, MOLES, PLACES, STATES, atoms, cells_g

NAMES = (*GROUPS, "tissue")
EATEN = {"sugar_g": ("warm", "cold", "yeast"), "protein_g": ("protein_putrid",), "lactic_mol": ("film",)}


def works_of(state, place, flora):
    warm, cells = warmed(flora, place.temperature_c), cells_of(state)
    s = surroundings(state, cells, place, warm, ln_h=ln_protons(state, place, -14.0))
    done = works(state, cells, place, warm, s=s, pace=warmth(place.temperature_c))
    return dict(zip(NAMES, done, strict=True))


def turned_over(work):
    """Return the carbon that moves at all, so that a balance can be held to a part of it."""
    return sum(abs(getattr(work, f"{name}_mol")) * G_PER_MOL[name] for name in MOLES) + abs(work.grown_g)


def of_work(element, of, work):
    bare = {name: getattr(work, name, 0.0) for name in State._fields}
    return atoms(element, of, State(**bare | {"cells_g": work.grown_g}))


@given(STATES, PLACES, FLORAS)
def test_what_each_group_takes_and_makes_keeps_carbon_and_nitrogen(state, place, flora):
    for work in works_of(state, place, flora).values():
        within = 1e-15 + 1e-9 * turned_over(work)
        assert of_work("C", CARBON, work) == pytest.approx(0.0, abs=within)
        assert of_work("N", NITROGEN, work) == pytest.approx(0.0, abs=within)


@given(STATES, PLACES, FLORAS)
def test_each_group_grows_by_what_it_grew_and_makes_no_food(state, place, flora):
    for name, work in works_of(state, place, flora).items():
        cells = math.exp(getattr(state, f"{name}_ln_g", 0.0))
        assert work.grown_g == pytest.approx(work.growth_per_h * cells, rel=1e-9)
        assert min(work.growth_per_h, work.co2_mol, -work.oxygen_mol, -work.sugar_g, -work.protein_g) >= 0.0


@given(STATES, PLACES, FLORAS)
def test_a_group_without_its_food_does_nothing(state, place, flora):
    for food, groups in EATEN.items():
        done = works_of(state._replace(**{food: 0.0}), place, flora)
        assert all(turned_over(done[name]) == 0.0 for name in groups)


@given(STATES, PLACES, FLORAS)
def test_what_needs_air_does_nothing_without_and_takes_a_mole_of_oxygen_for_one_of_gas(state, place, flora):
    done, shut = works_of(state, place, flora), works_of(state, place._replace(aired=0.0), flora)
    used_up = works_of(state._replace(oxygen_mol=0.0), place, flora)
    for name in ("film", "mould", "tissue"):
        assert done[name].oxygen_mol == pytest.approx(-done[name].co2_mol)
        assert turned_over(shut[name]) == turned_over(used_up[name]) == 0.0


@given(STATES, PLACES, FLORAS)
def test_the_change_of_a_layer_keeps_carbon_and_nitrogen_with_its_cells_and_its_dead(state, place, flora):
    moved, _ = change(state, place, warmed(flora, place.temperature_c), -14.0)
    grown = sum(math.exp(getattr(state, f"{name}_ln_g")) * getattr(moved, f"{name}_ln_g") for name in GROUPS)
    grams = ("sugar_g", "cell_sugar_g", "starch_g", "protein_g", "cells_g")
    turned = sum(abs(getattr(moved, name)) for name in grams) + abs(grown) + cells_g(state) * 1e-3
    turned += sum(abs(getattr(moved, f"{name}_mol")) * G_PER_MOL[name] for name in MOLES)
    for element, of in (("C", CARBON), ("N", NITROGEN)):
        assert atoms(element, of, moved) == pytest.approx(0.0, abs=1e-9 * turned)


@given(STATES, PLACES, FLORAS)
def test_alkali_that_dissolves_becomes_strong_ions_and_nothing_else_does(state, place, flora):
    moved, _ = change(state, place, warmed(flora, place.temperature_c), -14.0)
    assert moved.strong_eq == -moved.alkali_eq
    assert moved.strong_eq >= 0.0


@given(STATES, PLACES, FLORAS, st.sampled_from(["sugar_g", "protein_g", "starch_g", "cell_sugar_g", "lactic_mol"]))
def test_what_is_not_there_is_not_used(state, place, flora, name):
    moved, _ = change(state._replace(**{name: 0.0}), place, warmed(flora, place.temperature_c), -14.0)
    assert getattr(moved, name) >= 0.0


def test_a_pathway_that_makes_more_carbon_than_it_takes_cannot_be_built():
    with pytest.raises(BalanceError, match="the carbon of glucose"):
        Pathway("glucose", lactic=2.0, co2=0.1)
