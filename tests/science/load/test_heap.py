"""`science.load.heap`: what a heap takes goes by its room, and its water by its moisture."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.figure import recomputed, written
from sourloam.evidence.parameters import load_parameters
from sourloam.science.load.assess import Portion
from sourloam.science.load.heap import (
    HeapParameters,
    dry_stuff_kg,
    heap_figures,
    heap_layers,
    is_for_a_heap,
    sheet_m2,
    volume_of,
    water_l,
)
from tests.science.load.kitchen import MATERIALS, MEMBERS

STRAW = MATERIALS["straw"]
GIVEN = load_parameters(HeapParameters, "heap", members=MEMBERS)
VOLUME = st.floats(0.05, 100.0)


def heap(amounts):
    held = [
        Portion(MATERIALS[name], written(f"mass.{n}", mass, "kg", members=MEMBERS))
        for n, (name, mass) in enumerate(amounts.items())
    ]
    volumes = {f"volume_{number}": volume_of(each, MEMBERS) for number, each in enumerate(held)}
    return heap_figures(held, volumes, GIVEN, straw=STRAW, members=MEMBERS)


def test_every_figure_recomputes_from_its_leaves():
    for figure in heap({"grass-clippings": 300.0, "hay": 40.0}).values():
        assert np.allclose(recomputed(figure)[: figure.members.size], figure.members)


def test_twice_the_heap_takes_twice_of_all_but_the_sheet_and_the_days():
    once, twice = heap({"cow-manure": 500.0}), heap({"cow-manure": 1000.0})
    for name in ("volume_m3", "culture_l", "water_l", "mineral_kg"):
        assert twice[name].value == pytest.approx(2.0 * once[name].value)
    assert once["sheet_m2"].value < twice["sheet_m2"].value < 2.0 * once["sheet_m2"].value
    assert once["ready_d"].value == twice["ready_d"].value


def test_manure_takes_longer_than_grass():
    assert heap({"cow-manure": 500.0})["ready_d"].value > heap({"grass-clippings": 500.0})["ready_d"].value


@given(st.floats(1.0, 1000.0), st.floats(0.05, 0.95), st.floats(0.4, 0.7), st.floats(0.0, 50.0))
def test_water_makes_it_as_moist_as_it_must_be_and_carries_the_culture(mass_kg, dry, moist, carrier_l):
    poured = float(water_l(carrier_l, mass_kg=mass_kg, dry_kg=dry * mass_kg, moist_frac=moist))
    assert poured >= carrier_l
    reached = (mass_kg * (1.0 - dry) + poured) / (mass_kg + poured)
    assert reached >= moist - 1e-9
    if poured > carrier_l:
        assert reached == pytest.approx(moist)


@given(st.floats(1.0, 3000.0), st.floats(0.05, 0.9), st.floats(0.4, 0.75), st.floats(0.8, 0.95))
def test_something_dry_makes_a_wet_heap_as_moist_as_is_wanted_and_a_drier_one_wants_none(mass_kg, dry, moist, stuff):
    added = dry_stuff_kg(mass_kg=mass_kg, dry_kg=dry * mass_kg, moist_frac=moist, stuff_dry_frac=stuff)
    if 1.0 - dry <= moist:
        assert added == 0.0
        return
    reached = (mass_kg * (1.0 - dry) + added * (1.0 - stuff)) / (mass_kg + added)
    assert reached == pytest.approx(moist)


def test_only_a_heap_that_drips_is_told_of_straw_and_it_wants_less_to_stop_that_than_to_be_moist():
    wet, dry = heap({"cow-manure": 500.0}), heap({"cow-manure": 500.0, "hay": 500.0})
    assert 0.0 < wet["straw_least_kg"].value < wet["straw_kg"].value
    assert not {"straw_kg", "straw_least_kg"} & dry.keys()


def test_a_cube_of_a_metre_wants_the_sheet_that_a_cube_has():
    assert sheet_m2(1.0, 1.0, 0.5) == pytest.approx((1.0 + 2.0 + 1.0) ** 2)


@given(VOLUME, st.floats(0.5, 1.5), st.floats(0.0, 0.7))
def test_the_sheet_covers_top_and_sides(volume_m3, height_m, edge_m):
    height = min(height_m, volume_m3 ** (1 / 3))
    side = (volume_m3 / height) ** 0.5
    assert sheet_m2(volume_m3, height_m, edge_m) >= side**2 + 4.0 * side * height
    assert heap_layers(volume_m3, height_m, 0.3) >= 1.0


@pytest.mark.parametrize("name", ["grass-clippings", "hay", "cow-manure", "comfrey", "straw"])
def test_what_grows_and_what_eats_it_goes_in(name):
    assert is_for_a_heap(MATERIALS[name])


@pytest.mark.parametrize("name", ["sawdust", "wood-pellets", "dog-faeces", "knotweed", "raw-meat", "garden-lime"])
def test_wood_meat_and_what_spreads_stay_out(name):
    assert not is_for_a_heap(MATERIALS[name])
