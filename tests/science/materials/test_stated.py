"""`science.materials.stated`: what a keeper states stays, and the rest is from the nearest."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.source import Basis
from sourloam.evidence.materials import load_materials
from sourloam.science.materials.composition import Group, Method
from sourloam.science.materials.stated import Stated, nearest, own_material

MATERIALS = load_materials()
BREAD = MATERIALS["bread"]


@given(st.floats(0.0, 0.6), st.floats(0.0, 0.2), st.floats(0.0, 0.2))
def test_what_is_stated_stays_and_the_whole_is_one(water, protein, fat):
    mine = own_material(Stated("mine", "mine", {"water": water, "protein": protein, "fat": fat}), BREAD)
    held = mine.composition
    assert (held.water_wb_frac, held.protein_wb_frac, held.fat_wb_frac) == pytest.approx((water, protein, fat))
    assert sum(held.constituents().values()) == pytest.approx(1.0)


def test_what_is_not_stated_keeps_its_proportions():
    held = own_material(Stated("mine", "mine", {"water": 0.5}), BREAD).composition
    assert held.starch_wb_frac / held.protein_wb_frac == pytest.approx(
        BREAD.composition.starch_wb_frac / BREAD.composition.protein_wb_frac
    )


def test_salt_of_a_label_becomes_sodium():
    held = own_material(Stated("mine", "mine", {}, salt_wb_frac=0.0254), BREAD).composition
    assert held.sodium_wb_frac == pytest.approx(0.01, rel=1e-3)
    assert held.sodium_wb_frac + held.chlorine_wb_frac == pytest.approx(0.0254)


def test_the_nearest_is_the_one_that_is_made_like_it():
    oats = nearest(Stated("mine", "mine", {"water": 0.85, "starch": 0.10}), [BREAD, MATERIALS["porridge"]])
    assert oats.id == "porridge"


def test_grounds_say_what_the_keeper_said_and_what_stands_in():
    mine = own_material(Stated("mine", "mine", {"water": 0.5}), BREAD)
    water, rest = mine.grounds[Group.WATER], mine.grounds[Group.PROXIMATE]
    assert (water.provenance.source, water.method) == ("keeper", Method.MEASURED)
    assert (rest.method, rest.provenance.basis) == (Method.RELATIVE, Basis.DERIVED)
    assert rest.spread_frac >= 0.5
    assert rest.provenance.place.startswith("bread stands for it")


def test_more_than_the_whole_is_refused():
    with pytest.raises(ValueError, match="what is stated comes to 130% of it"):
        own_material(Stated("mine", "mine", {"water": 0.9, "fat": 0.4}), BREAD)
