"""How often each week of the year stalls: a column for each, as high as the part of the lived years it stalls in."""

from datetime import date, timedelta
from typing import Final

from sourloam.base.days import MONTHS
from sourloam.draw.canvas import (
    SMALL_PX,
    TEXT_PX,
    axis,
    bars,
    drawing,
    line,
    lines_of_text,
    text,
    text_width,
    wrapped,
)
from sourloam.draw.palette import INK_2
from sourloam.draw.scale import LengthScale, TimeScale, day_words, months, round_up, ticks
from sourloam.draw.two_sizes import Part, caption
from sourloam.plan.lived import LivedYears
from sourloam.plan.words import share

COLUMNS: Final = ("Week from", "Years that stall in it")
WEEK_D: Final = 7
LEFT_PX, RIGHT_PX = 52.0, 6.0
HIGH_PX: Final = 120.0
BOLD_TIMES: Final = 0.95  # of the width that is planned for: bold letters run wider
FEW_YEARS: Final = 40  # up to here they are counted, above told in hundredths
TITLE: Final = "Weeks in which scraps have nowhere to go"


def stall_weeks(lived: LivedYears, *, width_px: float, key: str) -> str:
    """Return the drawing of that width; `key` is unlike that of any other drawing of the page."""
    inside, bottom = weeks_part(lived)(14.0, width_px)
    return drawing((width_px, bottom + 6.0), inside, title=finding(lived), desc=_described(lived), key=key)


def weeks_part(lived: LivedYears) -> Part:
    """Return the chart as a part of a sheet."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        is_counted = lived.years <= FEW_YEARS
        sign = "" if is_counted else " %"
        unit = f"Years of {lived.years}" if is_counted else "Part of the years"
        allowed = "" if is_counted else f" Dashed: the {share(lived.level)} of all weeks that are allowed."
        named, top = titled(f"{TITLE}. {unit}.", top, width)
        time = TimeScale(lived.first, lived.last, LEFT_PX, width - RIGHT_PX)
        lower = top + 18.0 + HIGH_PX
        highest = max(*lived.by_week, lived.level, 1.0 / lived.years)
        most = round_up(highest * (lived.years if is_counted else 100.0))
        up = LengthScale(0.0, most, lower, top + 18.0)
        marks = [(up.at(each), f"{each:g}{sign}") for each in _marks(most, is_counted=is_counted)]
        wide = max(WEEK_D * time.px_per_day - 1.0, 1.0)
        times = lived.years if is_counted else 100.0
        columns = [(time.at(_week(lived, at)), up.at(part * times)) for at, part in enumerate(lived.by_week)]
        pieces = [
            named,
            axis((LEFT_PX, lower), (LEFT_PX, up.end_px), marks, gridded_to=time.end_px),
            bars(columns, base=lower, width=wide),
            _level(lived, up, time),
            month_axis(time, lower),
        ]
        told, end = caption(f"{finding(lived)}{allowed}", lower + 44.0, width)
        return "".join(pieces) + told, end

    return drawn


def titled(words: str, top: float, width: float) -> tuple[str, float]:
    """Return the bold words over a chart, on as many lines as they need, and where the last one stands."""
    lines = wrapped(words, width * BOLD_TIMES, most=3)
    return lines_of_text((0.0, top), lines, bold=True), top + TEXT_PX * 1.2 * (len(lines) - 1)


def _marks(most: float, *, is_counted: bool) -> tuple[float, ...]:
    found = ticks(0.0, most, most=5)
    return tuple(each for each in found if each == round(each)) if is_counted else found


def _level(lived: LivedYears, up: LengthScale, time: TimeScale) -> str:
    """Return the line of what is allowed; of few years a single one is more, and the line would say nothing."""
    if lived.years <= FEW_YEARS:
        return ""
    y = up.at(100.0 * lived.level)
    return line((time.start_px, y), (time.end_px, y), width=1.2, dash="7 4")


def month_axis(time: TimeScale, y: float) -> str:
    """Return the axis of months, each named where it is wide enough: by three letters, else by one."""
    marks = [(time.at(each.first), "") for each in months(time.first, time.last)]
    named = []
    for each in months(time.first, time.last):
        room = time.past(each.last) - time.at(each.first)
        name = MONTHS[each.first.month - 1]
        shown = name if room > text_width(name, SMALL_PX) + 4.0 else name[:1]
        if room > text_width(shown, SMALL_PX):
            middle = (time.at(each.first) + time.past(each.last)) / 2.0
            named.append(text((middle, y + 7.0 + SMALL_PX), shown, size=SMALL_PX, anchor="middle", fill=INK_2))
    return axis((time.start_px, y), (time.end_px, y), marks) + "".join(named)


def finding(lived: LivedYears) -> str:
    """Return what the chart shows, in a sentence."""
    worst = max(range(len(lived.by_week)), key=lambda at: lived.by_week[at])
    most = lived.by_week[worst]
    if not most:
        return f"None of {lived.years} years that were lived by chance has a week in which scraps have nowhere to go."
    return (
        f"Of {lived.years} years that were lived by chance, {_years(lived, most)} "
        f"{'stalls' if round(most * lived.years) == 1 else 'stall'} in the week from {day_words(_week(lived, worst))}; "
        "no week stalls in more."
    )


def weeks_table(lived: LivedYears) -> tuple[tuple[str, ...], ...]:
    """Return the rows under `COLUMNS`: the weeks that ever stall."""
    rows = tuple(
        (day_words(_week(lived, at)), f"{_years(lived, part)} of {lived.years}")
        for at, part in enumerate(lived.by_week)
        if part
    )
    return (COLUMNS, *rows) if rows else (COLUMNS, ("no week", "0"))


def _years(lived: LivedYears, part: float) -> str:
    return f"{round(part * lived.years)}"


def _week(lived: LivedYears, at: int) -> date:
    return lived.first + timedelta(days=WEEK_D * at)


def _described(lived: LivedYears) -> str:
    return f"A column for each week from {day_words(lived.first)} on, as high as the years that stall in it."
