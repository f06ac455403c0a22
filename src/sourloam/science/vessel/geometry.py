"""The bucket, drum or tub as a body: area, depth, layers."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range

SUMP_OF_VOLUME: Final = 1.0 / 12.0  # room below a grid, where it is not measured; judgement
_VOLUME = Range(0.1, 1000.0, "L")


@law("cross-section of a round vessel of that volume and of that height to width", unit="m2")
def floor_m2(volume_l: ArrayLike, height_to_width: ArrayLike) -> float | FloatArray:
    """Return the floor of a round vessel, from V = pi/4 w2 h and h = r w.

    Raises
    ------
    OutOfRange
        If the volume is outside 0.1 to 1000 L.
    """
    volume_m3 = within(volume_l, _VOLUME, name="volume_l", why="no vessel here is that large or small.") / 1000.0
    width_m = (4.0 * volume_m3 / (np.pi * np.asarray(height_to_width, dtype=float))) ** (1.0 / 3.0)
    return keep_shape(np.pi / 4.0 * width_m**2)


def below_grid_l(volume_l: float, drain_space_l: float | None, *, has_drain: bool) -> float:
    """Return the room for liquid under the grid: none without a drain, a twelfth of the volume if not measured."""
    if not has_drain:
        return 0.0
    return SUMP_OF_VOLUME * volume_l if drain_space_l is None else drain_space_l


@law("pressed volume ÷ floor", unit="m")
def depth_m(pressed_l: ArrayLike, floor_area_m2: ArrayLike) -> float | FloatArray:
    """Return how deep something lies on the floor of a vessel."""
    return keep_shape(np.asarray(pressed_l, dtype=float) / 1000.0 / np.asarray(floor_area_m2, dtype=float))


def layers_of(pressed_l: float, floor_area_m2: float, layer_m: float) -> int:
    """Return in how many layers a load is pressed down, each with its own bran."""
    return max(1, int(np.ceil(float(depth_m(pressed_l, floor_area_m2)) / layer_m - 1e-9)))
