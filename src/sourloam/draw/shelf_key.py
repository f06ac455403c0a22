"""The key of a shelf: what the drawn things mean, in as many lines as it takes."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import Final

from sourloam.draw.canvas import SMALL_PX, Point, line, rect, text, text_width, wrapped
from sourloam.draw.palette import INK, INK_2
from sourloam.draw.patterns import filled
from sourloam.draw.shelf_words import fill_limit
from sourloam.draw.vessel import bran_dots, scraps_fill, standing_fill
from sourloam.views.shelf import Shelved

SWATCH_PX, WORDS_PX, PITCH_PX = 34.0, 42.0, 26.0  # a picture; where its words begin; from line to line
NOTE_PX: Final = 620.0  # the longest line of a note


def shelf_key(view: Shelved, top: float, width: float, *, key: str, said: str) -> tuple[str, float]:
    """Return what the drawn things mean, in as many lines as it takes, and where that ends."""
    x, y, drawn = 0.0, top, []
    for picture, words in _entries(view, key, said):
        wide = WORDS_PX + text_width(words, SMALL_PX)
        if x > 0.0 and x + wide > width:
            x, y = 0.0, y + PITCH_PX
        drawn += [picture((x, y)), text((x + WORDS_PX, y + 13.0), words, size=SMALL_PX)]
        x += wide + 16.0
    notes = wrapped(_note(view), min(width, NOTE_PX), size=SMALL_PX, most=4)
    y += 38.0
    for each in notes:
        drawn.append(text((0.0, y), each, size=SMALL_PX, fill=INK_2))
        y += SMALL_PX * 1.4
    return "".join(drawn), y - 8.0


def _entries(view: Shelved, key: str, said: str) -> Iterator[tuple[Callable[[Point], str], str]]:
    vessels = view.shelf.vessels
    if any(each.layers for each in vessels):
        yield partial(_scraps_swatch, key), "scraps; how sour: not computed yet"
    if any(len(each.layers) > 1 for each in vessels):
        yield _bran_swatch, "bran between layers"
    if any(each.has_drain for each in vessels):
        yield partial(_liquid_swatch, key), "liquid below the grid"
    if any(each.liquid_l > each.below_grid_l for each in vessels):
        yield partial(_standing_swatch, key), "liquid among the scraps"
    yield _fill_swatch, f"fill line, {fill_limit(vessels[0], view.speech)}" if said == "key" else "fill line"


def _note(view: Shelved) -> str:
    signs = {
        "filling": "Open lid: filling.",
        "fermenting": "Two clasps: fermenting.",
        "ready": "Flag: ready.",
        "empty": "No lid: empty.",
    }
    phases = {each.phase for each in view.shelf.vessels}
    said = (words for phase, words in signs.items() if phase in phases)
    scale = ("All vessels stand to one scale.",) if len(view.shelf.vessels) > 1 else ()
    return " ".join((*scale, *said))


def _scraps_swatch(key: str, at: Point) -> str:
    return rect(at, (SWATCH_PX, 17.0), fill=scraps_fill(key), stroke=INK, width=1.2)


def _bran_swatch(at: Point) -> str:
    x, y = at
    return bran_dots((x + 2.0, y + 8.5), (x + SWATCH_PX - 2.0, y + 8.5))


def _liquid_swatch(key: str, at: Point) -> str:
    x, y = at
    wet = rect((x, y + 6.0), (SWATCH_PX, 11.0), fill=filled("leachate", key))
    return wet + line((x, y + 1.5), (x + SWATCH_PX, y + 1.5), width=2.2, dash="4 2.4")


def _standing_swatch(key: str, at: Point) -> str:
    x, y = at
    wet = rect(at, (SWATCH_PX, 17.0), fill=scraps_fill(key)) + rect(at, (SWATCH_PX, 17.0), fill=standing_fill(key))
    return wet + line((x, y + 1.5), (x + SWATCH_PX, y + 1.5), width=3.0)


def _fill_swatch(at: Point) -> str:
    x, y = at
    return line((x, y + 8.5), (x + SWATCH_PX, y + 8.5), width=1.3, dash="6 4")
