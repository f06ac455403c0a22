"""`science.vessel.geometry`: a round body by its own laws, and the layers that people press into it."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import OutOfRange
from sourloam.science.vessel.geometry import depth_m, floor_m2, layers_of
from tests.science.vessel.amounts import VESSEL

VOLUME = st.floats(0.1, 1000.0)
RATIO = st.floats(0.5, 3.0)


@given(VOLUME, RATIO)
def test_floor_times_height_gives_the_volume_back(volume_l, ratio):
    floor = floor_m2(volume_l, ratio)
    width_m = math.sqrt(4.0 * floor / math.pi)
    assert floor * width_m * ratio * 1000.0 == pytest.approx(volume_l)


@given(st.floats(0.1, 125.0), RATIO)
def test_eight_times_the_volume_stands_on_four_times_the_floor(volume_l, ratio):
    # Square and cube: a body twice as wide and high.
    assert floor_m2(8.0 * volume_l, ratio) == pytest.approx(4.0 * floor_m2(volume_l, ratio))


@given(VOLUME, RATIO)
def test_the_whole_volume_lies_as_deep_as_the_body_is_high(volume_l, ratio):
    floor = floor_m2(volume_l, ratio)
    assert depth_m(volume_l, floor) == pytest.approx(ratio * math.sqrt(4.0 * floor / math.pi))


def test_a_layer_is_2_5_to_5_cm_deep():
    # Common practice, no source.
    assert 0.025 <= VESSEL.layer_m.low <= VESSEL.layer_m.value <= VESSEL.layer_m.high <= 0.05 + 0.002


@given(st.floats(0.01, 100.0), st.floats(0.01, 0.5), st.floats(0.02, 0.06))
def test_as_few_layers_as_keep_each_within_its_depth(pressed_l, floor, layer_m):
    layers = layers_of(pressed_l, floor, layer_m)
    deep = depth_m(pressed_l, floor)
    assert deep / layers <= layer_m * (1 + 1e-6)
    assert layers == 1 or deep / (layers - 1) > layer_m * (1 - 1e-6)


def test_a_spoonful_is_one_layer():
    assert layers_of(0.01, 0.05, 0.04) == 1


@pytest.mark.parametrize("volume_l", [0.0, -3.0, 2000.0, np.nan])
def test_a_vessel_of_impossible_size_is_refused(volume_l):
    with pytest.raises(OutOfRange, match=r"^volume_l = .* L is outside 0.1 to 1000 L: no vessel here is that large"):
        floor_m2(volume_l, 1.2)
