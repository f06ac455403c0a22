"""The year for a wide page and for paper: time runs to the right, one row for each vessel and place."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from sourloam.base.days import MONTHS as MONTH_NAMES
from sourloam.draw.canvas import (
    Point,
    arrow,
    axis,
    board,
    disc,
    drawing,
    line,
    rect,
    text,
    text_on_paper,
    text_width,
)
from sourloam.draw.palette import HAIR, INK, INK_2
from sourloam.draw.patterns import patterns
from sourloam.draw.scale import LengthScale, TimeScale, day_words, months, round_up
from sourloam.draw.year import (
    Frame,
    Vessel,
    bag,
    described,
    finding,
    lanes,
    lots,
    marks,
    placed,
    places,
    spread,
    stall_words,
    stalled_days,
    vessels,
)
from sourloam.draw.year_ground import beds, others
from sourloam.draw.year_key import Laid, year_key
from sourloam.draw.year_shapes import ready_bar, saw, vessel_band
from sourloam.draw.year_sheet import (
    BOLD,
    LEFT,
    RIGHT,
    SIZE,
    WIDTH,
    WORDS_END,
    Label,
    Sheet,
    beside,
    name_lines,
    now_line,
    over,
    row_name,
)
from sourloam.plan.words import days
from sourloam.views.plan import PlanView

MARK_LANE_PX: Final = 24.0


def year_wide(view: PlanView, *, today: date | None = None, key: str = "year-wide") -> str:
    """Return the year, 900 wide; `key` is unlike that of any other drawing of the page."""
    sheet = _sheet(view, key, today)
    laid = year_key((0.0, 0.0), WIDTH, sheet.places, key=key, size=SIZE)
    top = laid.bottom + 44.0
    body, y = _rows(sheet, top)
    under = _months(sheet, top - 12.0, y)
    now = _today(sheet, top - 12.0, y)
    kinds = ("waiting", "bran", "frozen", "closed")
    bottom = now.bottom + 6.0
    inside = (patterns(kinds, key), laid.svg, under, now.svg, body)
    return drawing((WIDTH, bottom), *inside, title=finding(view), desc=described(view), key=key)


def _sheet(view: PlanView, key: str, today: date | None) -> Sheet:
    time = TimeScale(view.first, view.last, LEFT, RIGHT)
    shown = vessels(view)
    fits = all(_named(time, each, view) is not None for each in shown)
    return Sheet(view, time, places(view), not fits, 30.0 if len(shown) <= 8 else 22.0, key, today)


def _named(time: TimeScale, vessel: Vessel, view: PlanView) -> list[Label] | None:
    """Return where the names of the places lie under a vessel, or nothing where they touch."""
    found: list[Label] = []
    for on, place in (each for batch in vessel.batches for each in placed(batch)):
        words = view.names.get(place, place)
        label = beside(time.at(on[-1]), words, offset=6.0)
        if found and label.start < found[-1].end + 8.0:
            return None
        found.append(label)
    return found


def _rows(sheet: Sheet, top: float) -> tuple[str, float]:
    drawn = []
    y = top
    for row in (_stalls, _vessels, beds, others, _bran):
        laid = row(sheet, y)
        drawn.append(laid.svg)
        y = laid.bottom
    return "".join(drawn), y


def _months(sheet: Sheet, top: float, bottom: float) -> str:
    """Return the months over the rows, the year named where one begins, and a thin line down from each."""
    drawn = []
    for each in months(sheet.view.first, sheet.view.last):
        start, end = sheet.time.at(each.first), sheet.time.past(each.last)
        drawn.append(line((start, top + 6.0), (start, bottom), stroke=HAIR))
        name = MONTH_NAMES[each.first.month - 1]
        if end - start > text_width(name, BOLD):
            drawn.append(text(((start + end) / 2.0, top), name, size=BOLD, anchor="middle"))
        opens_year = each.first.month == 1 or each.first == sheet.view.first
        if opens_year and text_width("2000", BOLD) < sheet.time.end_px - start:
            drawn.append(text((start, top - 19.0), str(each.first.year), size=BOLD, bold=True))
    drawn.append(line((RIGHT, top + 6.0), (RIGHT, bottom), stroke=HAIR))
    return "".join(drawn)


def _today(sheet: Sheet, top: float, bottom: float) -> Laid:
    """Return the line of today behind all rows, and its words below them."""
    through = now_line(sheet, top + 6.0, bottom + 6.0)
    if not through or sheet.today is None:
        return Laid("", bottom)
    words = f"today, {day_words(sheet.today)}"
    label = beside(sheet.time.at(sheet.today), words)
    under = bottom + 20.0
    return Laid(through + text((label.start, under), words, size=SIZE, bold=True), under + 4.0)


def _stalls(sheet: Sheet, top: float) -> Laid:
    said = stall_words(sheet.view)
    if said is None:
        return Laid("", top)
    base = top + 40.0
    high = base - 16.0
    time = sheet.time
    boxes = [
        rect((time.at(each.first), high), (time.past(each.last) - time.at(each.first), base - high), fill=INK)
        for each in sheet.view.stalls
    ]
    label = over(time.at(said[0].first), time.past(said[0].last), said[1])
    drawn = [
        row_name("No room", days(stalled_days(sheet.view)), base - 12.0),
        line((LEFT, base), (RIGHT, base)),
        *boxes,
        text_on_paper((label.start, high - 6.0), said[1], size=SIZE),
    ]
    return Laid("".join(drawn), base + 8.0)


def _vessels(sheet: Sheet, top: float) -> Laid:
    drawn = []
    y = top
    for each in vessels(sheet.view):
        label_px = 17.0 * (len(name_lines(each.name, "")) + 1)
        row_px = max(14.0 + sheet.band_px + MARK_LANE_PX, label_px + 6.0)
        base = y + (row_px - 10.0 + sheet.band_px) / 2.0
        frame = Frame(sheet.time, base, sheet.band_px)
        litres = sheet.view.speech.size(each.litres, digits=0) if each.litres else ""
        drawn += [
            row_name(each.name, litres, y + row_px / 2.0),
            *(vessel_band(batch, sheet.view.levels.get(batch.id, ()), frame, key=sheet.key) for batch in each.batches),
            board((LEFT, base), (RIGHT, base)),
            now_line(sheet, base - sheet.band_px - 12.0, base + 3.0),
            *(ready_bar(batch, frame, high=sheet.band_px + 7.0) for batch in each.batches),
            _placings(sheet, each, base + 3.0),
        ]
        y += row_px
    return Laid("".join(drawn), y)


def _placings(sheet: Sheet, vessel: Vessel, top: float) -> str:
    """Return an arrow down for each batch that is placed, and where it goes."""
    numbers = marks(sheet.places)
    named = None if sheet.numbered else _named(sheet.time, vessel, sheet.view)
    if named is not None:
        return "".join(
            arrow((each.at, top), (each.at, top + 13.0))
            + text((each.start, top + 13.0), each.words, size=SIZE, fill=INK_2)
            for each in named
        )
    parts = [each for batch in vessel.batches for each in placed(batch)]
    arrows = (arrow((x, top), (x, top + 13.0)) for days_on, _ in parts for x in map(sheet.time.at, days_on))
    wanted = [sheet.time.at(days_on[-1]) + 13.5 for days_on, _ in parts]
    centres = spread(wanted, gap=21.0, last=WIDTH - 10.5)
    discs = (
        disc((x, top + 10.5), numbers[place], radius=9.5, size=SIZE)
        for x, (_, place) in zip(centres, parts, strict=True)
    )
    return "".join((*arrows, *discs))


def _bran(sheet: Sheet, top: float) -> Laid:
    """Return the bran in the bag as a saw with its axis, and under it each lot from its begin to the day it is dry."""
    held = bag(sheet.view)
    if not held:
        return Laid("", top)
    most = round_up(max(mass_kg for _, mass_kg in held))
    base = top + 24.0 + 44.0
    up = LengthScale(0.0, most, base, base - 44.0)
    frame = Frame(sheet.time, base, 44.0)
    scale = axis((LEFT, base), (LEFT, up.at(most)), [(base, "0"), (up.at(most), f"{most:g}")], size=SIZE)
    made = _lots(sheet, base)
    drawn = [
        row_name("Bran", "kg in the bag", base - 22.0),
        saw(held, frame, px_per_kg=up.px_per_unit, key=sheet.key),
        line((LEFT, base), (RIGHT, base)),
        scale,
        now_line(sheet, base - 46.0, base),
        made.svg,
    ]
    return Laid("".join(drawn), made.bottom)


def _lots(sheet: Sheet, base: float) -> Laid:
    found = lots(sheet.view)
    widths = [max(text_width(words, SIZE) for words in each.words) for each in found]
    starts = [
        min(sheet.time.at(each.begin) + 6.0, WORDS_END - width) for each, width in zip(found, widths, strict=True)
    ]
    rows = lanes([(start - 6.0, start + width) for start, width in zip(starts, widths, strict=True)])
    drawn = []
    for lot, start, row in zip(found, starts, rows, strict=True):
        y = base + 8.0 + row * 40.0
        begin, dry = sheet.time.at(lot.begin), sheet.time.at(lot.dry)
        drawn += [
            line((begin, base), (begin, y + (30.0 if start > begin else 2.0))),
            line((begin, base + 4.0), (dry, base + 4.0), width=2.0) if dry > begin else "",
            arrow((dry, base + 9.0), (dry, base + 1.0)) if sheet.time.holds(lot.dry) else "",
            *_two(lot.words, (start, y + 15.0)),
        ]
    return Laid("".join(drawn), base + 8.0 + (max(rows, default=-1) + 1) * 40.0)


def _two(words: tuple[str, str], at: Point) -> Iterator[str]:
    yield text_on_paper(at, words[0], size=SIZE)
    yield text_on_paper((at[0], at[1] + 17.0), words[1], size=SIZE, fill=INK_2)
