"""Twenty small buckets on two boards: how a vessel that reads so turns out, as counts and never as a share alone."""

from typing import Final

from sourloam.draw.canvas import SMALL_PX, Point, board, circle, line, lines_of_text, path, polygon, wrapped
from sourloam.draw.palette import INK, INK_2, PAPER, SHEET

A_BOARD: Final = 10
HIGH_PX, WIDE_PX, FOOT_TIMES = 34.0, 28.0, 0.78
BOARD_PX: Final = 5.0
BETWEEN_PX: Final = 18.0


def twenty(counts: tuple[tuple[str, int], ...], words: str, at: Point, width: float) -> tuple[str, float]:
    """Return the buckets, the most of a kind first, their counts in words below, and where that ends."""
    states = [state for state, count in counts for _ in range(count)]
    left, y = at
    pitch = min(width / A_BOARD, 52.0)
    drawn = []
    for start in range(0, len(states), A_BOARD):
        foot = y + HIGH_PX
        for place, state in enumerate(states[start : start + A_BOARD]):
            drawn.append(bucket(state, (left + pitch * (place + 0.5), foot)))
        drawn.append(board((left, foot), (left + pitch * A_BOARD, foot), width=BOARD_PX))
        y = foot + BOARD_PX + BETWEEN_PX
    told = ", ".join(f"{count} {state}" for state, count in counts)
    lines = wrapped(f"{words}: {told}.", width, size=SMALL_PX, most=3)
    drawn.append(lines_of_text((left, y + 2.0), lines, size=SMALL_PX, fill=INK_2))
    return "".join(drawn), y + SMALL_PX * 1.2 * (len(lines) - 1) + 4.0


def bucket(state: str, foot: Point) -> str:
    """Return one bucket: clear, with waves, solid, with spots, with bubbles, or with a thick line halfway."""
    x, y = foot
    wide, low = WIDE_PX / 2.0, WIDE_PX * FOOT_TIMES / 2.0
    fill = INK if state == "putrid" else SHEET
    body = polygon(
        [(x - wide, y - HIGH_PX), (x + wide, y - HIGH_PX), (x + low, y), (x - low, y)], fill=fill, stroke=INK, width=1.6
    )
    return body + _inside(state, foot)


def _inside(state: str, foot: Point) -> str:
    x, y = foot
    if state == "drowned":
        waves = "".join(_wave(x, y - step) for step in (6.0, 13.0, 20.0))
        return path(waves, width=1.6)
    if state == "mouldy":
        spots = ((-8.0, 26.0), (-1.0, 29.0), (7.0, 25.0), (-5.0, 20.0), (4.0, 19.0))
        return "".join(circle((x + dx, y - up), 2.2) for dx, up in spots)
    if state == "yeasty":
        bubbles = ((-6.0, 8.0), (3.0, 12.0), (-2.0, 19.0), (6.0, 22.0), (-7.0, 25.0))
        return "".join(circle((x + dx, y - up), 2.6, fill=PAPER, stroke=INK, width=1.2) for dx, up in bubbles)
    if state == "stuck":
        half = HIGH_PX / 2.0
        return line((x - 11.0, y - half), (x + 11.0, y - half), width=4.0)
    return ""


def _wave(x: float, y: float) -> str:
    return f"M{x - 9.0:.1f} {y:.1f}q4.5 -4 9 0t9 0"
