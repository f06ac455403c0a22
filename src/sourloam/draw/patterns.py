"""Patterns of matter: they, not the colours, tell soil from leaves and bran from liquid.

`pattern(kind, key)` is the definition, to be put once into a drawing; `filled(kind, key)` is the fill that uses it.
`key` is that of the drawing, since two drawings of a page must not share a name.
"""

from types import MappingProxyType
from typing import Final

from sourloam.draw.canvas import element
from sourloam.draw.palette import (
    BRAN_FILL,
    BRAN_LINE,
    EDGE,
    FROZEN,
    LEACHATE_FILL,
    LEACHATE_LINE,
    LEAVES_FILL,
    LEAVES_LINE,
    PAPER,
    SHEET,
    SOIL_FILL,
    SOIL_LINE,
)

# kind: tile width and height, ground ("none" where the paper shows), stroke, stroke width, path
KINDS: Final = MappingProxyType(
    {
        "bran": (
            14.0,
            12.0,
            BRAN_FILL,
            BRAN_LINE,
            1.2,
            "M1 2l3 1M8 1l-1 3M12 4l-3 1M3 7l1 3M9 8l3 1M6 11l-3 0M13 10l1 -2",
        ),
        "leachate": (16.0, 6.0, LEACHATE_FILL, LEACHATE_LINE, 1.1, "M0 3q4 -3 8 0t8 0"),
        "standing": (16.0, 16.0, "none", LEACHATE_LINE, 1.6, "M0 4q4 -3 8 0t8 0M0 12q4 -3 8 0t8 0"),
        "scraps": (10.0, 10.0, SHEET, EDGE, 0.9, "M1.5 1.5h.01M5 4h.01M2.5 7h.01M7.5 8h.01M8.5 1.8h.01"),
        "soil": (13.0, 11.0, SOIL_FILL, SOIL_LINE, 1.7, "M2 2h.01M8 4h.01M4 7h.01M11 9h.01M12 1h.01M7 10h.01"),
        "leaves": (13.0, 10.0, LEAVES_FILL, LEAVES_LINE, 1.2, "M2 8l3 -5M5 8l3 -5M9 5l2 -4"),
        "worms": (18.0, 13.0, SOIL_FILL, SOIL_LINE, 1.2, "M2 4c3 -4 4 3 7 0M10 10c2 -3 4 2 6 0"),
        "frozen": (9.0, 9.0, "none", FROZEN, 1.1, "M4.5 2v5M2 4.5h5"),
        "closed": (9.0, 9.0, "none", EDGE, 1.0, "M-1 10L10 -1M-2 2L2 -2M7 11L11 7"),
        "waiting": (6.0, 6.0, EDGE, PAPER, 1.6, "M3 -1V7"),
        "waiting-level": (6.0, 6.0, EDGE, PAPER, 1.6, "M-1 3H7"),
    }
)


def pattern(kind: str, key: str) -> str:
    """Return the definition of a pattern for the drawing `key`."""
    width, height, ground, stroke, stroke_width, d = KINDS[kind]
    laid = () if ground == "none" else (element("rect", width=width, height=height, fill=ground),)
    strokes = element("path", d=d, fill="none", stroke=stroke, stroke_width=stroke_width, stroke_linecap="round")
    return element(
        "pattern",
        *laid,
        strokes,
        id=f"{key}-{kind}",
        width=width,
        height=height,
        patternUnits="userSpaceOnUse",
    )


def patterns(kinds: tuple[str, ...], key: str) -> str:
    """Return the definitions of several patterns, as they stand at the head of a drawing."""
    return element("defs", *(pattern(each, key) for each in kinds))


def filled(kind: str, key: str) -> str:
    """Return the fill of a shape that has a pattern of the drawing `key`."""
    return f"url(#{key}-{kind})"
