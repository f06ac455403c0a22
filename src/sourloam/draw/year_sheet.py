"""What every row of the wide year needs: the sheet it lies on, its name at the left, words beside or over a time."""

from dataclasses import dataclass
from datetime import date
from typing import Final

from sourloam.draw.canvas import disc, group, is_cut, line, lines_of_text, text, text_width, wrapped
from sourloam.draw.palette import INK_2
from sourloam.draw.scale import TimeScale
from sourloam.draw.year import Place
from sourloam.views.plan import PlanView

WIDTH: Final = 900.0
LEFT, RIGHT = 146.0, 874.0
WORDS_END: Final = WIDTH - 2.0  # words have paper around them
SIZE, BOLD = 14.5, 15.0  # at 820 px, the least a page gives this drawing, still 13
LABEL_PX: Final = LEFT - 18.0


@dataclass(frozen=True)
class Sheet:
    """What every row needs."""

    view: PlanView
    time: TimeScale
    places: tuple[Place, ...]
    numbered: bool  # places are called by number, their names do not fit
    band_px: float
    key: str
    today: date | None


@dataclass(frozen=True)
class Label:
    """Words beside a point of the time, and the room they take."""

    at: float
    words: str
    start: float
    end: float


def beside(at: float, words: str, *, offset: float = 0.0, low: float = LEFT) -> Label:
    """Return words right of a point, or left of it where the drawing ends."""
    width = text_width(words, SIZE)
    start = at + offset if at + offset + width <= WORDS_END else at - offset - width
    start = max(start, low) if start + width <= WORDS_END else WORDS_END - width
    return Label(at, words, start, start + width)


def over(start: float, end: float, words: str) -> Label:
    """Return words over the middle of a stretch, moved in where they would leave the drawing."""
    width = text_width(words, SIZE)
    left = max(min((start + end - width) / 2.0, WORDS_END - width), LEFT)
    return Label(start, words, left, left + width)


def now_line(sheet: Sheet, top: float, bottom: float) -> str:
    """Return the line of today from one height to another, over what would hide it there."""
    if sheet.today is None or not sheet.time.holds(sheet.today):
        return ""
    x = sheet.time.at(sheet.today)
    return line((x, top), (x, bottom), width=1.6)


def row_name(name: str, second: str, middle: float, *, mark: str = "") -> str:
    """Return a row's name, with a mark before it and a second word under it, around a height."""
    indent = 26.0 if mark else 0.0
    lines = name_lines(name, mark)
    height = 17.0 * (len(lines) + bool(second))
    first = middle - height / 2.0 + 13.0
    ring = disc((9.5, first - 5.0), mark, radius=9.5, size=SIZE) if mark else ""
    words = lines_of_text((indent, first), lines, size=BOLD, bold=True)
    rest = text((indent, first + len(lines) * 18.0), second, size=SIZE, fill=INK_2) if second else ""
    return group(ring, words, rest, title=name if is_cut(lines) else None)


def name_lines(name: str, mark: str) -> tuple[str, ...]:
    """Return the lines on which a row's name stands."""
    return wrapped(name, LABEL_PX - (26.0 if mark else 0.0), size=BOLD, most=3)
