"""`base.checks`, `base.ranges` and `base.numbers`: a bad number is named, a good one keeps its shape."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.checks import within
from sourloam.base.errors import OutOfRange
from sourloam.base.numbers import keep_shape
from sourloam.base.ranges import Range

SHARE = Range(0.0, 1.0, "kg/kg")


@given(values=st.lists(st.floats(0.0, 1.0), max_size=5))
def test_what_lies_inside_is_given_back_both_ends_included(values):
    assert within([*values, 0.0, 1.0], SHARE, name="moisture", why="").tolist() == [*values, 0.0, 1.0]


@given(value=st.floats().filter(lambda value: not 0.0 <= value <= 1.0))
def test_what_lies_outside_is_refused_and_named(value):
    with pytest.raises(OutOfRange, match=r"^moisture = .* kg/kg is outside 0 to 1 kg/kg: it is a share\.$") as caught:
        within([0.5, value, 7.0], SHARE, name="moisture", why="it is a share.")
    assert caught.value.value == pytest.approx(value, nan_ok=True)


def test_a_single_number_is_checked_as_well():
    with pytest.raises(OutOfRange, match=r"^moisture = nan kg/kg is outside"):
        within(np.nan, SHARE, name="moisture", why="it is a share.")
    assert within(0.5, SHARE, name="moisture", why="") == 0.5


def test_a_range_without_a_unit_says_no_unit():
    assert str(Range(0.0, 14.0)) == "0 to 14"


def test_one_number_in_gives_one_number_out():
    assert type(keep_shape(np.asarray(2.0))) is float
    assert np.shape(keep_shape(np.ones((2, 3)))) == (2, 3)
