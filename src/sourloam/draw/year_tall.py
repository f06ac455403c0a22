"""The year for a phone: time runs down, a column for each vessel and place, as many drawings as the columns need."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from sourloam.base.days import MONTHS as MONTH_NAMES
from sourloam.draw.canvas import disc, drawing, line, lines_of_text, text
from sourloam.draw.palette import HAIR, INK_2
from sourloam.draw.patterns import patterns
from sourloam.draw.scale import TimeScale, months
from sourloam.draw.year import described, finding, places
from sourloam.draw.year_columns import HEAD_PX, SIZE, Column, column_drawn, columns, head_lines, shut_columns
from sourloam.draw.year_key import Laid, flowed, marked, said, year_key
from sourloam.views.plan import PlanView

WIDTH: Final = 354.0  # a phone of 390 with its margins
LEFT: Final = 54.0
MONTH_PX: Final = 67.0
MOST_COLUMNS: Final = 8
BRAN_WIDER_PX: Final = 34.0


@dataclass(frozen=True)
class Leaf:
    """One drawing of the year: some of its columns, and whether it is the first, which holds the key."""

    columns: tuple[Column, ...]
    key: str
    is_first: bool


def year_tall(view: PlanView, *, today: date | None = None, key: str = "year-tall") -> str:
    """Return the year, 354 wide, as one or more drawings to be put below one another."""
    leaves = _leaves(columns(view), key)
    return "".join(_drawn(view, each, today) for each in leaves)


def _leaves(found: Sequence[Column], key: str) -> list[Leaf]:
    """Return the columns on as few drawings as hold them; the bran goes to the last that has room."""
    bran = [each for each in found if each.kind == "bran"]
    packed: list[list[Column]] = []
    for kinds in (("stall", "vessel"), ("place",)):
        packed += _packed([each for each in found if each.kind in kinds])
    if len(packed) > 1 and _fits([each for group in packed for each in group]):
        packed = [[each for group in packed for each in group]]
    for each in bran:
        group = next((group for group in reversed(packed) if _fits([*group, each])), None)
        if group is None:
            packed.append([each])
        else:
            group.append(each)
    return [Leaf(tuple(_spread(each)), f"{key}-{at}", at == 1) for at, each in enumerate(packed, 1)]


def _packed(found: Sequence[Column]) -> list[list[Column]]:
    packed: list[list[Column]] = []
    for each in found:
        if not packed or not _fits([*packed[-1], each]):
            packed.append([])
        packed[-1].append(each)
    return packed


def _fits(found: Sequence[Column]) -> bool:
    return len(found) <= MOST_COLUMNS and LEFT + sum(each.width for each in found) <= WIDTH


def _spread(found: Sequence[Column]) -> list[Column]:
    """Return columns side by side over the whole width, the bran first, which has words."""
    spare = WIDTH - LEFT - sum(each.width for each in found)
    wider = min(BRAN_WIDER_PX, spare) if any(each.kind == "bran" for each in found) else 0.0
    grow = min((spare - wider) / len(found), 40.0)
    placed = []
    x = LEFT
    for each in found:
        width = each.width + grow + (wider if each.kind == "bran" else 0.0)
        placed.append(replace(each, x=x, width=width))
        x += width
    return placed


def _drawn(view: PlanView, leaf: Leaf, today: date | None) -> str:
    key = _key(view, leaf)
    heads = _heads(leaf, key.bottom + 12.0)
    count = sum(1 for _ in months(view.first, view.last))
    days = (view.last - view.first).days + 1
    time = TimeScale(view.first, view.last, heads.bottom, heads.bottom + days * MONTH_PX / 30.4)
    body = shut_columns(view, leaf.columns, time, key=leaf.key)
    body += "".join(column_drawn(view, each, time, today, key=leaf.key) for each in leaf.columns)
    words = _margin(view, leaf, time, today)
    kinds = ("waiting", "waiting-level", "bran", "frozen", "closed")
    part = "" if leaf.is_first else f" Part {leaf.key.rpartition('-')[2]}, {count} months."
    return drawing(
        (WIDTH, time.end_px + 10.0),
        patterns(kinds, leaf.key),
        key.svg,
        words,
        heads.svg,
        body,
        title=finding(view) if leaf.is_first else f"The same year: {', '.join(each.name for each in leaf.columns)}",
        desc=described(view) + part,
        key=leaf.key,
    )


def _key(view: PlanView, leaf: Leaf) -> Laid:
    """Return the key of the first drawing; and in every one, what its numbers and letters stand for."""
    shown = places(view)
    laid = (
        year_key((0.0, 0.0), WIDTH, shown, key=leaf.key, size=SIZE, with_arrow=False)
        if leaf.is_first
        else Laid("", 0.0)
    )
    named = [marked(each.mark, each.name) for each in leaf.columns if each.kind == "vessel" and each.mark]
    here = {each.id: bool(head_lines(each)) for each in leaf.columns if each.kind == "place"}
    discs = any(each.kind == "vessel" for each in leaf.columns)
    listed_here = [marked(each.mark, each.name) for each in shown if not here.get(each.id, not discs)]
    named += [said("placed in"), *listed_here] if discs and listed_here else listed_here
    listed = flowed(named, (0.0, laid.bottom + (10.0 if leaf.is_first else 0.0)), WIDTH, size=SIZE)
    return Laid(laid.svg + listed.svg, listed.bottom if named else laid.bottom)


def _heads(leaf: Leaf, top: float) -> Laid:
    """Return what stands over each column: its mark, its name, a second word."""
    heads = {each: head_lines(each) for each in leaf.columns}
    high = (16.0 * (len(lines) + bool(each.second)) + (24.0 if each.mark else 0.0) for each, lines in heads.items())
    bottom = top + max(high)
    drawn = []
    for each, lines in heads.items():
        y = bottom - 16.0 * (len(lines) + bool(each.second))
        if each.mark:
            drawn.append(disc((each.base, y - 11.0), each.mark, radius=9.5))
        x = each.x + 2.0 if each.kind == "vessel" else each.base - (9.0 if each.mark else 2.0)
        drawn.append(lines_of_text((x, y + 10.0), lines, size=HEAD_PX, bold=True))
        if each.second:
            drawn.append(text((x, bottom - 6.0), each.second, size=HEAD_PX, fill=INK_2))
    return Laid("".join(drawn), bottom + (24.0 if any(each.kind == "bran" for each in leaf.columns) else 8.0))


def _margin(view: PlanView, leaf: Leaf, time: TimeScale, today: date | None) -> str:
    """Return the months at the left with a thin line across, and between them the words of what crosses all columns."""
    drawn = []
    taken: list[float] = []
    for each in months(view.first, view.last):
        start, end = time.at(each.first), time.past(each.last)
        drawn.append(line((0.0, start), (WIDTH, start), stroke=HAIR))
        if end - start >= 20.0:
            taken.append(start + 16.0)
            drawn.append(text((0.0, start + 16.0), MONTH_NAMES[each.first.month - 1], size=15.0))
        if end - start >= 38.0 and (each.first.month == 1 or each.first == view.first):
            taken.append(start + 33.0)
            drawn.append(text((0.0, start + 33.0), str(each.first.year), size=SIZE, bold=True))
    drawn.append(line((0.0, time.end_px), (WIDTH, time.end_px), stroke=HAIR))
    if today is not None and time.holds(today):
        y = time.at(today)
        drawn.append(line((LEFT - 6.0, y), (WIDTH, y), width=1.6))
        drawn.append(_event("today", y + 5.0, taken, time))
    if any(each.kind == "place" and each.is_bed for each in leaf.columns):
        spans = [(each, "frozen") for each in view.frozen] + [(each, "closed") for each in view.closed]
        for span, word in sorted(spans, key=lambda each: -each[0].days):
            drawn.append(_event(word, (time.at(span.first) + time.past(span.last)) / 2.0 + 5.0, taken, time))
    return "".join(drawn)


def _event(word: str, wanted: float, taken: list[float], time: TimeScale) -> str:
    """Return a word at the left, as near to its height as the words that are there let it; nothing if that is far."""
    offsets = sorted(range(-24, 25, 2), key=abs)
    free = (
        wanted + each
        for each in offsets
        if all(abs(wanted + each - other) >= SIZE * 1.2 for other in taken)
        and time.start_px + SIZE <= wanted + each <= time.end_px
    )
    y = next(free, None)
    if y is None:
        return ""
    taken.append(y)
    return text((0.0, y), word, size=SIZE, bold=True)
