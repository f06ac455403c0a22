"""`science.places.charcoal` against worked amounts and published ranges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.figure import written
from sourloam.evidence.parameters import load_parameters
from sourloam.science.batch.content import ContentParameters, content_of
from sourloam.science.places.charcoal import (
    CharcoalParameters,
    Kind,
    acid_taken_pct,
    char_kg,
    charcoal_figures,
    field_kg_per_m2,
    taken_up_g,
)

P = load_parameters(CharcoalParameters, "charcoal")
HELD = load_parameters(ContentParameters, "product")


def figures(kind, kg=10.0, *, pile=False):
    content = content_of(written("mass_kg", kg, "kg"), HELD, batch="the batch")
    return charcoal_figures(content, P, kind, is_for_pile=pile)


def test_a_tenth_of_fifteen_litres_weighs_what_was_worked():
    assert char_kg(15.0, 0.10, 0.25) == pytest.approx(0.375)
    assert taken_up_g(0.375, 2.0) == pytest.approx(0.75)


def test_two_percent_of_a_soil_is_far_more_than_a_batch_wants():
    assert field_kg_per_m2(0.02, 1300.0, 0.2) == pytest.approx(5.2)


def test_nitrate_is_held_by_hot_chars_alone_and_never_beyond_what_was_measured():
    hot, wood = figures(Kind.HOT), figures(Kind.WOOD)
    assert wood["nitrate_g"].high == 0.0
    assert hot["nitrate_g"].value <= 0.6 * hot["charcoal_kg"].value  # clough2013: 0.6 mg to a gram


def test_char_of_manure_takes_up_more_acid():
    assert figures(Kind.MANURE)["acid_taken_pct"].value > figures(Kind.WOOD)["acid_taken_pct"].value


@given(kg=st.floats(0.0, 5.0), acid=st.floats(0.1, 50.0))
def test_no_more_acid_is_taken_than_there_is(kg, acid):
    assert 0.0 <= acid_taken_pct(kg, lime_frac=0.12, times=2.0, acid_mol=acid) <= 100.0


@pytest.mark.parametrize("kind", [Kind.WOOD, Kind.HOT, Kind.MANURE])
def test_twice_the_batch_wants_twice_the_char(kind):
    assert figures(kind, 20.0)["charcoal_kg"].value == pytest.approx(2.0 * figures(kind)["charcoal_kg"].value)
