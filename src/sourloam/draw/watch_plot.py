"""A vessel that is watched on one sheet: the answer, twenty buckets, the fan with its readings, the vessel cut open."""

from dataclasses import replace
from functools import partial
from typing import Final

from sourloam.draw.canvas import SMALL_PX, lines_of_text, moves, path, rect, text_on_paper, wrapped
from sourloam.draw.ferment_fan import bars, fan, scale_of
from sourloam.draw.ferment_frame import Frame, Named, course_line, title_words
from sourloam.draw.ferment_plot import composed, frame_of, head_part, names_of
from sourloam.draw.palette import INK, INK_2, cabbage
from sourloam.draw.scale import LengthScale
from sourloam.draw.twenty import twenty
from sourloam.draw.two_sizes import LONGEST_PX, TALL_PX, two_in_one
from sourloam.views.ferment import FermentView
from sourloam.views.watch import ReadingView, WatchView

SQUARE_PX: Final = 12.0
STRIP_SD: Final = 0.39  # box and strip together; drawn as nine in ten
NINETY: Final = 1.645


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
    return title_words((0.0, top), "Twenty like it") + drawn, y


def _fan_part(view: WatchView, said: FermentView, top: float, width: float) -> tuple[str, float]:
    """Return the fan as it is corrected, the middle of the forecast before it dotted, and the readings."""
    frame = frame_of(said, width, top + 16.0, 250.0 if width > TALL_PX else 220.0)
    strips = [each for each in view.readings if each.ph is not None]
    also = tuple(each.ph for each in strips if each.ph is not None)
    drawn, lines = fan(frame, *also)
    up = scale_of(frame, *also)
    before = Named("before", "1 5", 1.6, up.at(_last(view.before, up)))
    drawn += course_line(frame, view.before.course["ph"].median, up, before)
    drawn += "".join(_square(frame, each, up) for each in strips)
    drawn += _now(frame, view.day)
    names, y = names_of(frame, [*lines, before], frame.bottom + 38.0)
    told, y = bars(said, frame, y + 4.0) if not view.route else ("", y)
    squares = "Squares: strips as they were read, with what a strip is off by. " if strips else ""
    words = f"{squares}Upright line: today. Before: without them."
    sentence = wrapped(words, min(width, LONGEST_PX), size=SMALL_PX, most=3)
    y += SMALL_PX + 10.0
    below = lines_of_text((0.0, y), sentence, size=SMALL_PX, fill=INK_2)
    title = title_words((0.0, top), "pH of the least sour layer")
    return title + drawn + names + told + below, y + SMALL_PX * 1.2 * (len(sentence) - 1)


def _last(view: FermentView, up: LengthScale) -> float:
    value = next((each for each in reversed(view.course["ph"].median) if each is not None), up.low)
    return min(max(value, up.low), up.high)


def _square(frame: Frame, reading: ReadingView, up: LengthScale) -> str:
    """Return a strip in its colour, with its error as a whisker and its value beside it."""
    ph = reading.ph or 0.0
    x, y = frame.days.at(reading.day), up.at(ph)
    low, high = (up.at(min(max(ph + side * NINETY * STRIP_SD, up.low), up.high)) for side in (-1.0, 1.0))
    ticks = [((x, low), (x, high)), ((x - 4.0, low), (x + 4.0, low)), ((x - 4.0, high), (x + 4.0, high))]
    half = SQUARE_PX / 2.0
    box = rect((x - half, y - half), (SQUARE_PX, SQUARE_PX), fill=cabbage(ph), stroke=INK, width=1.6)
    return path(moves(ticks), width=1.4) + box + text_on_paper((x + 10.0, y + 5.0), f"{ph:g}", size=SMALL_PX)


def _now(frame: Frame, day: int) -> str:
    x = frame.days.at(min(float(day), float(frame.view.day[-1])))
    return path(moves([((x, frame.top), (x, frame.bottom))]), width=1.4)
