"""A pile on one sheet: the warmth of its core as a fan with the lines of the rules, and its pH and water below."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.draw.canvas import (
    LEVEL_PX,
    SMALL_PX,
    Point,
    arrow,
    axis,
    band,
    line,
    polyline,
    rect,
    text,
    text_on_paper,
    text_width,
)
from sourloam.draw.palette import FAN_INNER, FAN_OUTER, INK, INK_2, SHEET
from sourloam.draw.scale import LengthScale, ticks
from sourloam.draw.two_sizes import Part, caption, heading, sheet
from sourloam.plan.words import converted
from sourloam.science.places.pile.answer import Answer
from sourloam.science.places.pile.sanitation import Logged
from sourloam.views.place import PlaceView

LEFT_PX: Final = 46.0
RULE_C, SOUR_C = 55.0, 40.0
WIDE_HIGH_PX, TALL_HIGH_PX = 300.0, 250.0
WIDE_FROM_PX: Final = 500.0
DAY_TICK_PX: Final = 70.0


def pile_sheet(answer: Answer, view: PlaceView, readings: Sequence[Logged] = ()) -> str:
    """Return the sheet as a file of its own."""
    says, _, rest = view.says.partition(". ")
    parts: tuple[Part, ...] = (
        heading(f"{view.name}, {answer.figures['volume_l'].value:.0f} L", f"{says.rstrip('.')}.", rest),
        _warmth(answer, view, readings),
        _small(answer, "ph", "pH of its core", ends=(4.0, 8.0), limit=(6.0, "6")),
        _small(answer, "oxygen_pct", "Oxygen in its pores, %", ends=(0.0, 21.0), limit=(5.0, "turn it")),
    )
    return sheet(parts, title=view.says, desc="The warmth of a pile, day by day; nine in ten lie in the grey.")


def _days(answer: Answer, width: float) -> tuple[LengthScale, list[tuple[float, str]]]:
    last = answer.course.day[-1]
    scale = LengthScale(0.0, last, LEFT_PX, width - 6.0)
    marks = ticks(0.0, last, most=max(int(width / DAY_TICK_PX), 2))
    return scale, [(scale.at(each), f"{each:g}") for each in marks]


def _points(scale: LengthScale, up: LengthScale, days: Sequence[float], values: FloatArray) -> list[Point]:
    return [(scale.at(day), up.at(float(value))) for day, value in zip(days, values, strict=True)]


def _warmth(answer: Answer, view: PlaceView, readings: Sequence[Logged]) -> Part:
    """Return the fan of the core, the middle of the edge, the lines of the rules, turnings and readings."""
    unit = "°F" if view.speech.is_us else "°C"

    def spoken(celsius: FloatArray | float) -> FloatArray:
        return np.asarray(celsius) * (converted(1.0, "°C", unit) - converted(0.0, "°C", unit)) + converted(
            0.0, "°C", unit
        )

    def drawn(top: float, width: float) -> tuple[str, float]:
        title = text((0.0, top), f"Core of the pile, {unit}", bold=True)
        high = WIDE_HIGH_PX if width > WIDE_FROM_PX else TALL_HIGH_PX
        upper, lower = top + 18.0, top + 18.0 + high
        days, marks = _days(answer, width)
        low_c = min(0.0, float(np.quantile(answer.edge_c, 0.05)))
        up = LengthScale(float(spoken(low_c)), float(spoken(80.0)), lower, upper)
        course = answer.course.day
        q05, q25, q50, q75, q95 = (
            spoken(np.quantile(answer.core_c, each, axis=1)) for each in (0.05, 0.25, 0.5, 0.75, 0.95)
        )
        lines = [_points(days, up, course, each) for each in (q05, q25, q50, q75, q95)]
        edge = _points(days, up, course, spoken(np.median(answer.edge_c, axis=1)))
        svg = [
            title,
            rect((LEFT_PX, upper), (days.end_px - LEFT_PX, high), fill=SHEET),
            rect(
                (LEFT_PX, up.at(float(spoken(70.0)))),
                (days.end_px - LEFT_PX, up.at(float(spoken(55.0))) - up.at(float(spoken(70.0)))),
                fill="none",
                stroke=INK_2,
                dash="1 4",
            ),
            band(lines[0], lines[4], fill=FAN_OUTER),
            band(lines[1], lines[3], fill=FAN_INNER, edge=None),
            polyline(lines[2], width=2.4),
            polyline(edge, width=LEVEL_PX, dash="2 4"),
        ]
        degrees = [float(spoken(each)) for each in (0.0, 20.0, 40.0, 60.0, 80.0)]
        svg.append(axis((LEFT_PX, lower), (LEFT_PX, upper), [(up.at(each), f"{each:.0f}") for each in degrees]))
        svg.append(axis((LEFT_PX, lower), (days.end_px, lower), marks))
        for celsius, words in ((RULE_C, "rules ask for this"), (SOUR_C, "slowed above this while sour")):
            y = up.at(float(spoken(celsius)))
            svg.append(line((LEFT_PX, y), (days.end_px, y), width=1.2, dash="7 4"))
            said = f"{float(spoken(celsius)):.0f}: {words}"
            if width > WIDE_FROM_PX:
                svg.append(text_on_paper((days.end_px - 4.0, y - 5.0), said, size=SMALL_PX, anchor="end"))
        svg += [arrow((days.at(each), lower + 40.0), (days.at(each), lower + 26.0)) for each in answer.course.turned]
        svg += [
            _square(days.at(each.hour / 24.0), up.at(float(spoken(each.temperature_c))))
            for each in readings
            if each.zone == "core"
        ]
        y = lower + 54.0
        told, end = caption(_key(answer, readings), y, width)
        return "".join(svg) + told, end

    return drawn


def _square(x: float, y: float) -> str:
    return rect((x - 6.0, y - 6.0), (12.0, 12.0), fill=SHEET, stroke=INK, width=2.0)


def _key(answer: Answer, readings: Sequence[Logged]) -> str:
    turned = " Arrows: turn it." if answer.course.turned else ""
    read = " Squares: what you read off." if readings else ""
    return (
        "Days from building it. Thick line: the middle case; nine in ten lie in the grey, half in the darker. Dotted: "
        "its edge. Dashed: 55 °C, and the dotted box, which rules ask for; 40 °C, above which it is slowed while sour."
        f"{turned}{read} A forecast meets no rule; only readings do."
    )


def _small(answer: Answer, name: str, title: str, *, ends: tuple[float, float], limit: tuple[float, str]) -> Part:
    """Return a low chart of something else, with one limit."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        upper, lower = top + 16.0, top + 96.0
        days, marks = _days(answer, width)
        up = LengthScale(*ends, lower, upper)
        table = np.clip(answer.course.table(name), *ends)
        low, middle, high = (
            _points(days, up, answer.course.day, np.quantile(table, each, axis=1)) for each in (0.05, 0.5, 0.95)
        )
        y = up.at(limit[0])
        svg = (
            text((0.0, top), title, bold=True),
            text((text_width(title) + 16.0, top), f"dashed: {limit[1]}", size=SMALL_PX, fill=INK_2),
            band(low, high, fill=FAN_OUTER),
            polyline(middle, width=2.0),
            line((LEFT_PX, y), (days.end_px, y), width=1.2, dash="7 4"),
            axis((LEFT_PX, lower), (LEFT_PX, upper), [(up.at(each), f"{each:g}") for each in ends]),
            axis((LEFT_PX, lower), (days.end_px, lower), marks),
        )
        return "".join(svg), lower + 24.0

    return drawn
