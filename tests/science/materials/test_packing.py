"""`science.materials.packing`: a published bucket, and the laws of volumes that add up."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.materials.packing import bulk_kg_per_l, kilograms, litres, mass_shares, mixed_kg_per_l
from tests.published import Published
from tests.science.materials.loads import material

BUCKET = Published("cooperband2002", "bulk density by bucket, kg/L", given=(10.0, 1.0, 20.0), want="0.45")
DENSITIES = st.floats(0.05, 1.5)
MASSES = st.lists(st.tuples(st.floats(0.01, 100.0), DENSITIES), min_size=1, max_size=6)


def test_a_bucket_weighed_full_and_empty_is_as_published():
    assert bulk_kg_per_l(*BUCKET.given) == pytest.approx(float(BUCKET.want), abs=BUCKET.tolerance)


@given(mass=st.floats(0.001, 1e4), density=DENSITIES)
def test_from_kilograms_to_litres_and_back(mass, density):
    assert kilograms(litres(mass, density), density) == pytest.approx(mass)


@given(MASSES)
def test_a_mix_takes_the_room_of_its_parts(parts):
    masses, densities = zip(*parts, strict=True)
    room = sum(mass / density for mass, density in parts)
    assert litres(sum(masses), mixed_kg_per_l(masses, densities)) == pytest.approx(room)


@given(MASSES)
def test_a_mix_is_no_denser_than_its_densest_part(parts):
    masses, densities = zip(*parts, strict=True)
    assert min(densities) * (1 - 1e-12) <= mixed_kg_per_l(masses, densities) <= max(densities) * (1 + 1e-12)


def test_shares_by_volume_become_shares_by_mass():
    heavy, light = material("heavy", loose=0.8), material("light", loose=0.2)
    assert mass_shares({heavy: 0.5, light: 0.5}) == pytest.approx({heavy: 0.8, light: 0.2})


def test_members_are_packed_each_for_itself():
    assert np.shape(mixed_kg_per_l([np.ones(200), 2.0], [0.5, np.full(200, 0.8)])) == (200,)


def test_a_bucket_lighter_full_than_empty_is_refused():
    with pytest.raises(OutOfRange, match="nothing that is thrown away packs like that"):
        bulk_kg_per_l(1.0, 10.0, 20.0)


def test_a_mix_of_nothing_is_refused():
    with pytest.raises(OutOfRange, match=r"^mass of all = 0 is outside"):
        mixed_kg_per_l([0.0], [0.5])
