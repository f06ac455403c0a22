"""A vessel cut open, to scale: its body, what lies in it from the floor up, its tap and its lid."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final

from sourloam.draw.canvas import (
    LEAST_PX,
    LEVEL_PX,
    WALL_PX,
    Point,
    line,
    number,
    path,
    polygon,
    polyline,
    rect,
    text,
)
from sourloam.draw.palette import AIR, BRAN_LINE, FAN_OUTER, INK, INK_2, LEACHATE_FILL, LEACHATE_LINE
from sourloam.draw.patterns import filled, patterns
from sourloam.plan.shelf import OnShelf

# How the drawing shapes a body of which only volume, width and height are known.
TAPER_FRAC: Final = 0.07  # rim wider and floor narrower than the middle: buckets that stack into each other
DRUM_FROM_L: Final = 40.0  # from here on the walls are upright

LID_PX, LID_OVERHANG_PX, LID_TILT = 6.0, 4.0, math.radians(9.0)
FLAG_PX: Final = 27.0
BRAN_GAP_PX, BRAN_PART_FRAC = 4.4, 0.42  # a bran line, and the most of its layer that it may cover
WAVES_FROM_PX: Final = 5.0  # liquid lower than that is drawn plain
WORDS_FROM_PX: Final = 17.0  # above the fill line, for its litres
SMALL_SCALE: Final = 400.0  # pixels to the metre under which walls are thinner


@dataclass(frozen=True)
class Body:
    """The inside of a round vessel that widens evenly from floor to rim, in metres."""

    floor_m: float
    rim_m: float
    height_m: float
    volume_l: float

    def height_of(self, volume_l: float) -> float:
        """Return how high that much stands in it; the cube of the width grows evenly with the volume below."""
        part = volume_l / self.volume_l
        if self.floor_m == self.rim_m:
            return self.height_m * part
        width = math.cbrt(self.floor_m**3 + (self.rim_m**3 - self.floor_m**3) * part)
        return self.height_m * (width - self.floor_m) / (self.rim_m - self.floor_m)

    def width_at(self, height_m: float) -> float:
        """Return how wide it is at a height."""
        return self.floor_m + (self.rim_m - self.floor_m) * height_m / self.height_m


def body_of(vessel: OnShelf) -> Body:
    """Return the body of a vessel: as high as it is, as wide in the mean as it is, holding what it holds."""
    taper = TAPER_FRAC if vessel.volume_l < DRUM_FROM_L else 0.0
    middle = vessel.width_m * math.sqrt(3.0 / (3.0 + taper**2))  # so that the cone holds as much as the cylinder
    return Body(middle * (1.0 - taper), middle * (1.0 + taper), vessel.height_m, vessel.volume_l)


@dataclass(frozen=True)
class Stand:
    """Where a vessel stands: the middle of its floor on the board, and the scale."""

    body: Body
    foot: Point
    px_per_m: float

    def at(self, height_m: float, side: float) -> Point:
        """Return the point of the inner wall at a height: side -1 is left, 1 right, 0 the middle."""
        half = self.body.width_at(height_m) / 2.0 * self.px_per_m
        return self.foot[0] + side * half, self.foot[1] - height_m * self.px_per_m

    def across(self, low_m: float, high_m: float) -> tuple[Point, ...]:
        """Return the corners of what lies between two heights."""
        return self.at(low_m, -1.0), self.at(low_m, 1.0), self.at(high_m, 1.0), self.at(high_m, -1.0)

    @property
    def metres_of_px(self) -> float:
        """Return how high a pixel is."""
        return 1.0 / self.px_per_m


def section(vessel: OnShelf, foot: Point, *, px_per_m: float, key: str, fills: Sequence[str] = ()) -> str:
    """Return a vessel cut open; the drawing `key` must hold `matter_patterns(key)`.

    `fills` are those of the layers, the oldest first, where it is known how sour they are.
    """
    stand = Stand(body_of(vessel), foot, px_per_m)
    inside = (
        polygon(stand.across(0.0, stand.body.height_m), fill=AIR),
        *_layers(vessel, stand, fills or (scraps_fill(key),) * len(vessel.layers)),
        *_liquid(vessel, stand, key),
        _grid(vessel, stand),
        _fill_line(vessel, stand),
    )
    return "".join((*inside, _wall(stand), _tap(vessel, stand), _lid(vessel, stand)))


def rim_px(vessel: OnShelf, px_per_m: float) -> float:
    """Return how wide it is drawn, its lid included."""
    return body_of(vessel).rim_m * px_per_m + 2.0 * LID_OVERHANG_PX


def top_px(vessel: OnShelf, px_per_m: float) -> float:
    """Return how high above the board the drawing reaches, its lid included."""
    body = body_of(vessel)
    over = {
        "filling": body.rim_m * px_per_m * math.sin(LID_TILT) + 2.0 * LID_PX,
        "fermenting": LID_PX + 2.0,
        "ready": LID_PX + FLAG_PX,
    }
    return body.height_m * px_per_m + over.get(vessel.phase, 2.0)


def fill_words(vessel: OnShelf, foot: Point, words: str, *, px_per_m: float) -> str:
    """Return the words of the fill line, inside on the air above it, as on a measuring jug."""
    x, y = _fill_end(Stand(body_of(vessel), foot, px_per_m), vessel)
    return text((x - 7.0, y - 4.5), words, size=LEAST_PX, anchor="end", fill=INK_2)


def has_room_for_words(vessel: OnShelf, px_per_m: float) -> bool:
    """Whether the words of the fill line fit between it and the rim."""
    body = body_of(vessel)
    free_m = body.height_m - body.height_of(vessel.fill_limit_frac * vessel.volume_l)
    return free_m * px_per_m >= WORDS_FROM_PX


def matter_patterns(key: str) -> str:
    """Return the patterns that a cut vessel needs, once in each drawing."""
    return patterns(("leachate", "scraps", "standing"), key)


def scraps_fill(key: str) -> str:
    """Return the fill of scraps whose sourness is not known."""
    return filled("scraps", key)


def standing_fill(key: str) -> str:
    """Return the waves of liquid that stands among scraps."""
    return filled("standing", key)


def bran_dots(start: Point, end: Point, *, width: float = 2.6) -> str:
    """Return a line of bran: round dots, evenly spaced."""
    return line(start, end, stroke=BRAN_LINE, width=width, dash=f"0 {number(width * 2.0)}", cap="round")


# Inside, from the floor up


def _layers(vessel: OnShelf, stand: Stand, fills: Sequence[str]) -> Iterator[str]:
    """Give the layers from the grid up, bran in the upper part of each but the last that has any, and the level."""
    tops_l = list(accumulate((each.litres for each in vessel.layers), initial=vessel.below_grid_l))
    if len(tops_l) == 1:
        return
    tops = [stand.body.height_of(each) for each in tops_l]
    for (low, high), fill in zip(pairwise(tops), fills, strict=True):
        yield polygon(stand.across(low, high), fill=fill)
    for (low, high), layer in zip(pairwise(tops[:-1]), vessel.layers, strict=False):
        yield from _bran(low, high, stand) if layer.bran_kg > 0.0 else (_bare(high, stand),)
    yield line(stand.at(tops[-1], -1.0), stand.at(tops[-1], 1.0), width=LEVEL_PX)


def _bran(low_m: float, high_m: float, stand: Stand) -> Iterator[str]:
    gap = min(BRAN_GAP_PX * stand.metres_of_px, BRAN_PART_FRAC * (high_m - low_m))
    yield polygon(stand.across(high_m - gap, high_m), fill=AIR)
    (x1, y), (x2, _) = stand.at(high_m - gap / 2.0, -1.0), stand.at(high_m - gap / 2.0, 1.0)
    dot = max(min(0.6 * gap * stand.px_per_m, 2.6), 0.9)
    yield bran_dots((x1 + 2.5, y), (x2 - 2.0, y), width=dot)


def _bare(high_m: float, stand: Stand) -> str:
    """Return where a layer without bran ends."""
    return line(stand.at(high_m, -1.0), stand.at(high_m, 1.0), width=LEVEL_PX / 2.0)


def _liquid(vessel: OnShelf, stand: Stand, key: str) -> Iterator[str]:
    """Give the liquid to its true height: filled below the grid; waves over the layers, thickly bounded, above it."""
    if vessel.liquid_l <= 0.0:
        return
    level, grid = (stand.body.height_of(each) for each in (vessel.liquid_l, vessel.below_grid_l))
    filled_to = min(level, grid)
    if filled_to > 0.0:
        is_tall = filled_to * stand.px_per_m >= WAVES_FROM_PX
        corners = stand.across(0.0, filled_to)
        yield polygon(corners, fill=filled("leachate", key) if is_tall else LEACHATE_FILL)
        yield line(corners[3], corners[2], stroke=LEACHATE_LINE)
    if level > grid:
        corners = stand.across(grid, level)
        yield polygon(corners, fill=standing_fill(key))
        yield line(corners[3], corners[2], width=3.0)


def _grid(vessel: OnShelf, stand: Stand) -> str:
    if not vessel.has_drain or vessel.below_grid_l <= 0.0:
        return ""
    height = stand.body.height_of(vessel.below_grid_l)
    return line(stand.at(height, -1.0), stand.at(height, 1.0), width=2.2, dash="4 2.4")


def _fill_end(stand: Stand, vessel: OnShelf, side: float = 1.0) -> Point:
    return stand.at(stand.body.height_of(vessel.fill_limit_frac * vessel.volume_l), side)


def _fill_line(vessel: OnShelf, stand: Stand) -> str:
    return line(_fill_end(stand, vessel, -1.0), _fill_end(stand, vessel), width=1.3, dash="6 4")


# Outside


def _wall(stand: Stand) -> str:
    floor, height = 0.0, stand.body.height_m
    corners = (stand.at(height, -1.0), stand.at(floor, -1.0), stand.at(floor, 1.0), stand.at(height, 1.0))
    return polyline(corners, width=1.6 if stand.px_per_m < SMALL_SCALE else WALL_PX)


def _tap(vessel: OnShelf, stand: Stand) -> str:
    if not vessel.has_drain:
        return ""
    unit = 0.8 if stand.px_per_m < SMALL_SCALE else 1.0
    x, _ = stand.at(0.0, 1.0)
    y = stand.foot[1] - 8.0 * unit
    stub = f"M{number(x)} {number(y)}h{number(10.0 * unit)}v{number(6.0 * unit)}"
    handle = f"M{number(x + 5.5 * unit)} {number(y)}v{number(-5.0 * unit)}m{number(-3.5 * unit)} 0h{number(7.0 * unit)}"
    return path(stub, width=3.6 * unit) + path(handle, width=2.4 * unit)


def _lid(vessel: OnShelf, stand: Stand) -> str:
    match vessel.phase:
        case "filling":
            return _open_lid(stand)
        case "fermenting":
            return _shut_lid(stand) + _clasps(stand)
        case "ready":
            return _shut_lid(stand) + _flag(stand)
    return ""


def _lid_ends(stand: Stand) -> tuple[Point, Point]:
    (left, y), (right, _) = (stand.at(stand.body.height_m, side) for side in (-1.0, 1.0))
    return (left - LID_OVERHANG_PX, y), (right + LID_OVERHANG_PX, y)


def _shut_lid(stand: Stand) -> str:
    (left, y), (right, _) = _lid_ends(stand)
    return rect((left, y - LID_PX), (right - left, LID_PX), fill=FAN_OUTER, stroke=INK, width=1.6)


def _open_lid(stand: Stand) -> str:
    """Return a lid that rests on the left of the rim and is lifted at the right."""
    (left, y), (right, _) = _lid_ends(stand)
    along, up = (right - left) * math.cos(LID_TILT), (right - left) * math.sin(LID_TILT)
    thick = (-LID_PX * math.sin(LID_TILT), -LID_PX * math.cos(LID_TILT))
    low = ((left, y - 1.0), (left + along, y - 1.0 - up))
    high = tuple((x + thick[0], level + thick[1]) for x, level in reversed(low))
    return polygon((*low, *high), fill=FAN_OUTER, stroke=INK, width=1.6)


def _clasps(stand: Stand) -> str:
    (left, y), (right, _) = _lid_ends(stand)
    high = LID_PX + 7.0
    return "".join(
        rect((x, y - LID_PX - 1.5), (4.5, high), fill=INK, stroke=INK, width=0.6) for x in (left - 1.0, right - 3.5)
    )


def _flag(stand: Stand) -> str:
    x, y = stand.at(stand.body.height_m, 0.0)
    foot, top = y - LID_PX, y - LID_PX - FLAG_PX + 3.0
    cloth = ((x, top), (x + 19.0, top), (x + 13.5, top + 6.5), (x + 19.0, top + 13.0), (x, top + 13.0))
    return line((x, foot), (x, top), width=1.6) + polygon(cloth, fill=INK)
