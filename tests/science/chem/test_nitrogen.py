"""`science.chem.nitrogen` by its own law, and what it refuses."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.chem.nitrogen import nitrogen_frac


@given(protein=st.floats(0.0, 1.0), factor=st.floats(4.0, 7.5))
def test_nitrogen_times_the_factor_is_the_protein_again(protein, factor):
    assert nitrogen_frac(protein, factor) * factor == pytest.approx(protein)


def test_members_keep_their_shape():
    assert np.shape(nitrogen_frac(np.full((200, 1), 0.1), np.full(7, 6.25))) == (200, 7)


def test_a_factor_that_no_food_has_is_refused():
    with pytest.raises(OutOfRange, match=r"^nitrogen_factor = 0 is outside 4 to 7.5: no food has such a protein."):
        nitrogen_frac(0.1, 0.0)


@pytest.mark.parametrize("protein", [-0.1, 1.1, np.nan])
def test_a_protein_that_is_no_share_is_refused(protein):
    with pytest.raises(OutOfRange, match=r"^protein_frac = .* is outside 0 to 1"):
        nitrogen_frac(protein, 6.25)
