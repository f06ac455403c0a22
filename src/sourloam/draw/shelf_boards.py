"""Where the vessels of a shelf stand: how many to a board, at which scale, how far apart."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Final

from sourloam.draw.shelf_words import count_words, fill_limit, size_words
from sourloam.draw.vessel import rim_px
from sourloam.plan.shelf import OnShelf
from sourloam.plan.words import Speech

RULE_PX: Final = 26.0  # the rule and its numbers, left of the vessels
COLUMN_PX, AIR_PX = 98.0, 110.0  # the least that words need; the most air beside a vessel
GROUPED_FROM: Final = 11  # vessels; from here on each size has its boards


@dataclass(frozen=True)
class Room:
    """What a drawing allows: its width, pixels to the metre from the most to the least, the tallest vessel."""

    width: float
    gap_px: float  # the least air between two vessels
    most_px_per_m: int
    least_px_per_m: int
    tallest_px: float


PHONE: Final = Room(354.0, 6.0, 400, 260, 270.0)
TABLE: Final = Room(1100.0, 26.0, 700, 240, 300.0)


@dataclass(frozen=True)
class Row:
    """The vessels of one board, and a heading where boards are sorted by size."""

    vessels: tuple[OnShelf, ...]
    heading: str = ""


@dataclass(frozen=True)
class Column:
    """A vessel and where it stands: the middle of its column, and how wide that is."""

    vessel: OnShelf
    middle: float
    width: float


def arranged(vessels: Sequence[OnShelf], per_board: int, room: Room, speech: Speech) -> tuple[float, tuple[Row, ...]]:
    """Return the largest scale at which as few boards as can be hold them all, and those boards."""
    tallest_m = max(each.height_m for each in vessels)
    most = min(room.most_px_per_m, int(room.tallest_px / tallest_m))
    groups = _groups(vessels, speech)
    for px_per_m in range(max(most, room.least_px_per_m), room.least_px_per_m, -10):
        rows = tuple(row for group in groups for row in _split(group, -(-len(group.vessels) // per_board)))
        if all(_is_room(row.vessels, room, px_per_m) for row in rows):
            return float(px_per_m), rows
    return float(room.least_px_per_m), tuple(row for group in groups for row in _fitted(group, per_board, room))


def _groups(vessels: Sequence[OnShelf], speech: Speech) -> tuple[Row, ...]:
    """Return one row of all, or from eleven on one for each size, with their count; not where hardly two are alike."""
    sizes = dict.fromkeys(_size(each) for each in vessels)
    if len(vessels) < GROUPED_FROM or len(sizes) > len(vessels) / 2.0:
        return (Row(tuple(vessels)),)
    return tuple(_headed(tuple(each for each in vessels if _size(each) == size), speech) for size in sizes)


def _size(vessel: OnShelf) -> tuple[float, float]:
    return vessel.volume_l, vessel.fill_limit_frac


def _headed(vessels: tuple[OnShelf, ...], speech: Speech) -> Row:
    count, first = count_words(len(vessels)).capitalize(), vessels[0]
    return Row(vessels, f"{count} of {size_words(first.volume_l, speech)}, full at {fill_limit(first, speech)}")


def _split(group: Row, boards: int) -> tuple[Row, ...]:
    """Return a row on so many boards, the fuller ones first; the heading stands on the first."""
    least, fuller = divmod(len(group.vessels), boards)
    ends = accumulate((least + (each < fuller) for each in range(boards)), initial=0)
    return tuple(Row(group.vessels[start:end], group.heading if start == 0 else "") for start, end in pairwise(ends))


def _fitted(group: Row, per_board: int, room: Room) -> tuple[Row, ...]:
    """Return a row on as many boards as it needs at the least scale."""
    number = len(group.vessels)
    splits = (_split(group, boards) for boards in range(-(-number // per_board), number + 1))
    return next(
        (rows for rows in splits if all(_is_room(each.vessels, room, room.least_px_per_m) for each in rows)),
        _split(group, number),
    )


def _least_px(vessel: OnShelf, room: Room, px_per_m: float) -> float:
    """Return the least width of its column: what is drawn, and what its words need."""
    return max(rim_px(vessel, px_per_m) + room.gap_px, COLUMN_PX)


def _is_room(vessels: Sequence[OnShelf], room: Room, px_per_m: float) -> bool:
    return sum(_least_px(each, room, px_per_m) for each in vessels) <= room.width - RULE_PX


def columns_of(row: Row, room: Room, px_per_m: float) -> tuple[Column, ...]:
    """Return where the vessels of a board stand: what room is left is air, the same beside each."""
    least = [_least_px(each, room, px_per_m) for each in row.vessels]
    air = min((room.width - RULE_PX - sum(least)) / len(least), AIR_PX)
    columns, x = [], RULE_PX
    for vessel, width in zip(row.vessels, least, strict=True):
        columns.append(Column(vessel, x + (width + air) / 2.0, width + air))
        x += width + air
    return tuple(columns)
