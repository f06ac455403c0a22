"""How much lives in each link: bars on a scale of tens, with the line from which bran works."""

from collections.abc import Sequence
from typing import Final

from sourloam.draw.canvas import LEAST_PX, SMALL_PX, drawing, group, interval, line, text
from sourloam.draw.palette import HAIR, INK_2
from sourloam.draw.scale import NO_BREAK, LengthScale
from sourloam.views.culture import Link
from sourloam.views.reason import Number

ROW_PX: Final = 34.0
HEAD_PX: Final = 26.0
LOW, HIGH = 3.0, 10.0
NARROW_PX: Final = 500.0
MARKS: Final = ((3, "1000"), (6, "a million"), (9, "1000 million"))


def counts(links: Sequence[Link], *, works: Number | None, width_px: float, key: str) -> str:
    """Return the bars of all links of which something is known."""
    shown = [each for each in links if each.log10 is not None and each.log10.value is not None]
    left = 118.0
    scale = LengthScale(LOW, HIGH, left, width_px - 14.0)
    high = HEAD_PX + ROW_PX * len(shown) + 24.0
    bottom = high - 24.0
    pieces = []
    for at, words in MARKS:
        x = scale.at(float(at))
        anchor = "end" if at == MARKS[-1][0] and width_px < NARROW_PX else "middle" if at != MARKS[0][0] else "start"
        pieces.append(line((x, HEAD_PX - 4.0), (x, bottom), stroke=HAIR))
        if width_px < NARROW_PX and at == MARKS[1][0]:
            continue  # no room for its words; the line stays
        pieces.append(text((x, bottom + 18.0), words.replace(" ", NO_BREAK), size=LEAST_PX, anchor=anchor, fill=INK_2))
    if works is not None and works.value is not None:
        x = scale.at(works.value)
        pieces.append(line((x, HEAD_PX - 8.0), (x, bottom), dash="5 3", width=1.4))
        pieces.append(text((x, HEAD_PX - 12.0), "bran works from here", size=LEAST_PX, anchor="middle", fill=INK_2))
    for row, each in enumerate(shown):
        pieces.append(_bar(each, HEAD_PX + ROW_PX * (row + 0.5), scale))
    told = "; ".join(f"{each.name}: ten to the {each.log10.value:.0f}" for each in shown if each.log10)
    title = "Live count of each link, in a gram or a millilitre"
    return drawing((width_px, high), group(*pieces), title=title, desc=f"{told}.", key=key)


def _bar(link: Link, y: float, scale: LengthScale) -> str:
    name = text((0.0, y + SMALL_PX * 0.36), link.name[:1].upper() + link.name[1:], size=SMALL_PX)
    if link.log10 is None or link.log10.value is None:
        return name
    low, middle, high = (
        scale.at(min(max(each, LOW), HIGH))
        for each in (link.log10.low or LOW, link.log10.value, link.log10.high or HIGH)
    )
    return name + interval((low, y), (high, y), middle=middle)
