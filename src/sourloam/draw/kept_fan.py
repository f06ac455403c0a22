"""The pH of a batch as it was last forecast: nine in ten in the grey, the middle case, what was read, when ready."""

from datetime import timedelta
from typing import Final

from sourloam.draw.canvas import LEVEL_PX, SMALL_PX, Point, axis, band, drawing, interval, line, polyline, text
from sourloam.draw.palette import FAN_OUTER, INK_2
from sourloam.draw.ph import SOURED, limits_of, ph_axis, strip_mark
from sourloam.draw.scale import LengthScale, day_words
from sourloam.views.vessel import Fan

LEFT_PX, RIGHT_PX, TOP_PX = 44.0, 14.0, 30.0
BELOW_PX: Final = 74.0


def kept_fan(fan: Fan, *, width_px: float, high_px: float, key: str) -> str:
    """Return the fan over the days of the batch."""
    last = max(len(fan.median) - 1, 1)
    across = LengthScale(0.0, float(last), LEFT_PX, width_px - RIGHT_PX)
    known = [each for each in (*fan.low, *fan.high, *(ph for _, ph in fan.read)) if each is not None]
    bottom = TOP_PX + high_px
    up = LengthScale(*limits_of(known), bottom, TOP_PX)
    drawn = (
        _band(fan, across, up),
        line((LEFT_PX, up.at(SOURED)), (width_px - RIGHT_PX, up.at(SOURED)), width=1.2, dash="7 4"),
        text((width_px, 14.0), f"dashed: sour, {SOURED:g}", size=SMALL_PX, anchor="end", fill=INK_2),
        polyline(_points(fan.median, across, up), width=LEVEL_PX + 0.8),
        ph_axis(LEFT_PX, up),
        *(strip_mark(across.at(day), ph, up) for day, ph in fan.read),
        _today(fan, across, bottom),
        axis((LEFT_PX, bottom), (width_px - RIGHT_PX, bottom), _days(fan, across, last)),
        _ready(fan, across, bottom + 46.0, width_px),
    )
    return drawing(
        (width_px, bottom + BELOW_PX),
        text((0.0, 14.0), "pH of the least sour layer", size=SMALL_PX, bold=True),
        *drawn,
        title=f"pH of the least sour layer, from {day_words(fan.first)}",
        desc="Nine in ten lie in the grey; the line is the middle case; squares are strips as they were read.",
        key=key,
    )


def _points(course: tuple[float | None, ...], across: LengthScale, up: LengthScale) -> list[Point]:
    return [(across.at(day), up.at(ph)) for day, ph in enumerate(course) if ph is not None]


def _band(fan: Fan, across: LengthScale, up: LengthScale) -> str:
    low, high = _points(fan.low, across, up), _points(fan.high, across, up)
    return band(low, high, fill=FAN_OUTER) if low and high else ""


def _today(fan: Fan, across: LengthScale, bottom: float) -> str:
    if not across.low <= fan.today_d <= across.high:
        return ""
    x = across.at(fan.today_d)
    anchor = "end" if x > (across.start_px + across.end_px) / 2.0 else "start"
    said = text(
        (x + (-5.0 if anchor == "end" else 5.0), TOP_PX + 12.0), "today", size=SMALL_PX, anchor=anchor, fill=INK_2
    )
    return line((x, TOP_PX), (x, bottom), width=2.0) + said


def _days(fan: Fan, across: LengthScale, last: int) -> list[tuple[float, str]]:
    """Return the days under the axis: each week, or every second one where there is little room."""
    step = 7 if (across.end_px - across.start_px) / max(last, 1) * 7.0 >= 46.0 else 14
    step = step if (across.end_px - across.start_px) / max(last, 1) * step >= 46.0 else 28
    return [(across.at(day), day_words(fan.first + timedelta(days=day))) for day in range(0, last + 1, step)]


def _ready(fan: Fan, across: LengthScale, y: float, width_px: float) -> str:
    """Return a bar under the axis from the soonest to the latest day on which it may be ready."""
    when = fan.ready
    if when.middle is None or when.low is None or when.high is None:
        return text((LEFT_PX, y + 5.0), "not ready in the days that were followed", size=SMALL_PX, fill=INK_2)
    low, middle, high = (
        min(across.at(max((each - fan.first).days, 0)), width_px - RIGHT_PX)
        for each in (when.low, when.middle, when.high)
    )
    words = f"ready about {day_words(when.middle)}"
    bar = interval((low, y), (max(high, low + 1.0), y), middle=middle)
    anchor, x = ("end", high) if high > (LEFT_PX + width_px) / 2.0 else ("start", low)
    return bar + text((x, y + 20.0), words, size=SMALL_PX, anchor=anchor, fill=INK_2)
