"""A bed from above, to scale, with its rest counted down in strokes."""

import math
from collections.abc import Sequence
from typing import Final

from sourloam.draw.canvas import LEAST_PX, SMALL_PX, drawing, line, moves, path, rect, text
from sourloam.draw.palette import EDGE, INK, INK_2
from sourloam.draw.patterns import filled, patterns
from sourloam.plan.words import Speech, converted
from sourloam.views.ground import PlaceStand

WIDE_M: Final = 1.2  # how broad a bed is drawn, of which only the area is known: what an arm reaches from both sides
STROKE_PX, TALL_PX, SHORT_PX = 7.0, 16.0, 5.0
MOST_STROKES: Final = 42
EDGE_PX, FREE_PX = 1.6, 3.4


def bed_from_above(place: PlaceStand, *, px_per_m: float, width_px: float, speech: Speech, key: str) -> str:
    """Return a bed as seen from above; a heavy edge where it takes a batch today, strokes for days of rest."""
    area = place.area_m2 or 1.0
    broad = min(WIDE_M, math.sqrt(area))
    long_px = min(area / broad * px_per_m, width_px - 8.0)
    high_px = broad * px_per_m
    is_free = place.state == "free"
    strokes = _strokes(place, 12.0, high_px + 6.0 + TALL_PX + 12.0)
    bottom = high_px + 8.0 + (TALL_PX + 22.0 if place.left_d else 6.0)
    name, unit = ("ft", converted(1.0, "ft", "m")) if speech.is_us else ("m", 1.0)
    bar_y = bottom + 8.0
    bar = path(moves([((4.0, bar_y), (4.0 + unit * px_per_m, bar_y))]), stroke=EDGE)
    return drawing(
        (width_px, bar_y + 18.0),
        patterns(("soil",), key),
        rect(
            (4.0, 4.0), (long_px, high_px), fill=filled("soil", key), stroke=INK, width=FREE_PX if is_free else EDGE_PX
        ),
        strokes,
        bar,
        text((4.0, bar_y + 15.0), f"1 {name}", size=LEAST_PX, fill=INK_2),
        title=f"{place.name}: {place.says}",
        desc="From above, as broad as an arm reaches from both sides. One tall stroke: a day of rest that is left.",
        key=key,
    )


def _strokes(place: PlaceStand, left: float, foot: float) -> str:
    """Return a short tick for each day gone, a tall stroke for each day left; of very many, one for several."""
    whole = place.gone_d + place.left_d
    if not place.left_d:
        return ""
    each_d = max(1, math.ceil(whole / MOST_STROKES))
    marks: Sequence[tuple[float, float]] = [
        (left + at * STROKE_PX, SHORT_PX if at * each_d < place.gone_d else TALL_PX)
        for at in range(math.ceil(whole / each_d))
    ]
    drawn = "".join(line((x, foot), (x, foot - high), stroke=INK, width=2.0) for x, high in marks)
    says = "" if each_d == 1 else f"a stroke is {each_d} days"
    return drawn + (text((left + len(marks) * STROKE_PX + 6.0, foot), says, size=SMALL_PX, fill=INK_2) if says else "")
