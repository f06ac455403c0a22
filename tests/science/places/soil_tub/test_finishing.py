"""`science.places.soil_tub.finishing`: room, days and salt of a tub, by their laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.places.soil_tub import finishing

TUB = {"blend_frac": 0.87, "cover_m": 0.05, "depth_m": 0.35}
SALT = {"saturated_frac": 0.45, "salt_mg_per_l": 640.0, "begins_ds_per_m": 0.6, "keeps_frac": 0.5}


def test_a_bucket_of_16_litres_wants_the_tote_of_60_that_is_told():
    # common practice, no source: 16 L want 32 L of soil and a cover of 10, and fit a tote of 60
    assert finishing.soil_l(16.0, 2.0, **TUB) == pytest.approx(42.0, abs=5.0)
    assert finishing.holds_l(16.0, 2.0, **TUB) <= 60.0


@given(st.floats(2.0, 200.0), st.floats(1.0, 5.0))
def test_cover_and_mix_fill_the_room(product, ratio):
    room = finishing.holds_l(product, ratio, **TUB)
    cover = finishing.soil_l(product, ratio, **TUB) - product * ratio
    assert cover + product * (1.0 + ratio) * 0.87 == pytest.approx(room, rel=1e-9)


@given(st.floats(5.0, 200.0), st.floats(1.0, 60.0), st.floats(5.0, 120.0), st.floats(20.0, 200.0))
def test_tubs_are_whole_and_more_of_them_where_batches_come_oftener(days, every, room, volume):
    one, other = finishing.tubs(days, every, room, volume), finishing.tubs(days, every / 2.0, room, volume)
    assert one == int(one) >= 1
    assert other >= one


@given(st.integers(1, 20), st.floats(1.0, 20.0), st.floats(1.0, 5.0))
def test_salt_builds_up_with_every_batch_and_less_each_time(cycles, ions, ratio):
    salts = [
        finishing.tub_ds_per_m(ions, 0.8, soil_per_product=ratio, cycles=cycles + each, **SALT) for each in range(3)
    ]
    first, second, third = salts
    assert first <= second <= third
    assert third - second <= second - first + 1e-9


@given(st.floats(1.0, 20.0), st.floats(1.0, 5.0))
def test_more_soil_is_less_salt(ions, ratio):
    given_salt = {"cycles": 1, **SALT}
    thick, thin = (finishing.tub_ds_per_m(ions, 0.8, soil_per_product=each * ratio, **given_salt) for each in (1, 2))
    assert thin < thick


def test_a_tub_of_nothing_is_refused():
    with pytest.raises(OutOfRange, match=r"^volume_l = 0 L is outside 1 to 20000 L: that is no tub"):
        finishing.takes_kg(10.0, 0.0, np.array([50.0]))
