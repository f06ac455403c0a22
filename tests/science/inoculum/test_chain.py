"""`science.inoculum.chain`: amounts backwards and forwards, and a balance of the mass."""

from dataclasses import astuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.inoculum.chain import bran_batch, bran_from
from tests.science.inoculum.chain_parameters import PARAMETERS

WANTED = st.floats(0.1, 500.0)


@given(WANTED)
def test_twice_the_bran_takes_twice_of_everything(bran_kg):
    once = astuple(bran_batch(bran_kg, PARAMETERS))
    twice = astuple(bran_batch(2.0 * bran_kg, PARAMETERS))
    assert twice == pytest.approx([2.0 * each for each in once])


@given(WANTED)
def test_forwards_from_what_backwards_asks_for_returns_the_bran(bran_kg):
    batch = bran_batch(bran_kg, PARAMETERS)
    assert bran_from(PARAMETERS, carrier_kg=batch.carrier_kg) == pytest.approx(bran_kg)
    assert bran_from(PARAMETERS, serum_l=batch.serum_l, sugar_kg=batch.sugar_kg) == pytest.approx(bran_kg)
    assert bran_from(PARAMETERS, milk_l=batch.milk_l) == pytest.approx(bran_kg)


@given(WANTED)
def test_all_mass_that_goes_in_is_accounted_for(bran_kg):
    p, batch = PARAMETERS, bran_batch(bran_kg, PARAMETERS)
    serum_kg = batch.serum_l * p.serum_kg_per_l.value
    assert batch.inoculant_kg == pytest.approx(batch.water_l * 0.998 + serum_kg + batch.sugar_kg)
    dry_in = (
        batch.carrier_kg * (1.0 - p.carrier_moisture_wb_frac.value)
        + serum_kg * p.serum_dry_wb_frac.value
        + batch.sugar_kg
    )
    wet_kg = batch.carrier_kg + batch.inoculant_kg
    assert 1.0 - dry_in / wet_kg == pytest.approx(p.wetted_moisture_wb_frac.value)
    dry_out = bran_kg * (1.0 - p.dried_moisture_wb_frac.value)
    assert dry_out == pytest.approx(dry_in * (1.0 - p.bran_loss_db_frac.value))


def test_milk_gives_about_three_quarters_of_its_volume_as_serum():
    # Common practice, no source: serum about 0.75 of the milk's volume.
    assert PARAMETERS.serum_yield_l_per_l.low < 0.75 < PARAMETERS.serum_yield_l_per_l.high
    batch = bran_batch(4.0, PARAMETERS)
    assert batch.serum_l / batch.milk_l == pytest.approx(PARAMETERS.serum_yield_l_per_l.value)
    assert batch.rice_wash_l / batch.milk_l == pytest.approx(0.1)


def test_serum_on_hand_spares_milk_and_rice_water():
    batch = bran_batch(4.0, PARAMETERS, serum_on_hand_l=10.0)
    assert (batch.milk_l, batch.rice_wash_l, batch.rice_kg) == (0.0, 0.0, 0.0)
    assert batch.serum_l == bran_batch(4.0, PARAMETERS).serum_l


def test_the_scarcest_thing_binds():
    batch = bran_batch(4.0, PARAMETERS)
    assert bran_from(PARAMETERS, carrier_kg=100.0, sugar_kg=batch.sugar_kg / 2) == pytest.approx(2.0)


@pytest.mark.parametrize("bran_kg", [-1.0, 20_000.0, float("nan")])
def test_an_impossible_amount_of_bran_is_refused(bran_kg):
    with pytest.raises(OutOfRange, match=r"^bran_kg = .* kg is outside 0 to 10000 kg: no keeper makes"):
        bran_batch(bran_kg, PARAMETERS)


def test_negative_serum_is_refused():
    with pytest.raises(OutOfRange, match=r"^serum_on_hand_l = -1 is outside 0 to inf: an amount cannot be less"):
        bran_batch(1.0, PARAMETERS, serum_on_hand_l=-1.0)


def test_negative_sugar_is_refused():
    with pytest.raises(OutOfRange, match=r"^sugar_kg = -2 is outside 0 to inf: an amount cannot be less"):
        bran_from(PARAMETERS, sugar_kg=-2.0)


def test_an_empty_question_is_refused():
    with pytest.raises(OutOfRange, match=r"^bran_kg = inf kg is outside 0 to 10000 kg: name at least one thing"):
        bran_from(PARAMETERS)
