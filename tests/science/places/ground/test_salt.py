"""`science.places.ground.salt`: grams of salt become a conductivity by the water that they are dissolved in."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.crops import load_crops
from sourloam.evidence.parameters import load_parameters
from sourloam.science.places.ground.salt import GroundParameters, salt_bed_ds_per_m, salt_g_per_m2, salt_pot_ds_per_m

GROUND = load_parameters(GroundParameters, "ground")
SOIL = {"saturated_frac": 0.45, "salt_mg_per_l": 640.0}
SALT = st.floats(0.0, 100.0)


def test_as_much_salt_as_a_litre_holds_at_one_makes_one():
    """A litre of water that holds 640 mg of salt conducts 1 dS/m, whether it lies in a bed or in a pot."""
    litres = 1000.0 * 0.2 * 0.45  # of water in a square metre, 0.2 m deep
    assert salt_bed_ds_per_m(0.640 * litres, 0.2, **SOIL) == pytest.approx(1.0)
    assert salt_pot_ds_per_m(0.640 * 0.45 * 3.5 / 0.6, 0.6, soil_per_product=2.5, **SOIL) == pytest.approx(1.0)


@given(SALT, st.floats(0.5, 30.0), st.floats(0.1, 0.4))
def test_twice_as_deep_is_half_as_salt_and_twice_as_much_is_twice(salt_g_per_kg, dug, depth_m):
    on_it = salt_g_per_m2(salt_g_per_kg, dug)
    once = salt_bed_ds_per_m(on_it, depth_m, **SOIL)
    assert salt_bed_ds_per_m(on_it, 2.0 * depth_m, **SOIL) == pytest.approx(once / 2.0)
    assert salt_bed_ds_per_m(2.0 * on_it, depth_m, **SOIL) == pytest.approx(2.0 * once)


@given(SALT, st.floats(1.0, 10.0))
def test_more_soil_is_never_saltier(salt_g_per_kg, parts):
    pots = [salt_pot_ds_per_m(salt_g_per_kg, 0.6, soil_per_product=each, **SOIL) for each in (parts, parts + 1.0)]
    assert pots[1] <= pots[0]


def test_the_two_limits_are_those_of_the_crops_that_they_name():
    crops = load_crops()
    for name in ("bean", "carrot", "strawberry"):
        assert crops[name].salt_threshold_ds_per_m == GROUND.tender_ds_per_m.value
    assert crops["tomato"].salt_threshold_ds_per_m == GROUND.hardy_ds_per_m.value
