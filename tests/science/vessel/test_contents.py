"""`science.vessel.contents`: amounts that add up, whatever they are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.science.vessel.contents import Contents
from tests.science.vessel.amounts import CONTENTS


@given(CONTENTS, CONTENTS)
def test_two_loads_together_are_the_sum_of_both_whichever_goes_first(one, other):
    assert one.plus(other) == other.plus(one)
    assert one.plus(other).mass_kg == pytest.approx(one.mass_kg + other.mass_kg)


@given(CONTENTS)
def test_nothing_added_changes_nothing(load):
    assert load.plus(Contents()) == load


@given(CONTENTS, st.floats(0.0, 1.0))
def test_a_part_and_the_rest_make_up_the_whole(load, share):
    assert load.times(share).plus(load.times(1.0 - share)) == pytest.approx(load)


@given(CONTENTS, st.floats(0.01, 1.0))
def test_a_part_is_made_of_the_same_stuff(load, share):
    part = load.times(share)
    assert part.scraps_dry_wb_frac == pytest.approx(load.scraps_dry_wb_frac)
    assert part.animal_frac == pytest.approx(load.animal_frac)


@given(CONTENTS, CONTENTS)
def test_the_dry_matter_of_a_mix_lies_between_that_of_its_parts(one, other):
    low, high = sorted((one.scraps_dry_wb_frac, other.scraps_dry_wb_frac))
    assert low - 1e-9 <= one.plus(other).scraps_dry_wb_frac <= high + 1e-9


def test_an_empty_vessel_has_no_share_of_anything():
    assert (Contents().scraps_dry_wb_frac, Contents().animal_frac, Contents().mass_kg) == (0.0, 0.0, 0.0)
