"""Two lived years as rows of vessels: a usual one and a bad one, each filling from its first layer until it is gone."""

from collections.abc import Mapping
from typing import Final

from sourloam.draw.canvas import SMALL_PX, drawing, line, lines_of_text, moves, path, polygon, rect, text, wrapped
from sourloam.draw.palette import CALL, EDGE, FAN_INNER, FAN_OUTER, HAIR, INK
from sourloam.draw.patterns import filled, patterns
from sourloam.draw.scale import TimeScale, span_words
from sourloam.draw.stall_weeks import month_axis, titled
from sourloam.draw.two_sizes import Part, caption
from sourloam.draw.year import BOUND_BY
from sourloam.plan.lived import LivedYear, LivedYears, Stay
from sourloam.plan.words import days

COLUMNS: Final = ("Year", "Nothing can be put in", "Why")
MANY_YEARS: Final = 20
MOST_ROWS: Final = 12  # vessels that are drawn; of more, the first
ROW_PX, BAND_PX, STALL_PX = 21.0, 15.0, 16.0
NAME_FRAC, NAME_MOST_PX = 0.26, 150.0


def lived_rows(lived: LivedYears, names: Mapping[str, str], *, width_px: float, key: str) -> str:
    """Return the drawing of that width; `key` is unlike that of any other drawing of the page."""
    inside, bottom = rows_part(lived, names, key=key)(14.0, width_px)
    desc = "A row for each vessel; wedges are fillings, grey ferments, strokes wait; marks above are stalled days."
    return drawing((width_px, bottom + 6.0), inside, title=_finding(lived), desc=desc, key=key)


def rows_part(lived: LivedYears, names: Mapping[str, str], *, key: str) -> Part:
    """Return both years as a part of a sheet."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        own = f"{key}-{width:.0f}"
        pieces, y = [patterns(("waiting",), own)], top
        for words, year in (("A usual year", lived.usual), (_bad_words(lived), lived.bad)):
            svg, y = _year(year, lived, names, title=words, top=y, width=width, key=own)
            pieces.append(svg)
            y += 36.0
        told, end = caption(_told(lived), y - 6.0, width)
        return "".join(pieces) + told, end

    return drawn


def _bad_words(lived: LivedYears) -> str:
    return "A bad year (one in twenty is worse)" if lived.years >= MANY_YEARS else f"The worst of {lived.years} years"


def _told(lived: LivedYears) -> str:
    return (
        "Wedge: being filled. Grey: ferments. Strokes: finished, waits for a place. Cross: went wrong, thrown away. "
        f"Marks over the rows: scraps have nowhere to go. A usual year is the middle one of {lived.years} by its "
        "stalled days."
    )


def _year(
    year: LivedYear, lived: LivedYears, names: Mapping[str, str], *, title: str, top: float, width: float, key: str
) -> tuple[str, float]:
    left = min(NAME_FRAC * width, NAME_MOST_PX)
    time = TimeScale(lived.first, lived.last, left, width - 2.0)
    stalled = f"{days(year.stalled_days)} stalled" if year.stalled_days else "no day stalled"
    named, y = titled(f"{title}: {stalled}", top, width)
    pieces = [named]
    y += 12.0 + STALL_PX
    shown = year.rows[:MOST_ROWS]
    lower = y + ROW_PX * len(shown)
    pieces.append(_stalls(year, time, y - 4.0, lower))
    for row in shown:
        base = y + (ROW_PX + BAND_PX) / 2.0
        name = wrapped(names.get(row.vessel, row.vessel), left - 8.0, size=SMALL_PX, most=1)
        pieces.append(lines_of_text((0.0, base - 2.0), name, size=SMALL_PX))
        pieces.append(line((left, base), (time.end_px, base), stroke=HAIR))
        pieces += [_stay(each, time, base, key) for each in row.stays]
        y += ROW_PX
    if len(year.rows) > MOST_ROWS:
        pieces.append(text((left, y + SMALL_PX), f"and {len(year.rows) - MOST_ROWS} more", size=SMALL_PX))
        y += ROW_PX
    pieces.append(month_axis(time, y + 4.0))
    return "".join(pieces), y + 30.0


def _stay(stay: Stay, time: TimeScale, base: float, key: str) -> str:
    upper = base - BAND_PX
    end = time.at(stay.gone) if stay.gone else time.end_px
    start = time.at(stay.first_layer)
    shut = min(time.past(stay.sealed), end) if stay.sealed else end
    ready = min(max(time.at(stay.ready), shut), end) if stay.ready else end
    began_before = stay.first_layer < time.first
    pieces = [
        polygon([(start, base), (start, upper if began_before else base), (shut, upper), (shut, base)], fill=FAN_OUTER)
    ]
    if stay.sealed and ready > shut:
        pieces.append(rect((shut, upper), (ready - shut, BAND_PX), fill=FAN_INNER))
    if stay.sealed and end > ready:
        pieces.append(rect((ready, upper), (end - ready, BAND_PX), fill=filled("waiting", key)))
    outline = [((start, base), (shut, upper)), ((shut, upper), (end, upper)), ((end, upper), (end, base))]
    pieces.append(path(moves(outline), stroke=EDGE, width=1.0))
    if stay.is_failed:
        x, y, arm = end - 5.0, base - BAND_PX / 2.0, 4.0
        cross = [((x - arm, y - arm), (x + arm, y + arm)), ((x - arm, y + arm), (x + arm, y - arm))]
        pieces.append(path(moves(cross), stroke=INK, width=1.8))
    return "".join(pieces)


def _stalls(year: LivedYear, time: TimeScale, upper: float, lower: float) -> str:
    """Return a mark over the rows for each stall, and a thin line down through them."""
    pieces = []
    for span, _ in year.stalls:
        start, end = time.at(span.first), max(time.past(span.last), time.at(span.first) + 3.0)
        pieces.append(rect((start, upper - STALL_PX + 4.0), (end - start, STALL_PX - 6.0), fill=CALL))
        pieces.append(line((start, upper), (start, lower), stroke=CALL, width=1.0, dash="2 3"))
    return "".join(pieces)


def rows_table(lived: LivedYears) -> tuple[tuple[str, ...], ...]:
    """Return the rows under `COLUMNS`: the stalls of both years."""
    rows = [
        (name, span_words(span.first, span.last), BOUND_BY.get(binding, binding))
        for name, year in (("usual", lived.usual), ("bad", lived.bad))
        for span, binding in year.stalls
    ]
    return (COLUMNS, *rows) if rows else (COLUMNS, ("both", "never", ""))


def _finding(lived: LivedYears) -> str:
    return (
        f"A usual year has {days(lived.usual.stalled_days)} on which scraps have nowhere to go, "
        f"a bad one {days(lived.bad.stalled_days)}"
    )
