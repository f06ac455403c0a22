"""The shelf on one day: every vessel cut open, on boards, to one scale, with its state and its date below."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from sourloam.draw.canvas import (
    LEAST_PX,
    NAME_PX,
    SMALL_PX,
    board,
    drawing,
    group,
    is_cut,
    lines_of_text,
    text,
    text_width,
    wrapped,
)
from sourloam.draw.palette import INK, INK_2
from sourloam.draw.rule import marks_of, upright
from sourloam.draw.scale import NO_BREAK
from sourloam.draw.shelf_boards import PHONE, RULE_PX, TABLE, Column, Room, Row, arranged, columns_of
from sourloam.draw.shelf_key import shelf_key
from sourloam.draw.shelf_words import dated, fill_limit, finding, name_of, spoken, table_row
from sourloam.draw.vessel import body_of, fill_words, has_room_for_words, matter_patterns, rim_px, section, top_px
from sourloam.plan.shelf import OnShelf
from sourloam.views.shelf import Shelved

COLUMNS: Final = ("Vessel", "State", "Date", "Holds", "Layers", "Liquid below", "Fill line")
PHONE_MOST: Final = 3  # vessels to a board
UNIT_PX: Final = 20.0  # above the rule, for its unit
BOLD_TIMES: Final = 1.14  # bold letters run wider
BETWEEN_BOARDS_PX, BOARD_PX = 34.0, 7.0


@dataclass(frozen=True)
class Words:
    """One line below a vessel, or a name of more lines than were kept."""

    words: str
    size: float = SMALL_PX
    fill: str = INK_2
    bold: bool = False


@dataclass(frozen=True)
class Picture:
    """What all boards of one drawing share: the plan, the width, the scale, where fill lines are said, the key."""

    view: Shelved
    width: float
    px_per_m: float
    said: str
    key: str


def shelf(view: Shelved, *, per_board: int) -> str:
    """Return all vessels on the day of the shelf; three to a board and fewer is the drawing for a phone."""
    room = PHONE if per_board <= PHONE_MOST else TABLE
    key = f"shelf-{per_board}"
    vessels = view.shelf.vessels
    if not vessels:
        return _bare(room, key)
    px_per_m, rows = arranged(vessels, per_board, room, view.speech)
    picture = Picture(view, room.width, px_per_m, _where_said(view, rows, px_per_m), key)
    drawn, y = [], 0.0
    for row in rows:
        svg, y = _board(row, columns_of(row, room, px_per_m), y, picture)
        drawn.append(svg)
        y += BETWEEN_BOARDS_PX
    meaning, bottom = shelf_key(view, y, room.width, key=key, said=picture.said)
    return drawing(
        (room.width, bottom),
        matter_patterns(key),
        *drawn,
        meaning,
        title=finding(view),
        desc=" ".join(spoken(each, view) for each in vessels) + " The table has the same data.",
        key=key,
    )


def shelf_table(view: Shelved) -> tuple[tuple[str, ...], ...]:
    """Return the rows under `COLUMNS`, one for each vessel."""
    return tuple(table_row(each, view) for each in view.shelf.vessels)


def _where_said(view: Shelved, rows: Sequence[Row], px_per_m: float) -> str:
    """Return where the room up to the fill lines is said: once if it can be, in the vessels if there is room."""
    vessels = view.shelf.vessels
    if rows[0].heading:
        return "heading"
    if len({fill_limit(each, view.speech) for each in vessels}) == 1:
        return "key"
    return "inside" if all(has_room_for_words(each, px_per_m) for each in vessels) else "below"


# One board


def _board(row: Row, columns: Sequence[Column], top: float, picture: Picture) -> tuple[str, float]:
    """Return a board with all that stands on it and hangs below it, and where that ends."""
    px_per_m = picture.px_per_m
    headed = NAME_PX + 16.0 if row.heading else 0.0
    above = max(top_px(each.vessel, px_per_m) for each in columns)
    rule = marks_of(picture.view.speech, px_per_m)
    tallest = rule.tallest(each.vessel for each in columns)
    foot = top + headed + max(above, tallest * rule.unit_px + UNIT_PX)
    drawn = [text((0.0, top + NAME_PX), row.heading, bold=True)] if row.heading else []
    drawn.append(upright(rule, tallest, (RULE_PX, foot)))
    drawn.append(board((0.0, foot), (picture.width, foot), width=BOARD_PX))
    bottom = foot
    for each in columns:
        drawn.append(section(each.vessel, (each.middle, foot), px_per_m=px_per_m, key=picture.key))
        if picture.said == "inside":
            full = fill_limit(each.vessel, picture.view.speech)
            drawn.append(fill_words(each.vessel, (each.middle, foot), full, px_per_m=px_per_m))
        svg, end = _below(each, foot + BOARD_PX, picture)
        drawn.append(svg)
        bottom = max(bottom, end)
    return "".join(drawn), bottom


def _below(column: Column, top: float, picture: Picture) -> tuple[str, float]:
    """Return name, state, date and mass, one under the other, and where they end."""
    whole = name_of(column.vessel, picture.view)
    name = wrapped(whole, (column.width - 4.0) / BOLD_TIMES, size=NAME_PX)
    lines = [Words(each, NAME_PX, INK, bold=True) for each in name] + list(_lines(column, picture))
    drawn, y = [], top + 4.0
    for each in lines:
        y += each.size * 1.3
        drawn.append(
            text((column.middle, y), each.words, size=each.size, anchor="middle", fill=each.fill, bold=each.bold)
        )
    return group(*drawn, title=whole if is_cut(name) else None), y + 4.0


def _lines(column: Column, picture: Picture) -> Iterator[Words]:
    vessel = column.vessel
    yield Words(vessel.phase, NAME_PX, INK)
    on, between = dated(vessel, picture.view)
    yield from (Words(each) for each in _date(on, column.width))
    yield from _interval(between.strip("()"), column.width)
    if vessel.mass_kg > 0.0:
        yield Words(picture.view.speech.kg(vessel.mass_kg).replace(" ", NO_BREAK))
    if picture.said == "below":
        yield Words(f"full at {fill_limit(vessel, picture.view.speech)}", LEAST_PX)


def _date(words: str, width: float) -> tuple[str, ...]:
    """Return a date, shorter where the column is narrow."""
    if text_width(words, SMALL_PX) <= width:
        return (words,)
    short = words.replace("ready about", "ready").replace("next filled", "fill").replace(" this year", "")
    return wrapped(short, width, size=SMALL_PX)


def _interval(words: str, width: float) -> Iterator[Words]:
    """Give the interval of a date: in brackets, or without and small, or on two lines, as the column allows."""
    if not words:
        return
    if text_width(f"({words})", SMALL_PX) <= width:
        yield Words(f"({words})")
    elif text_width(words, LEAST_PX) <= width:
        yield Words(words, LEAST_PX)
    else:
        first, joint, last = words.partition(" to ") if " to " in words else words.partition(" or ")
        yield Words(f"{first}{joint.rstrip()}", LEAST_PX)
        yield Words(last, LEAST_PX)


# Nothing there yet


def _bare(room: Room, key: str) -> str:
    """Return a board with the vessel that would stand there in thin half-strong lines."""
    ghost = OnShelf(
        vessel="",
        volume_l=20.0,
        width_m=0.279,
        height_m=0.327,
        below_grid_l=20.0 / 12.0,
        fill_limit_frac=0.9,
        has_drain=True,
        stands="",
        phase="empty",
        batch="",
        mass_kg=0.0,
        liquid_l=0.0,
        ready=None,
        layers=(),
    )
    px_per_m = 400.0
    foot = body_of(ghost).height_m * px_per_m + 6.0
    said = wrapped("Nothing on the shelf yet. Add the first vessel.", room.width)
    middle = RULE_PX + rim_px(ghost, px_per_m) / 2.0
    return drawing(
        (room.width, foot + BOARD_PX + 10.0 + len(said) * NAME_PX * 1.2),
        matter_patterns(key),
        group(section(ghost, (middle, foot), px_per_m=px_per_m, key=key), opacity=0.5),
        board((0.0, foot), (room.width, foot), width=BOARD_PX),
        lines_of_text((0.0, foot + BOARD_PX + 22.0), said),
        title="Nothing on the shelf yet",
        desc="An empty board. The table has the same data.",
        key=key,
    )
