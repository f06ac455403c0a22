"""The tolerance of a published number follows from how it was printed."""

import pytest

from tests.published import Published


@pytest.mark.parametrize(
    ("want", "tolerance"), [("11.3", 0.05), ("40", 0.5), ("0.040", 0.0005), ("1.9e-3", 0.00005), ("2e3", 500.0)]
)
def test_the_tolerance_is_half_a_unit_in_the_last_printed_place(want, tolerance):
    assert Published("nobody1900", "table 1", given=(), want=want).tolerance == pytest.approx(tolerance)


def test_a_stated_scatter_goes_before_the_printed_place():
    case = Published(
        "nobody1900", "table 1", given=(), want="11.3", within=0.4, why="standard error of the mean, n = 3"
    )
    assert case.tolerance == 0.4


def test_a_scatter_without_a_reason_is_refused():
    with pytest.raises(ValueError, match="`why` must say what scatter the source itself states"):
        Published("nobody1900", "table 1", given=(), want="11.3", within=0.4)


def test_a_case_is_named_by_source_and_place():
    assert str(Published("nobody1900", "table 1", given=(), want="1")) == "nobody1900[table 1]"
