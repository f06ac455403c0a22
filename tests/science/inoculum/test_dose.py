"""`science.inoculum.dose`: never under the floor, more for animal matter, in proportion."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.inoculum.dose import bran_dose_kg, dose_g_per_kg, layer_dose
from tests.science.inoculum.chain_parameters import PARAMETERS

SHARE = st.floats(0.0, 1.0)


def test_the_plain_dose_is_what_custom_gives():
    # Common practice, no source: 1 to 3 % of the fresh mass, 10 g to a kilogram as a floor.
    dose = layer_dose(1.0, 0.0, PARAMETERS)
    assert 10.0 <= dose.g_per_kg <= 30.0
    assert PARAMETERS.least_dose_g_per_kg.value == 10.0


@given(SHARE, SHARE)
def test_more_animal_matter_never_gets_less(one, other):
    less, more = sorted((one, other))
    assert layer_dose(1.0, less, PARAMETERS).bran_kg <= layer_dose(1.0, more, PARAMETERS).bran_kg + 1e-12


@given(SHARE, st.floats(0.0, 9.0), st.floats(0.0, 9.0))
def test_no_dose_is_under_the_floor(animal, plain, other):
    assert dose_g_per_kg(animal, plain, other, 10.0) == 10.0


@given(st.floats(0.01, 1000.0), SHARE)
def test_twice_the_scraps_get_twice_the_bran(scraps_kg, animal):
    once, twice = layer_dose(scraps_kg, animal, PARAMETERS), layer_dose(2.0 * scraps_kg, animal, PARAMETERS)
    assert twice.bran_kg == pytest.approx(2.0 * once.bran_kg)
    assert twice.g_per_kg == once.g_per_kg


def test_grams_to_the_kilogram_become_kilograms():
    assert bran_dose_kg(5.0, 20.0) == pytest.approx(0.1)


@pytest.mark.parametrize("animal", [-0.1, 1.1, float("nan")])
def test_an_impossible_share_of_animal_matter_is_refused(animal):
    with pytest.raises(OutOfRange, match=r"^animal_frac = .* is outside 0 to 1: it is a share of the scraps"):
        layer_dose(1.0, animal, PARAMETERS)


def test_scraps_that_weigh_less_than_nothing_are_refused():
    with pytest.raises(OutOfRange, match=r"^scraps_kg = -1 kg is outside 0 to 10000 kg: no layer weighs"):
        layer_dose(-1.0, 0.0, PARAMETERS)
