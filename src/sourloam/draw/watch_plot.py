"""A vessel that is watched on one sheet: the answer, twenty buckets, the fan with its readings, the vessel cut open."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Final

from sourloam.draw.canvas import (
    SMALL_PX,
    axis,
    interval,
    lines_of_text,
    moves,
    path,
    text,
    text_on_paper,
    wrapped,
)
from sourloam.draw.ferment_fan import bars, fan, scale_of
from sourloam.draw.ferment_frame import ROW_PX, Frame, Named, course_line, title_words
from sourloam.draw.ferment_plot import composed, frame_of, head_part, names_of
from sourloam.draw.palette import INK_2
from sourloam.draw.ph import strip_mark, whisker
from sourloam.draw.scale import LengthScale
from sourloam.draw.twenty import twenty
from sourloam.draw.two_sizes import LONGEST_PX, TALL_PX, two_in_one
from sourloam.views.ferment import FermentView
from sourloam.views.watch import ReadingView, WatchView

WORD_PX: Final = 30.0  # that a value is wide, with room
TWENTY, LEAST_SHOWN = 20, 0.05  # chances under 1 in 20 have no bar
LABEL_PX: Final = 170.0


def watch_sheet(view: WatchView) -> str:
    """Return the sheet as a file of its own."""
    said = replace(view.forecast, heading=view.heading, says=view.says)
    parts = (head_part, partial(_twenty_part, view), partial(_fan_part, view))
    return two_in_one(view.says, composed(said, parts, key="wide"), composed(said, parts, key="tall"))


def _twenty_part(view: WatchView, _said: FermentView, top: float, width: float) -> tuple[str, float]:
    if not view.is_known:
        lines = wrapped("No chances are drawn: too few cases fit what was read.", width, size=SMALL_PX)
        return lines_of_text((0.0, top), lines, size=SMALL_PX, fill=INK_2), top + SMALL_PX
    like = "Of 20 vessels that read like yours" if view.readings else "Of 20 vessels filled like yours"
    drawn, y = twenty(view.twenty, like, (0.0, top + 14.0), min(width, LONGEST_PX))
    rows, y = _chances(view, y + 14.0, min(width - 8.0, LONGEST_PX))
    return title_words((0.0, top), "Twenty like it") + drawn + rows, y


def _chances(view: WatchView, top: float, width: float) -> tuple[str, float]:
    """Return a bar for each state that may be so: of how many of 20, with how unsure that is."""
    told = [each for each in view.diagnosis if (each.chance.high or 0.0) >= LEAST_SHOWN]
    left, y, drawn = min(LABEL_PX, 0.5 * width), top, []
    for each in told:
        y += ROW_PX
        low, middle, high = ((value or 0.0) for value in (each.chance.low, each.chance.value, each.chance.high))
        counts = [round(TWENTY * value) for value in (middle, low, high)]
        between = f" ({counts[1]} to {counts[2]})" if counts[1] < counts[2] else ""
        drawn.append(text((0.0, y), f"{each.state} {counts[0]}{between}", size=SMALL_PX))
        start, end = (left + value * (width - left) for value in (low, high))
        drawn.append(interval((start, y - 5.0), (end, y - 5.0), middle=left + middle * (width - left)))
    y += 10.0
    marks = [(left + at / TWENTY * (width - left), str(at)) for at in (0, 5, 10, 15, 20)]
    drawn.append(axis((left, y), (width, y), marks))
    return "".join(drawn), y + ROW_PX


def _fan_part(view: WatchView, said: FermentView, top: float, width: float) -> tuple[str, float]:
    """Return the fan as it is corrected, the middle of the forecast before it dotted, and the readings."""
    frame = frame_of(said, width, top + 16.0, 250.0 if width > TALL_PX else 220.0)
    strips = [each for each in view.readings if each.ph is not None and each.day <= said.day[-1]]
    also = tuple(each.ph for each in strips if each.ph is not None)
    drawn, lines = fan(frame, *also)
    up = scale_of(frame, *also)
    before = Named("before", "1 5", 1.6, up.at(_last(view.before, up)))
    drawn += course_line(frame, view.before.course["ph"].median, up, before)
    marks = (strip_mark(frame.days.at(each.day), each.ph or 0.0, up) for each in strips)
    drawn += _now(frame, view.day) + "".join(marks) + _values(frame, strips, up)
    names, y = names_of(frame, [*lines, before], frame.bottom + 38.0)
    told, y = bars(said, frame, y + 4.0) if not view.route else ("", y)
    squares = "Squares: strips as they were read, with what a strip is off by. " if strips else ""
    words = f"{squares}Grey: nine in ten cases, half in the darker. Upright line: today. Before: without readings."
    sentence = wrapped(words, min(width, LONGEST_PX), size=SMALL_PX, most=5)
    y += SMALL_PX + 10.0
    below = lines_of_text((0.0, y), sentence, size=SMALL_PX, fill=INK_2)
    title = title_words((0.0, top), "pH of the least sour layer")
    return title + drawn + names + told + below, y + SMALL_PX * 1.2 * (len(sentence) - 1)


def _last(view: FermentView, up: LengthScale) -> float:
    value = next((each for each in reversed(view.course["ph"].median) if each is not None), up.low)
    return min(max(value, up.low), up.high)


def _values(frame: Frame, strips: Sequence[ReadingView], up: LengthScale) -> str:
    """Return the value of each strip over its whisker; one that would run into another stands higher."""
    drawn: list[str] = []
    placed: list[tuple[float, float]] = []
    for each in strips:
        ph = each.ph or 0.0
        x, y = frame.days.at(each.day), max(whisker(ph, up)[1] - 5.0, frame.top + SMALL_PX)
        while any(abs(x - one) < WORD_PX and abs(y - other) < SMALL_PX + 2.0 for one, other in placed):
            y -= SMALL_PX + 3.0
        placed.append((x, y))
        if y > frame.top:  # more than fit have their squares alone
            drawn.append(text_on_paper((x, y), f"{ph:g}", size=SMALL_PX, anchor="middle"))
    return "".join(drawn)


def _now(frame: Frame, day: int) -> str:
    x = frame.days.at(min(float(day), float(frame.view.day[-1])))
    return path(moves([((x, frame.top), (x, frame.bottom))]), width=1.4)
