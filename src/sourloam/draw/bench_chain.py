"""The chain of cultures on the bench, cut open and to scale, in the order of making, with its dates under it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from sourloam.base.days import MONTHS
from sourloam.draw.canvas import (
    LEAST_PX,
    LEVEL_PX,
    SMALL_PX,
    WALL_PX,
    Point,
    board,
    drawing,
    group,
    line,
    lines_of_text,
    moves,
    number,
    path,
    polyline,
    rect,
    text,
    wrapped,
)
from sourloam.draw.palette import AIR, BRAN_LINE, CURD, INK, INK_2, MILK, RICE_WASH, SERUM
from sourloam.draw.patterns import filled, patterns
from sourloam.draw.scale import NO_BREAK
from sourloam.plan.words import Speech
from sourloam.views.culture import Link

WIDE_PX, TALL_PX = 1060.0, 354.0
RULE_PX: Final = 40.0  # for the rule at the left
COLUMN_PX: Final = 104.0  # the least that the words under a thing need
TALLEST_PX: Final = 190.0
MOST_PX_PER_M, LEAST_PX_PER_M = 700.0, 60.0
SLENDER: Final = 1.6  # a jar is so much higher than it is wide; a bucket or a bin 1.1
STOUT: Final = 1.1
ROOM: Final = MappingProxyType({"rice": 2.0, "milk": 1.25, "serum": 1.15, "bag": 1.1, "bin": 1.15})
TRAY_M: Final = (0.6, 0.4)  # a usual tray
SHOULDER: Final = 0.16  # of a jar's height
ARC_PX: Final = 22.0
ABOVE_PX: Final = 42.0  # for arcs
WORDS_PX: Final = 82.0  # below the board
COLUMNS: Final = ("What", "How much", "From")


@dataclass(frozen=True)
class Thing:
    """A link with its size in metres and the middle of its column in pixels."""

    link: Link
    width_m: float
    height_m: float
    level_m: float
    count: int = 1
    middle: float = 0.0


def chain(links: Sequence[Link], speech: Speech, *, width_px: float, layer_m: float, key: str, title: str) -> str:
    """Return the chain for a page of that width; on a phone it stands on as many boards as it needs."""
    things = [thing_of(each, layer_m) for each in links]
    px_per_m = _scale(things, width_px)
    rows = _rows(things, width_px, px_per_m)
    drawn, y = [], ABOVE_PX
    for row in rows:
        high = max(each.height_m for each in row) * px_per_m
        y += high
        drawn.append(_row(row, y, px_per_m, width_px=width_px, speech=speech, key=key))
        y += WORDS_PX + ABOVE_PX
    size = (width_px, y - ABOVE_PX + 6.0)
    words = f"To one scale. {'; '.join(f'{name}: {much}, {when}' for name, much, when in chain_table(links, speech))}."
    return drawing(size, patterns(("bran",), key), *drawn, title=title, desc=words, key=key)


def chain_table(links: Sequence[Link], speech: Speech) -> list[tuple[str, str, str]]:
    """Return the same as rows."""
    return [(each.name, _much(each, speech), _day(each)) for each in links]


def thing_of(link: Link, layer_m: float) -> Thing:
    """Return how large a link is: its vessel holds a little more than what is in it."""
    if link.id == "tray":
        lies_m3 = link.litres / 1000.0
        count = max(1, math.ceil(lies_m3 / layer_m / (TRAY_M[0] * TRAY_M[1]) - 1e-6))
        return Thing(link, TRAY_M[0], max(layer_m * 1.6, 0.03), layer_m, count)
    slender = STOUT if link.id in ("bag", "bin") else SLENDER
    volume_m3 = max(link.litres, 1e-3) * ROOM[link.id] / 1000.0
    width = (4.0 * volume_m3 / (math.pi * slender)) ** (1.0 / 3.0)
    height = slender * width
    return Thing(link, width, height, height / ROOM[link.id])


def _scale(things: Sequence[Thing], width_px: float) -> float:
    """Return the pixels of a metre: as large as the tallest and the widest allow."""
    tallest, widest = max(each.height_m for each in things), max(each.width_m for each in things)
    most = min(MOST_PX_PER_M, TALLEST_PX / tallest, (width_px - RULE_PX - 16.0) / widest)
    for px_per_m in range(int(most), int(LEAST_PX_PER_M), -5):
        if width_px < WIDE_PX or sum(_column(each, px_per_m) for each in things) <= width_px - RULE_PX:
            return float(px_per_m)
    return LEAST_PX_PER_M


def _column(thing: Thing, px_per_m: float) -> float:
    return max(thing.width_m * px_per_m + 18.0, COLUMN_PX)


def _rows(things: Sequence[Thing], width_px: float, px_per_m: float) -> list[list[Thing]]:
    """Return the boards: as many things on each as fit, each in its column."""
    rows: list[list[Thing]] = [[]]
    x = RULE_PX
    for each in things:
        wide = _column(each, px_per_m)
        if rows[-1] and x + wide > width_px + 0.5:
            rows.append([])
            x = RULE_PX
        rows[-1].append(each)
        x += wide
    return [_placed(row, width_px, px_per_m) for row in rows]


def _placed(row: Sequence[Thing], width_px: float, px_per_m: float) -> list[Thing]:
    wide = [_column(each, px_per_m) for each in row]
    air = min((width_px - RULE_PX - sum(wide)) / len(row), 60.0)
    placed, x = [], RULE_PX
    for each, column in zip(row, wide, strict=True):
        middle = x + (column + air) / 2.0
        placed.append(replace(each, middle=middle))
        x += column + air
    return placed


def _row(row: Sequence[Thing], foot: float, px_per_m: float, *, width_px: float, speech: Speech, key: str) -> str:
    high = max(each.height_m for each in row)
    pieces = [_rule(foot, high, px_per_m, speech)]
    pieces += [_thing(each, foot, px_per_m, key) for each in row]
    pieces += [board((RULE_PX - 8.0, foot), (width_px, foot), width=6.0)]
    pieces += [_words(each, foot, speech) for each in row]
    tops = [foot - each.height_m * px_per_m - 8.0 for each in row]
    ends = [(each.middle, top) for each, top in zip(row, tops, strict=True)]
    pieces += [_arc(one, other) for one, other in pairwise(ends)]
    return group(*pieces)


def _arc(start: Point, end: Point) -> str:
    """Return an arc from one thing to the next, above both, with a small head."""
    peak = min(start[1], end[1]) - ARC_PX
    (x1, y1), (x2, y2) = (start[0] + 6.0, start[1]), (end[0] - 6.0, end[1])
    curve = (
        f"M{number(x1)} {number(y1)}C{number(x1)} {number(peak)} {number(x2)} {number(peak)} {number(x2)} {number(y2)}"
    )
    head = f"M{number(x2 - 3.5)} {number(y2 - 5.0)}L{number(x2)} {number(y2)}L{number(x2 + 3.5)} {number(y2 - 5.0)}"
    return path(curve + head, stroke=INK_2, width=1.3)


def _thing(thing: Thing, foot: float, px_per_m: float, key: str) -> str:
    match thing.link.id:
        case "tray":
            return _tray(thing, foot, px_per_m, key)
        case "bag" | "bin":
            return _bin(thing, foot, px_per_m, key)
        case _:
            return _jar(thing, foot, px_per_m)


def _jar(thing: Thing, foot: float, px_per_m: float) -> str:
    """Return a jar with shoulders: a cloth over rice water and milk, curd parted above the serum in the milk."""
    half, high = thing.width_m * px_per_m / 2.0, thing.height_m * px_per_m
    x, shoulder = thing.middle, high * SHOULDER
    level = foot - min(thing.level_m * px_per_m, high - shoulder)
    fill = {"rice": RICE_WASH, "milk": MILK, "serum": SERUM}[thing.link.id]
    inside = rect((x - half, level), (2.0 * half, foot - level), fill=fill)
    if thing.link.id == "milk":
        parted = level + (foot - level) * 0.35
        inside = rect((x - half, parted), (2.0 * half, foot - parted), fill=SERUM)
        inside += rect((x - half, level), (2.0 * half, parted - level), fill=CURD)
        inside += line((x - half, parted), (x + half, parted), width=LEVEL_PX)
    neck, top = half * 0.72, foot - high
    wall = [
        (x - neck, top),
        (x - neck, top + shoulder * 0.4),
        (x - half, top + shoulder),
        (x - half, foot),
        (x + half, foot),
        (x + half, top + shoulder),
        (x + neck, top + shoulder * 0.4),
        (x + neck, top),
    ]
    cloth = path(
        f"M{number(x - neck - 4)} {number(top + 3)}Q{number(x)} {number(top - 6)} {number(x + neck + 4)} "
        f"{number(top + 3)}",
        width=LEVEL_PX,
    )
    level_line = line((x - half, level), (x + half, level), width=LEVEL_PX)
    return inside + level_line + polyline(wall, width=_wall(px_per_m)) + cloth


def _bin(thing: Thing, foot: float, px_per_m: float, key: str) -> str:
    """Return a bucket with its lid, and bran in it up to its level."""
    half, high = thing.width_m * px_per_m / 2.0, thing.height_m * px_per_m
    x, level = thing.middle, foot - thing.level_m * px_per_m
    wall = [(x - half, foot - high), (x - half, foot), (x + half, foot), (x + half, foot - high)]
    lid = line((x - half - 4.0, foot - high - 2.0), (x + half + 4.0, foot - high - 2.0), width=4.0)
    clasps = moves([((x + side * half, foot - high - 4.0), (x + side * half, foot - high + 8.0)) for side in (-1, 1)])
    shut = path(clasps, width=2.0) if thing.link.id == "bag" else ""
    return (
        rect((x - half, foot - high), (2.0 * half, high), fill=AIR)
        + rect((x - half, level), (2.0 * half, foot - level), fill=filled("bran", key))
        + line((x - half, level), (x + half, level), width=LEVEL_PX)
        + polyline(wall, width=_wall(px_per_m))
        + lid
        + shut
    )


def _tray(thing: Thing, foot: float, px_per_m: float, key: str) -> str:
    """Return one tray of bran, with thin curls of the air that dries it."""
    half, high = thing.width_m * px_per_m / 2.0, thing.height_m * px_per_m
    x, level = thing.middle, foot - max(thing.level_m * px_per_m, 3.0)
    wall = [(x - half, foot - high), (x - half, foot), (x + half, foot), (x + half, foot - high)]
    curls = "".join(f"M{number(x + at * half)} {number(foot - high - 4)}q5 -5 0 -10t0 -10" for at in (-0.5, 0.0, 0.5))
    return (
        rect((x - half, level), (2.0 * half, foot - level), fill=filled("bran", key))
        + polyline(wall, width=_wall(px_per_m))
        + path(curls, stroke=BRAN_LINE, width=1.3)
    )


def _wall(px_per_m: float) -> float:
    return WALL_PX if px_per_m >= 400.0 else 1.6


def _words(thing: Thing, foot: float, speech: Speech) -> str:
    """Return the name, the amount and the day under a thing."""
    y = foot + 24.0
    name = wrapped(thing.link.name[:1].upper() + thing.link.name[1:], COLUMN_PX - 4.0, size=SMALL_PX, most=2)
    below = [_much(thing.link, speech) if thing.link.id != "tray" else _trays(thing, speech), _day(thing.link)]
    said = lines_of_text((thing.middle, y), name, size=SMALL_PX, anchor="middle", bold=True)
    y += SMALL_PX * 1.2 * len(name)
    return said + lines_of_text((thing.middle, y), below, size=LEAST_PX, anchor="middle", fill=INK_2)


def _trays(thing: Thing, speech: Speech) -> str:
    size = "24 × 16 in" if speech.is_us else f"60{NO_BREAK}×{NO_BREAK}40{NO_BREAK}cm"
    return f"{thing.count} × {size}"


def _much(link: Link, speech: Speech) -> str:
    return link.said or speech.litres(link.litres).replace(" ", NO_BREAK)


def _day(link: Link) -> str:
    return f"{link.on.day}{NO_BREAK}{MONTHS[link.on.month - 1]}" if link.on else ""


def _rule(foot: float, high_m: float, px_per_m: float, speech: Speech) -> str:
    """Return the rule at the left: every ten centimetres, or every half foot."""
    step_m, each, unit = (0.1524, 6, "in") if speech.is_us else (0.1, 10, "cm")
    while step_m * px_per_m < 22.0:
        step_m, each = 2.0 * step_m, 2 * each
    count = max(1, int(high_m / step_m + 0.3))
    x = RULE_PX - 10.0
    top = foot - count * step_m * px_per_m
    pieces = [line((x, foot), (x, top), stroke=INK, width=1.0)]
    pieces += list(_ticks(x, foot, count, step_m * px_per_m, each=each))
    pieces.append(text((x + 2.0, top - 11.0), unit, size=LEAST_PX, anchor="end", fill=INK_2))
    return "".join(pieces)


def _ticks(x: float, foot: float, count: int, step_px: float, *, each: int) -> Iterator[str]:
    for at in range(count + 1):
        y = foot - at * step_px
        yield line((x - 4.0, y), (x, y), width=1.0)
        if at:
            yield text((x - 6.0, y + LEAST_PX * 0.36), str(at * each), size=LEAST_PX, anchor="end", fill=INK_2)
