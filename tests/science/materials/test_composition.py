"""`science.materials.composition`, `elements` and `wet_dry`: published values, the whole, refusals."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BalanceError, OutOfRange
from sourloam.science.materials.elements import carbon_frac, carbon_from_ash_db_frac, carbon_to_nitrogen
from sourloam.science.materials.wet_dry import dry_basis_frac, moisture_wb_frac, wet_basis_frac
from tests.published import Published
from tests.science.materials.loads import SHARES, composition

ASH = Published("adams1951", "carbon from 10 % ash, %", given=(0.10,), want="50.0")
OVEN = Published("cornell_moisture", "10 g wet, 2.3 g dry, %", given=(10.0, 2.3), want="77")


def test_carbon_from_ash_is_as_published():
    assert 100.0 * carbon_from_ash_db_frac(*ASH.given) == pytest.approx(float(ASH.want), abs=ASH.tolerance)


def test_moisture_by_the_oven_is_as_published():
    assert 100.0 * moisture_wb_frac(*OVEN.given) == pytest.approx(float(OVEN.want), abs=OVEN.tolerance)


@given(SHARES)
def test_carbon_lies_between_that_of_the_poorest_and_the_richest_constituent(shares):
    held = composition(shares)
    bound = 1.0 - held.water_wb_frac - held.ash_wb_frac
    assert 0.374 * bound <= held.carbon_wb_frac <= 0.774 * bound  # citric acid, triolein


@given(SHARES)
def test_carbon_and_nitrogen_are_the_same_seen_wet_or_dry(shares):
    held = composition(shares)
    assert held.carbon_db_frac / held.nitrogen_db_frac == pytest.approx(held.carbon_to_nitrogen)
    assert held.carbon_db_frac * held.dry_wb_frac == pytest.approx(held.carbon_wb_frac)


@given(share=st.floats(0.0, 1.0), water=st.floats(0.0, 0.98))
def test_from_wet_to_dry_and_back(share, water):
    assert wet_basis_frac(dry_basis_frac(share, water), water) == pytest.approx(share)


def test_carbon_of_members_keeps_its_shape():
    assert np.shape(carbon_frac(protein=np.full((200, 1), 0.1), starch=np.full(15, 0.2))) == (200, 15)


def test_without_nitrogen_the_ratio_is_infinite():
    assert carbon_to_nitrogen(0.4, 0.0) == np.inf
    assert list(carbon_to_nitrogen([0.4, 0.0], [0.02, 0.0])) == [20.0, np.inf]


def test_a_composition_that_does_not_add_up_shows_its_terms():
    whole = composition([1.0] * 12)
    parts = {name: getattr(whole, name) for name in whole.__dataclass_fields__}
    with pytest.raises(BalanceError, match=r"a composition does not balance, .* left over:\n  water: ") as caught:
        type(whole)(**parts | {"fat_wb_frac": 0.3})
    assert ("fat", 0.3) in caught.value.terms


def test_a_share_below_nothing_is_refused():
    whole = composition([1.0] * 12)
    parts = {name: getattr(whole, name) for name in whole.__dataclass_fields__}
    with pytest.raises(OutOfRange, match=r"^fat_wb_frac = -0.1 is outside 0 to 1: it is a share of the mass."):
        type(whole)(**parts | {"fat_wb_frac": -0.1})


def test_a_constituent_that_is_none_is_refused():
    with pytest.raises(KeyError, match="sand"):
        carbon_frac(sand=0.2)


def test_a_sample_that_gains_mass_in_the_oven_is_refused():
    with pytest.raises(OutOfRange, match="no sample gains mass in an oven"):
        moisture_wb_frac(2.3, 10.0)


@pytest.mark.parametrize("water", [1.0, -0.1, np.nan])
def test_water_that_leaves_no_dry_matter_is_refused(water):
    with pytest.raises(OutOfRange, match="something must be dry matter"):
        dry_basis_frac(0.1, water)
