"""Small signs that mean one thing on every page."""

from sourloam.draw.canvas import Point, element, line, number
from sourloam.draw.palette import PLANT


def sprout(foot: Point, *, height: float = 15.0) -> str:
    """Return a growing plant that stands on `foot`."""
    x, y = foot
    fork = y - height * 0.55
    wide, high = height * 0.5, height * 0.45
    leaves = "".join(_leaf((x, fork), side * wide, high) for side in (-1.0, 1.0))
    stem = line(foot, (x, fork), stroke=PLANT, width=1.8)
    return stem + element("path", d=leaves, fill=PLANT, stroke=PLANT, stroke_width=0.8, stroke_linejoin="round")


def _leaf(fork: Point, wide: float, high: float) -> str:
    upper = f"q{number(wide * 0.15)} {number(-high)} {number(wide)} {number(-high)}"
    lower = f"q{number(-wide * 0.1)} {number(high * 1.05)} {number(-wide)} {number(high)}z"
    return f"M{number(fork[0])} {number(fork[1])}{upper}{lower}"
