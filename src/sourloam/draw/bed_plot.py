"""A bed through the season on one sheet: when it may be planted, how warm it is, nitrogen that comes free, acid."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

import numpy as np

from sourloam.base.days import MONTHS
from sourloam.base.numbers import FloatArray
from sourloam.draw.canvas import (
    SMALL_PX,
    Point,
    axis,
    band,
    board,
    circle,
    interval,
    line,
    polyline,
    rect,
    text,
    text_on_paper,
    text_width,
)
from sourloam.draw.palette import FAN_OUTER, INK_2
from sourloam.draw.scale import LengthScale, TimeScale, day_words, months, round_up, ticks
from sourloam.draw.two_sizes import Part, caption, heading, sheet
from sourloam.plan.words import converted
from sourloam.views.bed_season import BedSeason, RestMark
from sourloam.views.place import PlaceView

THIRDS: Final = ("n_first_third_g_per_m2", "n_second_third_g_per_m2", "n_last_third_g_per_m2")
TWO_MONTHS: Final = ("1st two months", "2nd", "last two")
LEFT_PX: Final = 46.0
RIGHT_PX: Final = 8.0
ROW_PX: Final = 50.0
WIDE_FROM_PX: Final = 500.0
WIDE_HIGH_PX, TALL_HIGH_PX = 130.0, 110.0
STILL_C: Final = 5.0  # the line under which nothing rots; the answer says the same


def bed_sheet(view: PlaceView, season: BedSeason, marks: Sequence[RestMark]) -> str:
    """Return the sheet as a file of its own."""
    says = f"{view.says[0].upper()}{view.says[1:]}"
    unit = "°F" if view.speech.is_us else "°C"
    soil = spoken_c(season.soil_c, unit)
    parts: tuple[Part, ...] = (
        heading(f"{view.name}, from {day_words(season.first)} {season.first.year}", says, " ".join(view.because[:1])),
        _rests(season, marks),
        _course(season, soil, f"Soil where it lies, {unit}", (spoken_c(STILL_C, unit), "still")),
        _thirds(season, view),
        _course(season, season.sourer_ph, "Sourer than before, pH, evenly mixed", None),
    )
    desc = "When a bed may be planted, its warmth, its nitrogen and its acid, day by day; nine in ten lie in the grey."
    return sheet(parts, title=says, desc=desc, between=34.0)


def spoken_c(celsius: FloatArray | float, unit: str) -> FloatArray:
    """Return temperatures in the unit of the keeper."""
    start = converted(0.0, "°C", unit)
    return np.asarray(celsius) * (converted(1.0, "°C", unit) - start) + start


def _days(season: BedSeason, width: float) -> TimeScale:
    last = season.first + timedelta(days=season.soil_c.shape[1] - 1)
    return TimeScale(season.first, last, LEFT_PX, width - RIGHT_PX)


def _months(scale: TimeScale, y: float) -> str:
    """Return the axis of months, each named where it is wide enough."""
    marks = [(scale.at(each.first), "") for each in months(scale.first, scale.last)]
    named = [
        text(
            ((scale.at(each.first) + scale.past(each.last)) / 2.0, y + 7.0 + SMALL_PX),
            MONTHS[each.first.month - 1],
            size=SMALL_PX,
            anchor="middle",
            fill=INK_2,
        )
        for each in months(scale.first, scale.last)
        if scale.past(each.last) - scale.at(each.first) > text_width("Mmm", SMALL_PX)
    ]
    return axis((scale.start_px, y), (scale.end_px, y), marks) + "".join(named)


def _on(season: BedSeason, days: float) -> date:
    return season.first + timedelta(days=round(days))


def _rests(season: BedSeason, marks: Sequence[RestMark]) -> Part:
    """Return one row for each rest: the board is the ground that rests, the bar the days between which it ends."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        scale = _days(season, width)
        rows = [text((0.0, top), "It rests, and then may come", bold=True)]
        y = top + 22.0
        for each in marks:
            rows.append(_rest(season, each, scale, y))
            y += ROW_PX
        lower = y - 6.0
        rows.append(_months(scale, lower))
        words = (
            "Brown: the ground rests. Dot: the middle case; nine in ten lie between the ends. For plants and seed a "
            "passed seedling test goes first."
        )
        told, end = caption(words, lower + 44.0, width)
        return "".join(rows) + told, end

    return drawn


def _rest(season: BedSeason, mark: RestMark, scale: TimeScale, top: float) -> str:
    y = top + 24.0
    if not np.isfinite(mark.middle_d):
        return text((LEFT_PX, top + 8.0), f"{mark.words}: not in three years", size=SMALL_PX)
    low, middle = _on(season, mark.low_d), _on(season, mark.middle_d)
    high = _on(season, mark.high_d) if np.isfinite(mark.high_d) else scale.last + timedelta(days=1)
    words = f"{mark.words} from {day_words(middle)}"
    if middle > scale.last:
        words = f"{words} {middle.year}"
    pieces = [
        text((LEFT_PX, top + 10.0), words, size=SMALL_PX, bold=True),
        board((LEFT_PX, y), (scale.at(min(middle, scale.last)), y), width=6.0),
    ]
    if low <= scale.last and low < high:
        ends = (scale.at(low), y + 11.0), (scale.at(high), y + 11.0)
        dot = scale.at(middle) if middle <= scale.last else None
        pieces.append(interval(*ends, middle=dot, open_end=high > scale.last))
    elif middle <= scale.last:
        pieces.append(circle((scale.at(middle), y + 11.0), 2.7))
    return "".join(pieces)


def _course(season: BedSeason, values: FloatArray, title: str, limit: tuple[FloatArray | float, str] | None) -> Part:
    """Return a chart of one course as a fan, with the line that something passes."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        high = WIDE_HIGH_PX if width > WIDE_FROM_PX else TALL_HIGH_PX
        upper, lower = top + 16.0, top + 16.0 + high
        scale = _days(season, width)
        least, most = min(float(np.min(values)), 0.0), float(np.max(values))
        up = LengthScale(-round_up(-least) if least < 0.0 else 0.0, round_up(most), lower, upper)
        xs = [scale.at(_on(season, day)) for day in range(values.shape[1])]
        low, middle, top_line = (_points(xs, up, each) for each in values)
        marks = [(up.at(each), f"{each:g}") for each in ticks(up.low, up.high, most=4)]
        svg = [
            text((0.0, top), title, bold=True),
            band(low, top_line, fill=FAN_OUTER),
            polyline(middle, width=2.4),
            axis((LEFT_PX, lower), (LEFT_PX, upper), marks),
            _months(scale, lower),
        ]
        if limit is not None:
            y = up.at(float(limit[0]))
            svg.append(line((LEFT_PX, y), (scale.end_px, y), width=1.2, dash="7 4"))
            if limit[1]:
                svg.append(text_on_paper((scale.end_px - 4.0, y - 5.0), limit[1], size=SMALL_PX, anchor="end"))
        return "".join(svg), lower + 24.0

    return drawn


def _thirds(season: BedSeason, view: PlaceView) -> Part:
    """Return the nitrogen of each third of the season, as boxes: months would say more than is known."""
    shown = {each.name: each for each in (*view.numbers, *view.behind)}
    thirds = [shown[each] for each in THIRDS if each in shown]

    def drawn(top: float, width: float) -> tuple[str, float]:
        high = WIDE_HIGH_PX if width > WIDE_FROM_PX else TALL_HIGH_PX
        upper, lower = top + 16.0, top + 16.0 + high
        ends = [each for third in thirds for each in (third.low or 0.0, third.high or 0.0)]
        least, most = min(*ends, 0.0), max(*ends, 0.1)
        up = LengthScale(-round_up(-least) if least < 0.0 else 0.0, round_up(most), lower, upper)
        step = (width - RIGHT_PX - LEFT_PX) / len(thirds)
        marks = [(up.at(each), f"{each:g}") for each in ticks(up.low, up.high, most=4)]
        svg = [text((0.0, top), "Nitrogen for plants, g to a square metre", bold=True)]
        for at, (third, words) in enumerate(zip(thirds, TWO_MONTHS, strict=True)):
            left = LEFT_PX + at * step
            box_top, box_end = up.at(third.high or 0.0), up.at(third.low or 0.0)
            middle = up.at(third.value or 0.0)
            svg.append(rect((left + 6.0, box_top), (step - 12.0, box_end - box_top), fill=FAN_OUTER, stroke=INK_2))
            svg.append(line((left + 6.0, middle), (left + step - 6.0, middle), width=2.4))
            place = (left + step / 2.0, lower + 7.0 + SMALL_PX)
            svg.append(text(place, words, size=SMALL_PX, anchor="middle", fill=INK_2))
        svg.append(axis((LEFT_PX, lower), (LEFT_PX, upper), marks))
        zero = up.at(0.0)
        svg.append(line((LEFT_PX, zero), (width - RIGHT_PX, zero), width=1.2, dash="7 4"))
        says = (
            "Nine in ten lie in the grey, which goes from one published form to the other; under the dashed line it "
            "borrows from the soil."
        )
        told, end = caption(says, lower + 44.0, width)
        return "".join(svg) + told, end

    return drawn


def _points(xs: Sequence[float], up: LengthScale, values: FloatArray) -> list[Point]:
    return [(x, up.at(float(value))) for x, value in zip(xs, values, strict=True)]
