"""The interval of a figure as a line: ticks at its ends, a dot at the middle value where it truly lies."""

from typing import Final

from sourloam.draw.canvas import MARK_PX, circle, drawing, moves, path
from sourloam.draw.scale import LengthScale
from sourloam.plan.words import Speech
from sourloam.views.reason import Number
from sourloam.views.spoken import said, said_range

HEIGHT_PX, TICK_PX, DOT_PX = 14.0, 5.0, 4.6
OPEN_DASH: Final = "1 4"


def interval(number: Number, speech: Speech, *, width_px: float = 104.0, key: str = "") -> str:
    """Return the line, or nothing for a number that has no interval: typed, or not known.

    A number that is higher than any in some cases has no right end: from the dot on, which stands in the middle, the
    line is dotted. `key` must be given where a page shows one number twice.
    """
    if number.value is None or number.low is None or number.is_exact:
        return ""
    left, right, y = DOT_PX, width_px - DOT_PX, HEIGHT_PX / 2.0
    ticks = [((left, y - TICK_PX), (left, y + TICK_PX))]
    if number.high is None:
        dot = (left + right) / 2.0
        drawn = path(moves([((left, y), (dot, y)), *ticks]), width=MARK_PX)
        drawn += path(moves([((dot, y), (right, y))]), width=MARK_PX, dash=OPEN_DASH)
    else:
        dot = LengthScale(number.low, number.high, left, right).at(number.value)
        ticks.append(((right, y - TICK_PX), (right, y + TICK_PX)))
        drawn = path(moves([((left, y), (right, y)), *ticks]), width=MARK_PX)
    return drawing(
        (width_px, HEIGHT_PX),
        drawn,
        circle((dot, y), DOT_PX),
        title=f"{speech.warmths(number.words)}: about {said(number, speech)}, {said_range(number, speech)}",
        desc="Nine in ten lie between the ends, half on each side of the dot.",
        key=key or f"interval-{number.name}",
    )
