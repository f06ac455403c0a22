"""What each change leaves of the stalls, against what it costs: nothing, a habit, or something bought."""

from collections.abc import Sequence
from typing import Final, NamedTuple

from sourloam.draw.canvas import SMALL_PX, drawing, line, rect, text, text_on_paper, wrapped
from sourloam.draw.palette import EDGE, FAN_INNER, INK_2
from sourloam.draw.scale import LengthScale
from sourloam.draw.two_sizes import Part, caption

GROUPS: Final = (("nothing", "Costs nothing"), ("habit", "Asks for a habit"), ("thing", "Must be bought"))
BAR_PX: Final = 11.0
VALUE_PX: Final = 74.0  # for the words at the end of a bar
TITLE: Final = "What would help, against what it costs"


class Offer(NamedTuple):
    """A change, and what it leaves."""

    what: str
    effort: str
    left: float
    says: str  # what is left, with its unit
    costs: str = ""  # in the keeper's money, where a price is known


def stall_cost(now: tuple[float, str], offers: Sequence[Offer], *, width_px: float, key: str) -> str:
    """Return the drawing of that width; `now` is the amount without a change and its words."""
    inside, bottom = cost_part(now, offers)(14.0, width_px)
    best = min(offers, key=lambda each: each.left)
    title = f"{best.what[:1].upper()}{best.what[1:]}: {best.says} are left of {now[1]}"
    desc = "A bar for each change, as long as what it leaves of the stalls; the dashed line is now."
    return drawing((width_px, bottom + 6.0), inside, title=title, desc=desc, key=key)


def cost_part(now: tuple[float, str], offers: Sequence[Offer]) -> Part:
    """Return the chart as a part of a sheet."""

    def drawn(top: float, width: float) -> tuple[str, float]:
        most = max(now[0], *(each.left for each in offers)) or 1.0
        along = LengthScale(0.0, most, 1.0, width - VALUE_PX)
        pieces, y = [text((0.0, top), TITLE, bold=True)], top + 8.0
        first = y + 8.0
        for effort, words in GROUPS:
            own = [each for each in offers if each.effort == effort]
            if not own:
                continue
            y += 20.0
            pieces.append(text((0.0, y), words, size=SMALL_PX, fill=INK_2))
            for each in own:
                svg, y = _offer(each, along, y, width)
                pieces.append(svg)
            y += 6.0
        now_x = along.at(now[0])
        pieces.insert(1, line((now_x, first), (now_x, y), width=1.2, dash="7 4"))
        told, end = caption(f"Bars: what is left of the stall. Dashed line: now, {now[1]}.", y + 20.0, width)
        return "".join(pieces) + told, end

    return drawn


def _offer(offer: Offer, along: LengthScale, y: float, width: float) -> tuple[str, float]:
    what = f"{offer.what[:1].upper()}{offer.what[1:]}{f' ({offer.costs})' if offer.costs else ''}"
    lines = wrapped(what, width, size=SMALL_PX, most=3)
    y += 18.0
    leading = SMALL_PX * 1.2
    words = "".join(text_on_paper((0.0, y + row * leading), each, size=SMALL_PX) for row, each in enumerate(lines))
    y += leading * (len(lines) - 1) + 6.0
    end = along.at(offer.left)
    bar = rect((along.start_px, y), (end - along.start_px, BAR_PX), fill=FAN_INNER, stroke=EDGE) if offer.left else ""
    zero = line((along.start_px, y), (along.start_px, y + BAR_PX), width=2.0)
    value = text((end + 8.0, y + BAR_PX - 0.5), offer.says, size=SMALL_PX, bold=True)
    return words + bar + zero + value, y + BAR_PX
