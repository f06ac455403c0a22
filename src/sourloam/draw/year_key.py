"""The key of a year: what a band, a stroke, a bar and a number mean, in as many lines as it takes."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from sourloam.draw.canvas import (
    Point,
    arrow,
    disc,
    interval,
    line,
    moves,
    path,
    polygon,
    polyline,
    rect,
    text,
    text_width,
    wrapped,
)
from sourloam.draw.palette import FAN_INNER, FAN_OUTER, INK, INK_2
from sourloam.draw.patterns import filled
from sourloam.draw.year import RESTING, Place

SWATCH_PX, AFTER_SWATCH_PX, BETWEEN_PX = 34.0, 8.0, 20.0
HIGH_PX, PITCH_PX = 16.0, 28.0
NOTES: Final = (
    "A band is as high as the vessel is full.",
    "How sour it is: not computed yet.",
    "Bar: 9 in 10 ready in it, half by the dot.",
)


@dataclass(frozen=True)
class Entry:
    """A small picture, drawn from its lower left corner, and its words."""

    picture: Callable[[Point], str]
    words: str
    swatch_px: float = SWATCH_PX


@dataclass(frozen=True)
class Laid:
    """Something drawn, and where it ends."""

    svg: str
    bottom: float


def year_key(
    corner: Point, width: float, places: Sequence[Place], *, key: str, size: float, with_arrow: bool = True
) -> Laid:
    """Return the key, its upper left corner at `corner`, on lines of a width."""
    laid = flowed(
        [*_phases(key), *((Entry(_down, "placed", swatch_px=8.0),) if with_arrow else ()), *_ground(places)],
        corner,
        width,
        size=size,
    )
    noted = _notes(NOTES, (corner[0], laid.bottom), width, size=size)
    return Laid(laid.svg + noted.svg, noted.bottom)


def marked(mark: str, name: str) -> Entry:
    """Return what a number or a letter stands for."""
    return Entry(lambda at: disc((at[0] + 9.5, at[1] - 8.0), mark, radius=9.5), name, swatch_px=19.0)


def said(words: str) -> Entry:
    """Return words without a picture."""
    return Entry(lambda _: "", words, swatch_px=-AFTER_SWATCH_PX)


def flowed(entries: Sequence[Entry], corner: Point, width: float, *, size: float) -> Laid:
    """Return small pictures with their words, as many on a line as fit; words too long for a line are cut."""
    x, y = corner
    drawn = []
    for each in entries:
        beside = each.swatch_px + AFTER_SWATCH_PX
        words = wrapped(each.words, width - beside, size=size, most=1)[0]
        whole = beside + text_width(words, size)
        if x > corner[0] and x + whole > corner[0] + width:
            x, y = corner[0], y + PITCH_PX
        foot = y + 20.0
        drawn.append(each.picture((x, foot)))
        drawn.append(text((x + beside, foot - 3.0), words, size=size))
        x += whole + BETWEEN_PX
    return Laid("".join(drawn), y + PITCH_PX)


def _notes(notes: Sequence[str], corner: Point, width: float, *, size: float) -> Laid:
    """Return sentences, as many on a line as fit."""
    lines: list[str] = []
    for each in (part for note in notes for part in wrapped(note, width, size=size)):
        joined = f"{lines[-1]} {each}" if lines else each
        if lines and text_width(joined, size) <= width:
            lines[-1] = joined
        else:
            lines.append(each)
    leading = size * 1.35
    drawn = "".join(
        text((corner[0], corner[1] + size + row * leading), words, size=size, fill=INK_2)
        for row, words in enumerate(lines)
    )
    return Laid(drawn, corner[1] + size + len(lines) * leading)


def _phases(key: str) -> Iterator[Entry]:
    yield Entry(_wedge, "filling")
    yield Entry(lambda at: _box(at, FAN_INNER), "fermenting")
    yield Entry(lambda at: _box(at, filled("waiting", key)), "ready, waiting")
    yield Entry(_bar, "may be ready")


def _ground(places: Sequence[Place]) -> Iterator[Entry]:
    if any(each.ground.kind in RESTING and each.rests for each in places):
        yield Entry(_rest, "ground rests")


def _wedge(at: Point) -> str:
    x, y = at
    return polygon([(x, y), (x + SWATCH_PX, y - HIGH_PX), (x + SWATCH_PX, y)], fill=FAN_OUTER) + polyline(
        [(x, y), (x + SWATCH_PX, y - HIGH_PX), (x + SWATCH_PX, y), (x, y)], width=1.2
    )


def _box(at: Point, fill: str) -> str:
    return rect((at[0], at[1] - HIGH_PX), (SWATCH_PX, HIGH_PX), fill=fill, stroke=INK, width=1.2)


def _bar(at: Point) -> str:
    y = at[1] - HIGH_PX / 2.0
    return interval((at[0] + 1.0, y), (at[0] + SWATCH_PX - 1.0, y), middle=at[0] + 14.0)


def _down(at: Point) -> str:
    return arrow((at[0] + 4.0, at[1] - HIGH_PX + 1.0), (at[0] + 4.0, at[1] - 1.0))


def _rest(at: Point) -> str:
    strokes = [((at[0] + 4.0 * step, at[1]), (at[0] + 4.0 * step, at[1] - 16.0 + 1.9 * step)) for step in range(8)]
    return path(moves(strokes), width=1.6) + line(at, (at[0] + SWATCH_PX, at[1]))
