"""Money is read as people write it, with or without the sign of their currency."""

import pytest

from sourloam.base.fields import Asking, Fault
from sourloam.base.money import Money


@pytest.mark.parametrize(
    ("raw", "value"),
    [(12, 12.0), (12.5, 12.5), ("12.50", 12.5), ("12,50", 12.5), ("£8", 8.0), ("9.50 EUR", 9.5), (0, 0.0)],
)
def test_an_amount_is_read(raw, value):
    assert Money().read(raw, Asking()) == value


@pytest.mark.parametrize("raw", [-1, "-3", True, "a few", "1.234.567", "nan", float("nan"), float("inf"), None, [12]])
def test_what_is_no_amount_is_refused_in_words(raw):
    with pytest.raises(Fault) as fault:
        Money().read(raw, Asking())
    assert "such as 12.50" in fault.value.remedy
