"""A batch on one sheet: pH, warmth, dates, acids, the vessel cut open. Two compositions in one file.

The wide one is for a table and for paper, the tall one for a phone; a program
that knows no style sheet shows the wide one.
"""

from collections.abc import Callable, Sequence
from typing import Final

from sourloam.draw.canvas import (
    SMALL_PX,
    TEXT_PX,
    drawing,
    group,
    lines_of_text,
    number,
    rect,
    text,
    wrapped,
)
from sourloam.draw.ferment_acids import acids
from sourloam.draw.ferment_cut import Room, colour_key, cut
from sourloam.draw.ferment_fan import bars, fan, warmth
from sourloam.draw.ferment_frame import LEFT_PX, ROW_PX, Frame, Named, names_below, names_beside, note, title_words
from sourloam.draw.palette import INK_2, PAPER
from sourloam.draw.two_sizes import (
    EDGE_PX,
    HEAD_FACE,
    HEAD_PX,
    LONGEST_PX,
    SERIF_TIMES,
    TALL_PX,
    WIDE_PX,
    two_in_one,
)
from sourloam.draw.vessel import matter_patterns
from sourloam.views.ferment import FermentView

NAMES_PX: Final = 104.0  # at the right of a chart
BETWEEN_PX: Final = 40.0  # the parts of a sheet
Part = Callable[[FermentView, float, float], tuple[str, float]]  # from its top and width: itself, and where it ends


def ferment_sheet(view: FermentView) -> str:
    """Return the sheet as a file of its own."""
    return two_in_one(view.says, wide_drawing(view), tall_drawing(view))


def wide_drawing(view: FermentView) -> str:
    """Return the composition for a table and for paper."""
    return composed(view, PARTS, key="wide")


def tall_drawing(view: FermentView) -> str:
    """Return the composition for a phone."""
    return composed(view, PARTS, key="tall")


def composed(view: FermentView, parts: Sequence[Part], *, key: str) -> str:
    """Return all parts under each other, and the vessels cut open last; `key` says for which width."""
    width, edge = WIDE_PX if key == "wide" else TALL_PX, EDGE_PX[key]
    inner = width - 2.0 * edge
    drawn, y = [], edge
    for part in parts:
        svg, y = part(view, y, inner)
        drawn.append(svg)
        y += BETWEEN_PX
    svg, y = _cut_part(view, y, inner, key=key)
    drawn.append(svg)
    high = y + edge
    return drawing(
        (width, high),
        matter_patterns(key),
        rect((0.0, 0.0), (width, high), fill=PAPER),
        group(*drawn, transform=f"translate({number(edge)} 0)"),
        title=view.says,
        desc=f"{view.batch.name}. {view.because}",
        key=key,
    ).replace('class="drawing"', f'class="{key}"')


def head_part(view: FermentView, top: float, width: float) -> tuple[str, float]:
    """Return the name, the answer in a sentence, and how often it is another one."""
    y = top + TEXT_PX
    named = text((0.0, y), wrapped(view.batch.name, width, most=1)[0], fill=INK_2)
    lines = wrapped(view.heading, width * SERIF_TIMES, size=HEAD_PX, most=8)
    y += 30.0
    said = group(lines_of_text((0.0, y), lines, size=HEAD_PX, bold=True), font_family=HEAD_FACE)
    y += HEAD_PX * 1.2 * (len(lines) - 1) + 26.0
    rest = wrapped(view.says.removeprefix(view.heading).strip(), min(width, LONGEST_PX), most=8)
    return named + said + lines_of_text((0.0, y), rest, fill=INK_2), y + TEXT_PX * 1.2 * (len(rest) - 1)


def frame_of(view: FermentView, width: float, top: float, high: float) -> Frame:
    """Return the room of a chart; on a wide sheet the names of its lines stand at its right."""
    right = width - NAMES_PX if width > TALL_PX else width - 6.0
    return Frame(view, LEFT_PX, right, top, top + high, width)


def names_of(frame: Frame, lines: list[Named], top: float) -> tuple[str, float]:
    """Return the names of lines: beside the chart where there is room, else below it."""
    if frame.right < frame.edge - NAMES_PX / 2.0:
        return names_beside(frame, lines), top
    svg, y = names_below(lines, top + ROW_PX, frame.edge)
    return svg, y


def ph_part(view: FermentView, top: float, width: float) -> tuple[str, float]:
    """Return the fan and under it the dates."""
    frame = frame_of(view, width, top + 16.0, 250.0 if width > TALL_PX else 220.0)
    title = title_words((0.0, top), "pH of the least sour layer")
    drawn, lines = fan(frame)
    y = frame.bottom + 24.0
    if view.batch.first is None:
        y += 14.0
        title += note((frame.right, y), "days from the last layer", anchor="end")
    names, y = names_of(frame, lines, y)
    told, y = bars(view, frame, y + 4.0)
    words = "Bars: days from the last layer. Nine in ten lie in the grey and within a bar, half in the darker."
    sentence = wrapped(words, min(width, LONGEST_PX), size=SMALL_PX, most=3)
    y += SMALL_PX
    below = lines_of_text((0.0, y), sentence, size=SMALL_PX, fill=INK_2)
    return title + drawn + names + told + below, y + SMALL_PX * 1.2 * (len(sentence) - 1)


def _warmth_part(view: FermentView, top: float, width: float) -> tuple[str, float]:
    frame = frame_of(view, width, top + 8.0, 58.0)
    return warmth(frame), frame.bottom


def _acids_part(view: FermentView, top: float, width: float) -> tuple[str, float]:
    frame = frame_of(view, width, top + 16.0, 160.0)
    drawn, lines = acids(frame)
    names, y = names_of(frame, lines, frame.bottom + 24.0)
    return title_words((0.0, top), "Acids and alcohol, g in 1 kg of water") + drawn + names, y


def _cut_part(view: FermentView, top: float, width: float, *, key: str) -> tuple[str, float]:
    """Return the vessels and the key of their colours."""
    is_wide = key == "wide"
    room = Room(width, 280.0 if is_wide else 190.0, is_wide, key)
    title = title_words((0.0, top), "Cut open, to scale")
    drawn, y = cut(view, top + 18.0, room)
    legend, end = colour_key((0.0, y + 16.0), width, key, view)
    return title + drawn + legend, end


PARTS: Final[tuple[Part, ...]] = (head_part, ph_part, _warmth_part, _acids_part)
