"""A feed of worms on one sheet: what each limit allows as bars on one scale, and the bed from above with its corner."""

import re
from math import log10
from typing import Final

from sourloam.draw.canvas import (
    MARK_PX,
    SMALL_PX,
    axis,
    interval,
    line,
    rect,
    text,
    text_on_paper,
    wrapped,
)
from sourloam.draw.palette import AIR, HAIR, INK, INK_2, SOIL_FILL
from sourloam.draw.scale import LengthScale
from sourloam.draw.two_sizes import Part, caption, heading, sheet
from sourloam.science.places.worm_bin.feed import LIMITS
from sourloam.views.place import Decision, PlaceView
from sourloam.views.reason import Number

ROW_PX, WIDE_FROM_PX = 44.0, 500.0
DECADES: Final = (0.01, 0.1, 1.0, 10.0)  # kg
BED_PX: Final = 170.0
CORNER_SIDE: Final = 0.1**0.5


def worms_sheet(view: PlaceView) -> str:
    """Return the sheet as a file of its own."""
    says, _, rest = view.says.partition(". ")
    parts: list[Part] = [
        heading(view.name, f"{says[0].upper()}{says[1:].rstrip('.')}.", " ".join((rest, *view.because)).strip())
    ]
    parts += [_limits(view), _bed(view)] if view.decision is Decision.YES else [_bed(view)]
    return sheet(tuple(parts), title=view.says, desc="What each limit allows of a feed, and where it is laid.")


def _limits(view: PlaceView) -> Part:
    """Return the bar of each limit, the tightest first, on one scale of tens."""
    held = [(name, view.reasons[f"by_{name}"].number) for name in LIMITS if f"by_{name}" in view.reasons]
    rows = sorted(
        ((name, each) for name, each in held if (each.value or 0.0) < 100.0), key=lambda row: row[1].value or 0.0
    )

    def drawn(top: float, width: float) -> tuple[str, float]:
        scale = LengthScale(-2.0, 1.3, 4.0, width - 12.0)
        svg = [text((0.0, top), "What each limit allows, kg", bold=True)]
        y = top + 26.0
        first = y - 12.0
        for name, each in rows:
            words = wrapped(re.split("[:,]", LIMITS[name])[0], width, size=SMALL_PX, most=1)[0]
            svg.append(text_on_paper((0.0, y), words, size=SMALL_PX))
            svg.append(_bar(scale, each, y + 14.0))
            y += ROW_PX
        marks = [(scale.at(float(power)), f"{value:g}") for power, value in zip((-2, -1, 0, 1), DECADES, strict=True)]
        svg.append(axis((4.0, y), (width - 6.0, y), marks))
        svg += [line((x, first), (x, y), stroke=HAIR) for x, _ in marks]
        told, end = caption(
            "A scale of tens. Nine in ten lie between the ends, the dot is the middle. The top one sets the ration.",
            y + 40.0,
            width,
        )
        return "".join([*svg[:1], *svg[-len(marks) :], *svg[1 : -len(marks)]]) + told, end

    return drawn


def _bar(scale: LengthScale, number: Number, y: float) -> str:
    def at(value: float | None) -> float:
        return min(max(scale.at(log10(max(value or 0.0, 1e-3))), scale.start_px), scale.end_px)

    return interval((at(number.low), y), (at(number.high), y), middle=at(number.value))


def _bed(view: PlaceView) -> Part:
    """Return the bed from above: the corner that is fed, and what is left cool."""
    feeds = view.decision is Decision.YES

    def drawn(top: float, width: float) -> tuple[str, float]:
        upper = top + 14.0
        side = BED_PX * CORNER_SIDE
        svg = [
            text((0.0, top), "The bed from above", bold=True),
            rect((1.0, upper), (BED_PX, BED_PX), fill=SOIL_FILL, stroke=INK, width=MARK_PX),
        ]
        if feeds:
            svg.append(rect((1.0, upper), (side, side), fill=AIR, stroke=INK, width=MARK_PX))
            svg.append(line((side, upper + side / 2.0), (BED_PX + 14.0, upper + side / 2.0)))
        words = (
            ("fed now: a tenth, 3 to 5 cm deep", "the rest stays cool, a way out")
            if feeds
            else ("nothing is laid on it now",)
        )
        x = BED_PX + 18.0
        room = width - x
        y = upper + side / 2.0 + 5.0
        for each in words:
            for piece in wrapped(each, room, size=SMALL_PX, most=4):
                svg.append(text((x, y), piece, size=SMALL_PX, fill=INK_2))
                y += 18.0
            y += 10.0
        return "".join(svg), upper + BED_PX

    return drawn
