"""`science.batch.product`: a part of a batch is made of the same stuff."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.science.places.setting import PRODUCTS, bucket


@given(PRODUCTS, st.floats(0.0, 1.0))
def test_a_part_and_the_rest_make_up_the_whole(product, share):
    part, rest = product.part(product.mass_kg * share), product.part(product.mass_kg * (1.0 - share))
    for name in ("mass_kg", "volume_l", "carbon_g", "nitrogen_g", "sodium_g", "acid_mol", "dry_kg"):
        assert getattr(part, name) + getattr(rest, name) == pytest.approx(getattr(product, name))


@given(PRODUCTS, st.floats(0.01, 1.0))
def test_a_part_is_as_moist_and_as_rich_as_the_whole(product, share):
    part = product.part(product.mass_kg * share)
    assert part.moisture_wb_frac == product.moisture_wb_frac
    assert part.carbon_to_nitrogen == pytest.approx(product.carbon_to_nitrogen)
    assert (part.batch, part.state, part.animal_matter) == (product.batch, product.state, product.animal_matter)


@given(PRODUCTS)
def test_dry_matter_and_water_make_up_the_mass(product):
    assert product.dry_kg + product.mass_kg * product.moisture_wb_frac == pytest.approx(product.mass_kg)


def test_a_bucket_of_a_quarter_dry_matter_with_375_g_of_carbon_to_25_of_nitrogen_has_15_to_1():
    assert bucket().dry_kg == pytest.approx(0.25 * bucket().mass_kg)
    assert bucket().carbon_to_nitrogen == pytest.approx(15.0)


def test_no_part_can_be_taken_of_nothing():
    assert bucket(mass_kg=0.0, volume_l=0.0).part(1.0).nitrogen_g == 0.0
