"""What the charts of a batch share: the room they have, the days below them, the phases behind them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from itertools import pairwise
from typing import Final

from sourloam.draw.canvas import (
    LEAST_PX,
    SMALL_PX,
    Point,
    axis,
    band,
    line,
    polyline,
    rect,
    text,
    text_width,
)
from sourloam.draw.palette import EDGE, FAN_INNER, FAN_OUTER, HAIR, INK_2, PAPER, SHEET
from sourloam.draw.scale import LengthScale, day_words, ticks
from sourloam.views.ferment import CourseView, FermentView

PITCH_PX: Final = 17.0  # from name to name
ROW_PX: Final = 21.0
LEFT_PX: Final = 46.0  # for the numbers of an upright axis
DAY_TICK_PX: Final = 78.0  # room for a date
PHASES: Final = ("filling", "souring", "sour", "ready")


@dataclass(frozen=True)
class Frame:
    """Where a chart lies, and its days."""

    view: FermentView
    left: float
    right: float
    top: float
    bottom: float
    edge: float  # how far words may go

    @property
    def days(self) -> LengthScale:
        """Return the scale of the days from the first layer."""
        return LengthScale(0.0, float(max(self.view.day[-1], 1)), self.left, self.right)

    def upright(self, low: float, high: float) -> LengthScale:
        """Return the scale of what goes up."""
        return LengthScale(low, high, self.bottom, self.top)


def day_axis(frame: Frame) -> str:
    """Return the level axis with its days, by their dates where those are known."""
    first = frame.view.batch.first
    most = max(int((frame.right - frame.left) / DAY_TICK_PX), 2)
    if first is None:  # counted from the last layer, as everything that is said
        last = frame.view.batch.last_d
        days = ticks(-last, frame.view.day[-1] - last, most=most + 1)
        return axis(*_level(frame), [(frame.days.at(last + day), f"{day:g}".replace("-", "−")) for day in days])
    shown = ticks(0.0, float(frame.view.day[-1]), most=most + 1)
    marks = [(frame.days.at(day), day_words(first + timedelta(days=round(day)))) for day in shown]
    if len(marks) > 1 and frame.right - marks[-1][0] < 24.0:
        marks = marks[:-1]
    return axis(*_level(frame), marks)


def _level(frame: Frame) -> tuple[Point, Point]:
    """Return the ends of the level axis."""
    return (frame.left, frame.bottom), (frame.right, frame.bottom)


def phases(frame: Frame, *, has_words: bool) -> str:
    """Return the phases as bands behind a chart: filling, souring, sour, ready."""
    drawn = []
    for at, (name, start, end) in enumerate(_spans(frame.view)):
        x, width = frame.days.at(start), frame.days.at(end) - frame.days.at(start)
        drawn.append(rect((x, frame.top), (width, frame.bottom - frame.top), fill=SHEET if at % 2 else PAPER))
        if at:
            drawn.append(line((x, frame.top), (x, frame.bottom), stroke=HAIR))
        if has_words and text_width(name, SMALL_PX) <= width - 4.0:
            middle = x + width / 2.0
            drawn.append(text((middle, frame.top + SMALL_PX + 2.0), name, size=SMALL_PX, anchor="middle", fill=INK_2))
    return "".join(drawn)


def _spans(view: FermentView) -> Iterator[tuple[str, float, float]]:
    """Give each phase that has any days, from the middle of all cases."""
    end = float(view.day[-1])
    turns = [0.0, view.batch.last_d]
    for name in ("soured_day", "ready_day"):
        number = view.number(name)
        value = number.value if number is not None and view.is_likely else None
        turns.append(end if value is None else min(view.batch.last_d + value, end))
    bounds = [*turns, end]
    names = PHASES if view.is_likely else ("filling", "sealed", "", "")
    for name, (start, stop) in zip(names, pairwise(bounds), strict=True):
        if stop > start:
            yield name, start, stop


def runs(values: Sequence[float | None]) -> Iterator[list[tuple[int, float]]]:
    """Give the stretches of days on which there are values."""
    run: list[tuple[int, float]] = []
    for day, value in enumerate(values):
        if value is None:
            if run:
                yield run
            run = []
        else:
            run.append((day, value))
    if run:
        yield run


def course_line(frame: Frame, values: Sequence[float | None], up: LengthScale, like: "Named") -> str:
    """Return the line of a quantity over the days."""
    return "".join(
        polyline(_points(frame, run, up), width=like.width, dash=like.dash) for run in runs(values) if len(run) > 1
    )


def course_band(frame: Frame, course: CourseView, up: LengthScale) -> str:
    """Return the band in which nine in ten lie, and within it that of the middle half; an edge bounds the outer one."""
    return _between(frame, (course.low, course.high), up, inner=False) + _between(
        frame, (course.inner_low, course.inner_high), up, inner=True
    )


Ends = tuple[Sequence[float | None], Sequence[float | None]]


def _between(frame: Frame, ends: Ends, up: LengthScale, *, inner: bool) -> str:
    fill, edge = (FAN_INNER, None) if inner else (FAN_OUTER, EDGE)
    return "".join(
        band(_points(frame, low, up), _points(frame, high, up), fill=fill, edge=edge)
        for low, high in zip(runs(ends[0]), runs(ends[1]), strict=True)
        if len(low) > 1
    )


def _points(frame: Frame, run: Sequence[tuple[int, float]], up: LengthScale) -> list[Point]:
    held = ((day, min(max(value, up.low), up.high)) for day, value in run)
    return [(frame.days.at(day), up.at(value)) for day, value in held]


@dataclass(frozen=True)
class Named:
    """A line of a chart with its name, its dash, how thick it is, and at which height it ends."""

    words: str
    dash: str | None
    width: float
    end: float


def names_beside(frame: Frame, lines: Sequence[Named]) -> str:
    """Return the names of lines to the right of a chart, none on another, each with a leader."""
    drawn, floor = [], frame.bottom + 5.0
    for each in sorted(lines, key=lambda named: -named.end):
        y = min(each.end + 5.0, floor)
        floor = y - PITCH_PX
        drawn.append(line((frame.right + 2.0, each.end), (frame.right + 12.0, y - 5.0), stroke=EDGE))
        drawn.append(text((frame.right + 15.0, y), each.words, size=SMALL_PX))
    return "".join(drawn)


def names_below(lines: Sequence[Named], top: float, width: float) -> tuple[str, float]:
    """Return the names of lines below a chart, each with a piece of its line, and where they end."""
    drawn, x, y = [], 0.0, top
    for each in lines:
        wide = 40.0 + text_width(each.words, SMALL_PX)
        if x > 0.0 and x + wide > width:
            x, y = 0.0, y + ROW_PX
        drawn.append(line((x, y - 5.0), (x + 32.0, y - 5.0), width=each.width, dash=each.dash))
        drawn.append(text((x + 38.0, y), each.words, size=SMALL_PX))
        x += wide + 14.0
    return "".join(drawn), y


def last_of(values: Sequence[float | None]) -> float | None:
    """Return the last value of a course that has any."""
    return next((each for each in reversed(values) if each is not None), None)


def title_words(at: Point, words: str) -> str:
    """Return what a chart shows, over it."""
    return text(at, words, bold=True)


def note(at: Point, words: str, *, anchor: str = "start") -> str:
    """Return second words."""
    return text(at, words, size=LEAST_PX + 1.0, anchor=anchor, fill=INK_2)
