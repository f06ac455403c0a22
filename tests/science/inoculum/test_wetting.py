"""`science.inoculum.wetting` and `.inoculant`: water goes in by balance and by no other way."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.inoculum.inoculant import inoculant_kg_per_l, inoculant_l_per_l, inoculant_moisture_wb_frac
from sourloam.science.inoculum.wetting import dry_bran_kg_per_kg, liquid_kg_per_kg, wetted_moisture_wb_frac
from tests.science.inoculum.chain_parameters import PARAMETERS

GALLON_L = 3.785411784
POUND_KG = 0.45359237
OUNCE_KG = POUND_KG / 16
FLUID_OUNCE_L = GALLON_L / 128


@given(carrier=st.floats(0.02, 0.20), wanted=st.floats(0.25, 0.6), liquid=st.floats(0.8, 1.0))
def test_the_moisture_wanted_comes_back(carrier, wanted, liquid):
    poured = liquid_kg_per_kg(wanted, carrier, liquid)
    assert wetted_moisture_wb_frac(poured, carrier, liquid) == pytest.approx(wanted)


@given(carrier=st.floats(0.02, 0.20), wanted=st.floats(0.25, 0.6), liquid=st.floats(0.8, 1.0))
def test_water_and_dry_matter_of_the_mix_add_up_to_its_mass(carrier, wanted, liquid):
    poured = liquid_kg_per_kg(wanted, carrier, liquid)
    water = carrier + poured * liquid
    dry = (1.0 - carrier) + poured * (1.0 - liquid)
    assert water + dry == pytest.approx(1.0 + poured)
    assert water == pytest.approx(wanted * (1.0 + poured))


@given(wanted=st.floats(0.25, 0.5), liquid=st.floats(0.9, 1.0), lost=st.floats(0.0, 0.1))
def test_dry_bran_holds_the_dry_matter_that_was_not_lost(wanted, liquid, lost):
    poured = liquid_kg_per_kg(wanted, 0.12, liquid)
    bran = dry_bran_kg_per_kg(0.12, poured, liquid, lost, dried_moisture_wb_frac=0.10)
    assert bran * 0.90 + lost * (0.88 + poured * (1.0 - liquid)) == pytest.approx(0.88 + poured * (1.0 - liquid))


@pytest.mark.parametrize(("gallons", "moisture"), [(1.5, 0.414), (2.0, 0.472)])
def test_custom_recipe_comes_to_the_moisture_that_a_balance_gives(gallons, moisture):
    # Common practice, no source: 1.5 to 2 US gallons on 25 lb of bran with 12 % water, the liquid counted as water.
    liquid_kg = gallons * GALLON_L * 0.998
    assert wetted_moisture_wb_frac(liquid_kg / (25 * POUND_KG), 0.12) == pytest.approx(moisture, abs=0.001)


def test_our_recipe_pours_as_much_as_custom_does():
    # Common practice, no source: 0.50 to 0.67 L of inoculant on a kilogram of wheat bran.
    p = PARAMETERS
    recipe = (p.serum_l_per_l.value, p.sugar_kg_per_l.value)
    moisture = inoculant_moisture_wb_frac(*recipe, p.serum_kg_per_l.value, p.serum_dry_wb_frac.value)
    poured_kg = liquid_kg_per_kg(p.wetted_moisture_wb_frac.value, p.carrier_moisture_wb_frac.value, moisture)
    litres = (
        poured_kg
        * inoculant_l_per_l(*recipe, p.sugar_l_per_kg.value)
        / inoculant_kg_per_l(*recipe, p.serum_kg_per_l.value)
    )
    assert 0.50 <= litres <= 0.67


def test_the_recipe_is_the_custom_one():
    # Common practice, no source: 3 fluid ounces of serum and 3 ounces of sugar to a US gallon of water.
    assert PARAMETERS.serum_l_per_l.value == pytest.approx(3 * FLUID_OUNCE_L / GALLON_L)
    assert PARAMETERS.sugar_kg_per_l.value == pytest.approx(3 * OUNCE_KG / GALLON_L, rel=1e-3)


def test_inoculant_without_serum_and_sugar_is_water():
    assert inoculant_moisture_wb_frac(0.0, 0.0, 1.025, 0.055) == pytest.approx(1.0)
    assert inoculant_l_per_l(0.0, 0.0, 0.62) == pytest.approx(1.0)


def test_regression_water_for_a_kilogram_at_12_to_40_percent():
    assert liquid_kg_per_kg(0.40, 0.12) == pytest.approx(0.467, abs=0.001)


def test_members_broadcast():
    assert np.shape(liquid_kg_per_kg(np.full(200, 0.43), np.full(200, 0.12), 0.98)) == (200,)


@pytest.mark.parametrize("wanted", [0.05, 0.99])
def test_a_moisture_that_liquid_cannot_bring_is_refused(wanted):
    with pytest.raises(OutOfRange, match=r"^wetted_moisture_wb_frac = .* is outside 0\.12 to 0\.98: liquid can bring"):
        liquid_kg_per_kg([0.4, wanted], 0.12, 0.98)


@pytest.mark.parametrize("share", [-0.1, 1.2, np.nan])
def test_a_share_that_is_none_is_refused(share):
    with pytest.raises(OutOfRange, match=r"^carrier_moisture_wb_frac = .* is outside 0 to 1: it is a share"):
        liquid_kg_per_kg(0.4, share)
