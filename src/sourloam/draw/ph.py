"""What charts of pH share: the axis that is the scale of the colours too, and a strip as it was read."""

import math
from collections.abc import Iterable
from typing import Final

from sourloam.base.spread import NINETY
from sourloam.draw.canvas import Point, axis, moves, path, rect
from sourloam.draw.palette import EDGE, INK, cabbage
from sourloam.draw.scale import LengthScale

SOURED: Final = 4.5  # the line of the trade; the answers say the same
LOW, HIGH = 3.5, 6.5  # always shown
AXIS_PX: Final = 10.0
SQUARE_PX: Final = 12.0
STRIP_SD: Final = 0.39  # box and strip together, as the watch takes them; drawn as nine in ten


def limits_of(known: Iterable[float]) -> tuple[float, float]:
    """Return the lowest and the highest pH of a chart on which some values have room."""
    values = [LOW, HIGH, *known]
    return min(LOW, math.floor(2.0 * min(values)) / 2.0), max(HIGH, math.ceil(2.0 * max(values)) / 2.0)


def ph_axis(left: float, up: LengthScale) -> str:
    """Return the upright axis as the scale of the colours, with whole numbers, at the left of a chart."""
    top, bottom = up.end_px, up.start_px
    x, step = left - AXIS_PX, 0.25
    boxes = []
    for at in range(round((up.high - up.low) / step)):
        low = up.low + at * step
        y = up.at(low + step)
        boxes.append(rect((x, y), (AXIS_PX, up.at(low) - y + 0.3), fill=cabbage(low + step / 2.0)))
    outline = rect((x, top), (AXIS_PX, bottom - top), fill="none", stroke=EDGE)
    marks = [(up.at(each), f"{each:g}") for each in range(math.ceil(up.low), math.floor(up.high) + 1)]
    return "".join(boxes) + outline + axis((x, bottom), (x, top), marks)


def strip_mark(x: float, ph: float, up: LengthScale) -> str:
    """Return a strip in the colour that was read, with what a strip is off by as a whisker."""
    low, high = whisker(ph, up)
    ticks: list[tuple[Point, Point]] = [
        ((x, low), (x, high)),
        ((x - 4.0, low), (x + 4.0, low)),
        ((x - 4.0, high), (x + 4.0, high)),
    ]
    half = SQUARE_PX / 2.0
    at = (x - half, up.at(min(max(ph, up.low), up.high)) - half)
    return path(moves(ticks), width=1.4) + rect(at, (SQUARE_PX, SQUARE_PX), fill=cabbage(ph), stroke=INK, width=1.6)


def whisker(ph: float, up: LengthScale) -> tuple[float, float]:
    """Return the heights of the ends of what a strip is off by."""
    low, high = (up.at(min(max(ph + side * NINETY * STRIP_SD, up.low), up.high)) for side in (-1.0, 1.0))
    return low, high
