"""Small pieces of SVG: elements, words, lines, marks, bands, bars, axes. Pure strings, no library.

A piece is a `str` that is already escaped; put pieces together with `group` or `+` and close with `drawing`.
Points are `(x, y)` in pixels, y down. Colours come from `palette`, places along a line from `scale`.
Every word carries its own `font-size`, so that a test can measure it.
"""

from collections.abc import Iterable, Sequence
from html import escape
from typing import Final

from sourloam.draw.palette import BOARD, EDGE, HAIR, INK, INK_2, PAPER

Point = tuple[float, float]

NAME_PX, TEXT_PX, SMALL_PX, LEAST_PX = 15.0, 15.0, 14.0, 13.0
SHORT_WORD: Final = 3
EM_FRAC: Final = 0.56  # width of a usual letter in parts of its size
WALL_PX, LEVEL_PX, MARK_PX, LEADER_PX, GRID_PX = 2.4, 1.6, 2.0, 1.0, 1.0


def element(name: str, *inside: str, **attributes: object) -> str:
    """Return an element: `_` is `-` in a name, nothing at its end (`class_`); None is left out, values are escaped."""
    given = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(_value(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{given}>{''.join(inside)}</{name}>" if inside else f"<{name}{given}/>"


def drawing(size: tuple[float, float], *inside: str, title: str, desc: str, key: str) -> str:
    """Return a whole drawing of (width, height). `title` says the finding; `key` is unlike all others in the page."""
    width, height = size
    return element(
        "svg",
        element("title", escape(title), id=f"{key}-title"),
        element("desc", escape(desc), id=f"{key}-desc"),
        *inside,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=width,
        height=height,
        role="img",
        aria_labelledby=f"{key}-title",
        aria_describedby=f"{key}-desc",
        class_="drawing",
    )


def group(*inside: str, title: str | None = None, **attributes: object) -> str:
    """Return pieces as one, with a title of their own where a name was cut."""
    named = (element("title", escape(title)),) if title else ()
    return element("g", *named, *inside, **attributes) if inside else ""


# Words


def text(
    at: Point, words: str, *, size: float = TEXT_PX, anchor: str = "start", fill: str = INK, bold: bool = False
) -> str:
    """Return one line of words; `at` is on its base line, at its start, middle or end as `anchor` says."""
    return element(
        "text",
        escape(words, quote=False),
        x=at[0],
        y=at[1],
        font_size=size,
        text_anchor=None if anchor == "start" else anchor,
        font_weight=700 if bold else None,
        fill=fill,
    )


def text_on_paper(
    at: Point, words: str, *, size: float = TEXT_PX, anchor: str = "start", fill: str = INK, bold: bool = False
) -> str:
    """Return one line of words with paper behind it, for words that a line or a pattern would run through."""
    width = text_width(words, size)
    left = at[0] - {"start": 0.0, "middle": width / 2.0, "end": width}[anchor]
    back = rect((left - 2.0, at[1] - size * 0.85), (width + 4.0, size * 1.12), fill=PAPER)
    return back + text(at, words, size=size, anchor=anchor, fill=fill, bold=bold)


def lines_of_text(
    at: Point,
    lines: Sequence[str],
    *,
    size: float = TEXT_PX,
    anchor: str = "start",
    fill: str = INK,
    bold: bool = False,
) -> str:
    """Return words on several lines, the first on the base line of `at`."""
    leading = size * 1.2
    return "".join(
        text((at[0], at[1] + row * leading), words, size=size, anchor=anchor, fill=fill, bold=bold)
        for row, words in enumerate(lines)
    )


def text_width(words: str, size: float = TEXT_PX) -> float:
    """Return about how wide words are; there is no font here to measure."""
    return len(words) * size * EM_FRAC


def wrapped(words: str, width: float, *, size: float = TEXT_PX, most: int = 2) -> tuple[str, ...]:
    """Return words on at most `most` lines, broken at spaces and hyphens; what is too long gets an ellipsis."""
    letters = max(int(width / (size * EM_FRAC)), 2)
    lines: list[str] = []
    for piece in _pieces(words):
        if lines and len((lines[-1] + piece).rstrip()) <= letters:
            lines[-1] += piece
        else:
            lines.append(piece)
    kept = [each.strip() for each in lines]
    if len(kept) > most:
        kept = [*kept[: most - 1], kept[most - 1] + " " + " ".join(kept[most:])]
    return tuple(_cut(each, letters) for each in kept)


def is_cut(lines: Sequence[str]) -> bool:
    """Whether wrapped words lost some of their letters."""
    return any("…" in each for each in lines)


# Lines and shapes


def line(
    start: Point,
    end: Point,
    *,
    stroke: str = INK,
    width: float = LEADER_PX,
    dash: str | None = None,
    cap: str | None = None,
) -> str:
    """Return a straight line."""
    return element(
        "line",
        x1=start[0],
        y1=start[1],
        x2=end[0],
        y2=end[1],
        stroke=stroke,
        stroke_width=width,
        stroke_linecap=cap,
        stroke_dasharray=dash,
    )


def polyline(points: Iterable[Point], *, stroke: str = INK, width: float = LEVEL_PX, dash: str | None = None) -> str:
    """Return a line through points."""
    return element(
        "polyline",
        points=_points(points),
        fill="none",
        stroke=stroke,
        stroke_width=width,
        stroke_dasharray=dash,
        stroke_linejoin="round",
    )


def polygon(points: Iterable[Point], *, fill: str, stroke: str | None = None, width: float = LEADER_PX) -> str:
    """Return a filled shape."""
    return element(
        "polygon",
        points=_points(points),
        fill=fill,
        stroke=stroke,
        stroke_width=width if stroke else None,
        stroke_linejoin="round" if stroke else None,
    )


def rect(
    at: Point,
    size: tuple[float, float],
    *,
    fill: str,
    stroke: str | None = None,
    width: float = LEADER_PX,
    dash: str | None = None,
) -> str:
    """Return a box; `at` is its upper left corner."""
    return element(
        "rect",
        x=at[0],
        y=at[1],
        width=max(size[0], 0.0),
        height=max(size[1], 0.0),
        fill=fill,
        stroke=stroke,
        stroke_width=width if stroke else None,
        stroke_dasharray=dash,
    )


def path(
    d: str, *, stroke: str | None = INK, width: float = LEADER_PX, fill: str = "none", dash: str | None = None
) -> str:
    """Return a path of SVG's own path words; make them with `moves`."""
    return element(
        "path",
        d=d,
        fill=fill,
        stroke=stroke,
        stroke_width=width if stroke else None,
        stroke_dasharray=dash,
    )


def moves(pairs: Iterable[tuple[Point, Point]]) -> str:
    """Return many separate strokes as the words of one path, which is far smaller than as many lines."""
    return "".join(
        f"M{number(x1)} {number(y1)}" + (f"V{number(y2)}" if x1 == x2 else f"L{number(x2)} {number(y2)}")
        for (x1, y1), (x2, y2) in pairs
    )


def circle(at: Point, radius: float, *, fill: str = INK, stroke: str | None = None, width: float = LEADER_PX) -> str:
    """Return a filled circle."""
    return element(
        "circle", cx=at[0], cy=at[1], r=radius, fill=fill, stroke=stroke, stroke_width=width if stroke else None
    )


# Marks


def board(start: Point, end: Point, *, width: float = 3.0) -> str:
    """Return the board on which things stand; its upper edge runs from `start` to `end`, level or upright."""
    half = width / 2.0
    shift = (0.0, half) if start[1] == end[1] else (-half, 0.0)
    return line(
        (start[0] + shift[0], start[1] + shift[1]), (end[0] + shift[0], end[1] + shift[1]), stroke=BOARD, width=width
    )


def disc(at: Point, words: str, *, radius: float = 10.0, size: float = SMALL_PX) -> str:
    """Return a number or letter in a ring on paper; it may lie on a pattern."""
    return circle(at, radius, fill=PAPER, stroke=INK, width=1.3) + text(
        (at[0], at[1] + size * 0.36), words, size=size, anchor="middle"
    )


def interval(start: Point, end: Point, *, middle: float | None = None, open_end: bool = False) -> str:
    """Return a level or upright bar with end ticks from low to high and a dot at `middle` along it.

    Without a `middle` it has no dot, with an `open_end` no second tick: the drawing ends before it does.
    """
    level = start[1] == end[1]
    ends = (start,) if open_end else (start, end)
    tick = [((x, y - 3.5), (x, y + 3.5)) if level else ((x - 3.5, y), (x + 3.5, y)) for x, y in ends]
    dot = "" if middle is None else circle((middle, start[1]) if level else (start[0], middle), 2.7)
    return path(moves([(start, end), *tick]), width=1.4) + dot


def arrow(start: Point, end: Point, *, stroke: str = INK) -> str:
    """Return a thin level or upright arrow."""
    (x1, y1), (x2, y2) = start, end
    if x1 == x2:
        back = -3.5 if y2 > y1 else 3.5
        head = f"M{number(x2 - 3)} {number(y2 + back)}L{number(x2)} {number(y2)}L{number(x2 + 3)} {number(y2 + back)}"
    else:
        back = -3.5 if x2 > x1 else 3.5
        head = f"M{number(x2 + back)} {number(y2 - 3)}L{number(x2)} {number(y2)}L{number(x2 + back)} {number(y2 + 3)}"
    return path(moves([(start, end)]) + head, stroke=stroke, width=1.3)


def band(low: Sequence[Point], high: Sequence[Point], *, fill: str, edge: str | None = EDGE, width: float = 1.0) -> str:
    """Return the area between two lines that run the same way, with its outline."""
    return polygon([*low, *reversed(high)], fill=fill, stroke=edge, width=width)


def steps(points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the corners of a stair through points: each height holds until the next point."""
    corners: list[Point] = []
    for x, y in points:
        if corners:
            corners.append((x, corners[-1][1]))
        corners.append((x, y))
    return tuple(corners)


def bars(boxes: Iterable[tuple[float, float]], *, base: float, width: float, fill: str = INK) -> str:
    """Return upright bars from `base`; each box is (left edge, top)."""
    return "".join(rect((x, top), (width, base - top), fill=fill) for x, top in boxes if base > top)


def axis(
    start: Point,
    end: Point,
    marks: Iterable[tuple[float, str]],
    *,
    size: float = SMALL_PX,
    gridded_to: float | None = None,
) -> str:
    """Return a level (words below) or upright (words left) axis; each mark is (where along it, words or none).

    With `gridded_to` a thin line runs from each mark to that height, or to that x.
    """
    level = start[1] == end[1]
    pieces = [line(start, end, width=LEADER_PX)]
    for where, words in marks:
        at = (where, start[1]) if level else (start[0], where)
        if gridded_to is not None:
            pieces.append(line(at, (where, gridded_to) if level else (gridded_to, where), stroke=HAIR, width=GRID_PX))
        out = (where, start[1] + 5.0) if level else (start[0] - 5.0, where)
        pieces.append(line(at, out))
        if not words:
            continue
        place = (where, start[1] + 7.0 + size) if level else (start[0] - 8.0, where + size * 0.36)
        pieces.append(text(place, words, size=size, anchor="middle" if level else "end", fill=INK_2))
    return "".join(pieces)


def number(value: float) -> str:
    """Return a number of pixels, to a hundredth at most."""
    return f"{value:.2f}".rstrip("0").rstrip(".") if value % 1 else f"{value:.0f}"


def _value(value: object) -> str:
    return number(value) if isinstance(value, float) else str(value)


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)


def _cut(words: str, letters: int) -> str:
    """Return words cut to a number of letters; a short last word stays, since it may be the number of a vessel."""
    if len(words) <= letters:
        return words
    last = words.rpartition(" ")[2]
    tail = f"… {last}" if len(last) <= SHORT_WORD and len(last) + 4 <= letters else "…"
    return words[: letters - len(tail)].rstrip(" -") + tail


def _pieces(words: str) -> list[str]:
    """Return words cut where a line may break, each piece with the space or hyphen at its end."""
    found: list[str] = []
    for word in words.split(" "):  # not at a no-break space
        parts = word.split("-")
        found += [f"{part}-" for part in parts[:-1]]
        found.append(f"{parts[-1]} ")
    return found
