"""`science.ferment.ferment`: an ensemble of ends that keeps its mass, its order and its seed."""

from dataclasses import replace
from datetime import timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.science.ferment.fillings import BRAN, FERMENT, SEALED, exactly, fermented
from tests.science.vessel.amounts import CONTENTS

ROOM = st.floats(2.0, 30.0)
ROOMS = st.lists(st.floats(-5.0, 30.0), min_size=1, max_size=80)
PLAIN = exactly(FERMENT, ready_at_20c_d=14.0)


def test_a_vessel_at_20_degrees_is_ready_14_days_after_it_was_sealed():
    # Common practice, no source: 14 days sealed in a warm place.
    assert fermented(20.0, parameters=PLAIN).ready_on(0.5) == SEALED + timedelta(days=14)


@given(ROOM)
def test_the_interval_of_the_ready_date_holds_the_median(room_c):
    end = fermented(room_c)
    low, middle, high = (end.ready_on(each) for each in (0.05, 0.5, 0.95))
    assert middle is None or low <= middle
    assert high is None or middle <= high


@given(ROOM)
def test_every_member_sours_before_it_is_ready(room_c):
    end = fermented(room_c)
    assert np.all(end.soured_d <= end.ready_d)


@given(ROOMS, st.floats(0.0, 10.0))
def test_a_warmer_room_is_never_later_below_30_degrees(room_c, more):
    warmer = [min(each + more, 30.0) for each in room_c]
    assert np.all(fermented(warmer).ready_d <= fermented(room_c).ready_d)


@given(ROOMS, st.floats(0.0, 10.0))
def test_what_soured_before_it_was_sealed_is_ready_no_later(room_c, age_d):
    assert np.all(fermented(room_c, age_d=age_d).ready_d <= fermented(room_c).ready_d)


def test_in_the_frost_no_member_is_ever_ready():
    end = fermented(FERMENT.least_c.members.min() - 0.1)
    assert np.all(np.isinf(end.ready_d))
    assert end.ready_on(0.05) is None


def test_near_the_least_temperature_the_hardy_members_end_and_the_others_never_do():
    least_c = replace(FERMENT.least_c, members=FERMENT.least_c.members + 3.0)  # above where all freezes
    end = fermented(1.0, parameters=replace(FERMENT, least_c=least_c))
    never = np.isinf(end.ready_d)
    assert np.array_equal(never, least_c.members >= 1.0)
    assert 0.0 < never.mean() < 1.0
    assert end.ready_on(0.95) is None


def test_where_it_is_frozen_nothing_happens_however_hardy_a_member_is():
    assert np.isinf(fermented(-2.0).ready_d).all()


def test_the_last_temperature_lasts_on_after_the_series():
    assert np.array_equal(fermented([15.0] * 3).ready_d, fermented([15.0] * 200).ready_d)


def test_a_vessel_that_froze_is_ready_later_by_the_frost():
    thawed = fermented([-5.0] * 30 + [20.0] * 60, parameters=PLAIN)
    assert thawed.ready_on(0.5) == SEALED + timedelta(days=30 + 14)


def test_the_same_seed_gives_the_same_outcome():
    one, other = fermented(17.0, seed=7), fermented(17.0, seed=7)
    assert np.array_equal(one.ready_d, other.ready_d)
    assert np.array_equal(one.failed, other.failed)
    assert np.array_equal(one.final.mass_kg, other.final.mass_kg)


def test_another_seed_changes_only_which_members_fail():
    one, other = fermented(17.0, seed=7), fermented(17.0, seed=8)
    assert not np.array_equal(one.failed, other.failed)
    assert np.array_equal(one.ready_d, other.ready_d)


def test_a_slow_household_is_slow_in_all_its_vessels_and_fails_in_each_on_its_own():
    one, other = fermented(17.0, batch="blue/1"), fermented(17.0, batch="green/1")
    assert np.array_equal(one.ready_d, other.ready_d)
    assert not np.array_equal(one.failed, other.failed)


def test_about_as_many_members_fail_as_batches_are_said_to():
    always, never = (exactly(FERMENT, failing_share=share) for share in (1.0, 0.0))
    assert fermented(20.0, parameters=always).failed.all()
    assert not fermented(20.0, parameters=never).failed.any()


@given(CONTENTS, ROOM)
def test_what_went_in_is_product_liquid_and_gas(contents, room_c):
    end = fermented(room_c, contents)
    gas_kg = contents.dry_kg - end.final.dry_kg
    assert np.all(gas_kg >= 0.0)
    assert end.final.mass_kg + end.leachate_l + gas_kg == pytest.approx(np.full(200, contents.mass_kg))


@given(CONTENTS)
def test_no_member_makes_nitrogen_or_loses_all_of_it(contents):
    end = fermented(20.0, contents)
    assert np.all(end.final.nitrogen_g <= contents.nitrogen_g)
    assert np.all(end.final.nitrogen_g >= 0.8 * contents.nitrogen_g)


@given(CONTENTS)
def test_the_product_is_wet_and_sour(contents):
    final = fermented(20.0, contents).final
    assert np.all((final.dry_kg > 0.0) & (final.dry_kg < final.mass_kg))
    assert np.all(final.acid_mol > 0.0)


@pytest.mark.parametrize("members", [1, 11, 200])
def test_an_outcome_has_as_many_members_as_were_asked_for(members):
    end = fermented(20.0, members=members)
    assert {each.shape for each in (end.ready_d, end.soured_d, end.failed, end.leachate_l, end.final.mass_kg)} == {
        (members,)
    }


def test_a_bucket_without_bran_takes_no_less_time_and_still_gets_there():
    # JTI 2001 (READ): ground food waste without any culture soured in its barrels too.
    with_bran, without = (fermented(20.0, bran=each) for each in (BRAN, None))
    assert np.all(np.isfinite(without.ready_d))
    assert np.median(without.ready_d) > np.median(with_bran.ready_d)
