"""The columns of a year whose time runs down: vessels, places, the bag of bran, and the days without room."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

from sourloam.draw.canvas import arrow, board, disc, is_cut, line, lines_of_text, rect, text, text_width, wrapped
from sourloam.draw.palette import CALL, INK, INK_2, PAPER
from sourloam.draw.scale import TimeScale, round_up
from sourloam.draw.signs import sprout
from sourloam.draw.year import (
    RESTING,
    Frame,
    Place,
    Vessel,
    bag,
    longest_rest,
    lots,
    marks,
    placed,
    places,
    sown,
    spread,
    stalled_days,
    vessels,
)
from sourloam.draw.year_shapes import arrivals, ready_bar, rest_strokes, saw, shut_ground, vessel_band
from sourloam.plan.words import days
from sourloam.views.plan import PlanView

Kind = Literal["stall", "vessel", "place", "bran"]

SIZE, HEAD_PX = 14.0, 13.0
DISC_LANE_PX, BAND_PX, BAR_LANE_PX = 21.0, 17.0, 11.0
REST_PX, SAW_PX = 20.0, 30.0
LETTERS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True)
class Column:
    """One column: what it holds, the least it needs, and where it stands once it has its place."""

    kind: Kind
    id: str
    name: str
    width: float
    lead: float  # from its left edge to its base line
    mark: str = ""
    second: str = ""
    is_bed: bool = False
    x: float = 0.0

    @property
    def base(self) -> float:
        """Return where its base line runs."""
        return self.x + self.lead

    @property
    def end(self) -> float:
        """Return where it ends."""
        return self.x + self.width


def columns(view: PlanView) -> tuple[Column, ...]:
    """Return all columns of a year, each as narrow as it may be."""
    stall = (
        (Column("stall", "stall", "No room", _stall_px(view), 4.0, second=days(stalled_days(view))),)
        if view.stalls
        else ()
    )
    shown = vessels(view)
    short = all(_fits(each.name, DISC_LANE_PX + BAND_PX + BAR_LANE_PX) for each in shown)
    least = DISC_LANE_PX + BAND_PX + BAR_LANE_PX + 4.0
    standing = tuple(
        Column("vessel", each.id, each.name, least, DISC_LANE_PX, mark="" if short else LETTERS[at % len(LETTERS)])
        for at, each in enumerate(shown)
    )
    ground = tuple(
        Column("place", each.id, each.name, _place_px(each), 11.0, mark=each.mark, is_bed=each.ground.kind == "bed")
        for each in places(view)
    )
    bran = (Column("bran", "bran", "Bran", SAW_PX + 66.0, 12.0, second="kg in bag"),) if view.bran_on_hand else ()
    return (*stall, *standing, *ground, *bran)


def _stall_px(view: PlanView) -> float:
    return max(46.0, text_width(days(stalled_days(view)), HEAD_PX) + 8.0)


def _fits(name: str, width: float) -> bool:
    return not is_cut(wrapped(name, width, size=HEAD_PX, most=3))


def _place_px(place: Place) -> float:
    words = max((len(part) for each in sown(place) for part in each.words.split()), default=0)
    if not words:
        return 36.0
    return 11.0 + REST_PX + 8.0 + min(text_width("x" * words, SIZE), 100.0) + 8.0


def head_lines(column: Column) -> tuple[str, ...]:
    """Return the name over a column, or nothing where it does not fit and a mark stands for it."""
    room = column.width - 4.0 if column.kind == "vessel" else column.end - column.base
    lines = wrapped(column.name, room, size=HEAD_PX, most=3)
    return () if column.mark and (column.kind == "vessel" or is_cut(lines)) else lines


def column_drawn(view: PlanView, column: Column, time: TimeScale, today: date | None, *, key: str) -> str:
    """Return what a column holds."""
    now = _now(column, time, today)
    if column.kind == "stall":
        return _stalls(view, column, time)
    if column.kind == "bran":
        return _bran(view, column, time, key=key) + now
    if column.kind == "vessel":
        vessel = next(each for each in vessels(view) if each.id == column.id)
        return _vessel(view, vessel, column, time, now=now, key=key)
    shown = places(view)
    return _place(next(each for each in shown if each.id == column.id), column, time, longest=longest_rest(shown))


def shut_columns(view: PlanView, columns: Sequence[Column], time: TimeScale, *, key: str) -> str:
    """Return the times in which no bed can be dug, across all beds of a drawing."""
    beds = [each for each in columns if each.is_bed]
    if not beds:
        return ""
    across = Frame(time, beds[0].base, beds[-1].end - beds[0].base - 4.0, upright=True)
    return shut_ground(view.frozen, across, "frozen", key=key) + shut_ground(view.closed, across, "closed", key=key)


def _now(column: Column, time: TimeScale, today: date | None) -> str:
    """Return the line of today over what would hide it."""
    if today is None or not time.holds(today):
        return ""
    y = time.at(today)
    return line((column.base - 3.0, y), (column.base + SAW_PX, y), width=1.6)


def _stalls(view: PlanView, column: Column, time: TimeScale) -> str:
    bars = (
        rect((column.base, time.at(each.first)), (14.0, time.past(each.last) - time.at(each.first)), fill=INK)
        for each in view.stalls
    )
    return line((column.base, time.start_px), (column.base, time.end_px)) + "".join(bars)


def _vessel(view: PlanView, vessel: Vessel, column: Column, time: TimeScale, *, now: str, key: str) -> str:
    frame = Frame(time, column.base, BAND_PX, upright=True)
    numbers = marks(places(view))
    drawn = [
        *(vessel_band(each, view.levels.get(each.id, ()), frame, key=key) for each in vessel.batches),
        board((column.base, time.start_px), (column.base, time.end_px)),
        now,
        *(ready_bar(each, frame, high=BAND_PX + 6.0) for each in vessel.batches),
    ]
    parts = [each for batch in vessel.batches for each in placed(batch)]
    wanted = [time.at(on[-1]) for on, _ in parts]
    for y, centre, (_, place) in zip(wanted, spread(wanted, gap=18.0, last=time.end_px - 9.0), parts, strict=True):
        drawn.append(line((column.base - 3.0, y), (column.base - 6.0, centre)))
        drawn.append(disc((column.base - 12.5, centre), numbers[place], radius=8.2, size=13.0))
    return "".join(drawn)


def _place(place: Place, column: Column, time: TimeScale, *, longest: int) -> str:
    frame = Frame(time, column.base, REST_PX, upright=True)
    rests = place.rests if place.ground.kind in RESTING else ()
    drawn = [
        line((column.base, time.start_px), (column.base, time.end_px)),
        rest_strokes(rests, frame, px_per_day=REST_PX / longest),
        "" if rests else arrivals(place.rests, frame),
    ]
    free = time.start_px
    for each in sown(place):
        if not time.holds(each.on):
            continue
        y = time.at(each.on)
        x = column.base + REST_PX + 8.0
        lines = wrapped(each.words, column.end - x - 2.0, size=SIZE, most=3)
        first = min(max(y, free + SIZE), time.end_px - (len(lines) - 1) * SIZE * 1.2 - 2.0)
        free = first + len(lines) * SIZE * 1.2
        fill = CALL if each.too_soon else INK
        wide = max(text_width(words, SIZE) for words in lines)
        foot = max(y, time.start_px + 16.0)
        drawn += [
            rect((column.base + 1.0, foot - 16.0), (REST_PX + 2.0, 17.0), fill=PAPER),
            rect((x - 2.0, first - 12.0), (wide + 4.0, len(lines) * SIZE * 1.2 - 1.0), fill=PAPER),
            line((column.base + 15.0, foot - 4.0), (x - 3.0, first - 5.0)) if first > foot + SIZE else "",
            sprout((column.base + 11.0, foot), height=14.0),
            lines_of_text((x, first), lines, size=SIZE, fill=fill, bold=each.too_soon),
        ]
    return "".join(drawn)


def _bran(view: PlanView, column: Column, time: TimeScale, *, key: str) -> str:
    held = bag(view)
    most = round_up(max(mass_kg for _, mass_kg in held))
    frame = Frame(time, column.base, SAW_PX, upright=True)
    top = time.start_px - 5.0
    drawn = [
        saw(held, frame, px_per_kg=SAW_PX / most, key=key),
        line((column.base, time.start_px), (column.base, time.end_px)),
        line((column.base, time.start_px), (column.base + SAW_PX, time.start_px)),
        text((column.base, top), "0", size=HEAD_PX, anchor="middle", fill=INK_2),
        text((column.base + SAW_PX, top), f"{most:g}", size=HEAD_PX, anchor="middle", fill=INK_2),
    ]
    x = column.base + SAW_PX + 8.0
    free = time.start_px
    for lot in lots(view):
        lines = [part for words in lot.words for part in wrapped(words, column.end - x, size=HEAD_PX, most=3)]
        high = len(lines) * HEAD_PX * 1.2
        first = min(max(time.at(lot.begin) + 11.0, free + HEAD_PX), time.end_px - high + HEAD_PX)
        free = first + high - HEAD_PX + 6.0
        begin, dry = time.at(lot.begin), time.at(lot.dry)
        drawn += [
            line((x - 4.0, begin), (x - 4.0, dry), width=2.0) if dry > begin else "",
            line((x - 7.0, begin), (x - 1.0, begin)),
            arrow((x - 2.0, dry), (x - 10.0, dry)) if time.holds(lot.dry) else "",
            lines_of_text((x + 1.0, first), lines, size=HEAD_PX),
        ]
    return "".join(drawn)
