"""The vessel of a batch cut open on two days, to one scale, its layers coloured by their pH."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final

from sourloam.draw.canvas import (
    LEAST_PX,
    SMALL_PX,
    Point,
    board,
    disc,
    line,
    lines_of_text,
    moves,
    path,
    rect,
    text,
    text_width,
    wrapped,
)
from sourloam.draw.palette import EDGE, INK, INK_2, cabbage
from sourloam.draw.patterns import filled
from sourloam.draw.vessel import Stand, body_of, bran_dots, section, standing_fill, top_px
from sourloam.plan.shelf import Layer, OnShelf
from sourloam.plan.words import converted
from sourloam.views.ferment import FermentView
from sourloam.views.ferment_vessel import CutOpen, LayerView

RULE_PX: Final = 40.0
BOARD_PX: Final = 7.0
LIST_PX, LINE_PX = 410.0, 386.0  # at the right of the vessels, and a line of it
PH_PX: Final = 122.0  # of which the pH takes
ROW_PX: Final = 20.0
MOST_ROWS: Final = 14
FEW_ROWS: Final = 6  # of which each may take two lines
FILL_FRAC: Final = 0.95
SEEN_L: Final = 0.05  # of liquid below the grid
KEY_PH: Final = (7.0, 6.5, 6.0, 5.5, 5.0, 4.5, 4.0, 3.5)


@dataclass(frozen=True)
class Room:
    """How large the vessels may be, and whether their layers have lines at the right."""

    width: float
    most_px: float  # the height of a vessel
    has_list: bool
    key: str


def cut(view: FermentView, top: float, room: Room) -> tuple[str, float]:
    """Return the vessels on their board with all that is said of them, and where that ends."""
    held = [_on_shelf(view, each) for each in view.vessels]
    list_px = LIST_PX if room.has_list else 0.0
    wide = (room.width - RULE_PX - list_px) / len(held)
    body = body_of(held[0])
    px_per_m = min(room.most_px / body.height_m, (wide - 26.0) / body.rim_m)
    above = max(top_px(each, px_per_m) for each in held) + 6.0
    foot = top + above
    middles = [RULE_PX + wide * (at + 0.5) for at in range(len(held))]
    shelf_end = (room.width - list_px, foot)
    drawn = [_rule(view, foot, px_per_m, body.height_m), board((0.0, foot), shelf_end, width=BOARD_PX)]
    bottom = foot
    for shelf, open_, middle in zip(held, view.vessels, middles, strict=True):
        fills = tuple(cabbage(each.ph) for each in open_.layers)
        drawn.append(section(shelf, (middle, foot), px_per_m=px_per_m, key=room.key, fills=fills))
        words = wrapped(open_.words, wide - 6.0, size=SMALL_PX)
        drawn.append(lines_of_text((middle, foot + BOARD_PX + 18.0), words, size=SMALL_PX, anchor="middle"))
        bottom = max(bottom, foot + BOARD_PX + 18.0 + SMALL_PX * 1.2 * (len(words) - 1) + 8.0)
    stand = Stand(body, (middles[-1], foot), px_per_m)
    if room.has_list:
        drawn.append(_list(view, held[-1], stand, top, right=room.width))
        return "".join(drawn), bottom
    lines, bottom = _three(view, bottom + 14.0, room.width)
    return "".join(drawn) + lines + _discs(view, held[-1], stand), bottom


def _on_shelf(view: FermentView, cut_open: CutOpen) -> OnShelf:
    """Return the vessel as a drawing takes it."""
    batch, kept = view.batch, view.batch.filling.kept
    start = batch.first or date(2000, 1, 1)
    return OnShelf(
        vessel=batch.name,
        volume_l=kept.volume_l,
        width_m=2.0 * math.sqrt(kept.floor_m2 / math.pi),
        height_m=batch.height_m,
        below_grid_l=kept.sump_l,
        fill_limit_frac=FILL_FRAC,
        has_drain=batch.has_drain,
        stands="",
        phase="fermenting",
        batch=batch.name,
        mass_kg=sum(each.kg for each in cut_open.layers),
        liquid_l=cut_open.liquid_l,
        ready=None,
        layers=tuple(Layer(start, each.kg, _bran_kg(view, each), each.litres) for each in cut_open.layers),
    )


def _bran_kg(view: FermentView, layer: LayerView) -> float:
    bran = view.batch.filling.layers[layer.number - 1].bran
    return 0.0 if bran is None else bran.mass.value


def _rule(view: FermentView, foot: float, px_per_m: float, height_m: float) -> str:
    """Return the rule at the left, in centimetres or inches."""
    name, step, named = ("in", 1, 5) if view.speech.is_us else ("cm", 5, 10)
    unit, x = converted(px_per_m, name, "m"), RULE_PX - 4.0
    tallest = math.floor(converted(height_m, "m", name))
    strokes = [((x, foot), (x, foot - tallest * unit))]
    words = [text((0.0, foot - tallest * unit - 8.0), name, size=LEAST_PX + 1.0, fill=INK_2)]
    step = step if unit * step >= 8.0 else named
    for at in range(0, tallest + 1, step):
        y = foot - at * unit
        strokes.append(((x, y), (x - (6.0 if at % named == 0 else 3.0), y)))
        if at % named == 0 and at:
            words.append(text((x - 8.0, y + 4.6), str(at), size=LEAST_PX + 1.0, anchor="end", fill=INK_2))
    return path(moves(strokes), stroke=EDGE) + "".join(words)


def _middles(shelf: OnShelf, stand: Stand) -> list[Point]:
    """Return where the middle of each layer meets the right wall, the oldest first."""
    found, low = [], shelf.below_grid_l
    for each in shelf.layers:
        height = stand.body.height_of(low + each.litres / 2.0)
        found.append(stand.at(height, 1.0))
        low += each.litres
    return found


def _list(view: FermentView, shelf: OnShelf, stand: Stand, top: float, *, right: float) -> str:
    """Return a line for each layer at the right, the newest on top, with a leader to it."""
    layers, marks = view.vessels[-1].layers, _middles(shelf, stand)
    shown = list(zip(layers, marks, strict=True))
    if len(shown) > MOST_ROWS:
        shown = [each for each in shown if each[0].number in _told(layers)]
    left = right - LINE_PX
    most = 2 if len(shown) <= FEW_ROWS else 1
    told = {each.number: _line_of(view, each, most) for each, _ in shown}
    row = ROW_PX + SMALL_PX * 1.2 * (max(map(len, told.values())) - 1)
    ys = _spread([at[1] for _, at in shown], stand.foot[1] - 2.0 - row + ROW_PX, top + 22.0, row)
    drawn = [
        text((left, min(ys) - ROW_PX - 2.0), "layer, mass, what; pH then (nine in ten)", size=SMALL_PX, fill=INK_2)
    ]
    for (layer, at), y in zip(shown, ys, strict=True):
        bend = (left - 22.0, y - 4.0)
        drawn.append(path(moves([((at[0] + 3.0, at[1]), bend), (bend, (left - 5.0, y - 4.0))]), stroke=EDGE))
        drawn.append(lines_of_text((left, y), told[layer.number], size=SMALL_PX))
        drawn.append(rect((right - PH_PX, y - 11.0), (11.0, 12.0), fill=cabbage(layer.ph), stroke=INK, width=1.0))
        drawn.append(text((right - PH_PX + 17.0, y), f"{layer.ph:.1f}", size=SMALL_PX, bold=True))
        between = f"{layer.ph_low:.1f} to {layer.ph_high:.1f}"
        drawn.append(text((right, y), between, size=SMALL_PX, anchor="end", fill=INK_2))
    return "".join(drawn)


def _line_of(view: FermentView, layer: LayerView, most: int) -> tuple[str, ...]:
    """Return what a layer is, on so many lines at the most."""
    what = f"{layer.number}  {view.speech.kg(layer.kg)}  {layer.what}"
    return wrapped(what, LINE_PX - PH_PX - 8.0, size=SMALL_PX, most=most)


def _spread(wanted: Sequence[float], floor: float, ceiling: float, row: float) -> list[float]:
    """Return heights near those that are wanted, the lowest first, none nearer to another than a row."""
    placed, limit = [], floor
    for each in wanted:
        y = min(each + 5.0, limit)
        placed.append(y)
        limit = y - row
    over = ceiling - min(placed)
    return [each + over for each in placed] if over > 0.0 else placed


def _told(layers: Sequence[LayerView]) -> tuple[int, ...]:
    """Return the numbers of the newest, the least sour and the oldest layer."""
    worst = max(layers, key=lambda each: each.ph)
    return tuple(dict.fromkeys((layers[-1].number, worst.number, layers[0].number)))


def _three(view: FermentView, top: float, width: float) -> tuple[str, float]:
    """Return the newest, the least sour and the oldest layer in words, and where they end."""
    layers = view.vessels[-1].layers
    drawn, y = [], top
    names = {layers[0].number: "oldest", layers[-1].number: "newest"}
    for number in _told(layers):
        layer = layers[number - 1]
        ph = f"pH {layer.ph:.1f} ({layer.ph_low:.1f} to {layer.ph_high:.1f})"
        what = f"{names.get(number, 'least sour')}, {view.speech.kg(layer.kg)}, {ph}: {layer.what}"
        lines = wrapped(what, width - 32.0, size=SMALL_PX)
        drawn.append(disc((12.0, y - 4.0), str(number)))
        drawn.append(lines_of_text((30.0, y), lines, size=SMALL_PX))
        y += SMALL_PX * 1.2 * len(lines) + 8.0
    return "".join(drawn), y


def _discs(view: FermentView, shelf: OnShelf, stand: Stand) -> str:
    """Return the numbers of the layers that are told of, on the layers."""
    marks = _middles(shelf, stand)
    told = _told(view.vessels[-1].layers)
    return "".join(
        disc((stand.foot[0] + 24.0 * (at - 1), marks[number - 1][1]), str(number), radius=9.0, size=LEAST_PX)
        for at, number in enumerate(told)
    )


def colour_key(at: Point, width: float, key: str, view: FermentView) -> tuple[str, float]:
    """Return the scale of the colours with its numbers, what else is drawn, and where that ends."""
    x, y = at
    box = min((width - 60.0) / len(KEY_PH), 44.0)
    drawn = [text((x, y + 14.0), "pH", size=SMALL_PX, bold=True)]
    for place, ph in enumerate(KEY_PH):
        left = x + 28.0 + place * box
        drawn.append(rect((left, y), (box, 18.0), fill=cabbage(ph), stroke=INK, width=1.0))
        drawn.append(text((left + box / 2.0, y + 34.0), f"{ph:g}", size=SMALL_PX, anchor="middle", fill=INK_2))
    entries = list(_entries(view))
    left, line_y = x, y + 62.0
    for kind, words in entries:
        before = 40.0 if kind else 0.0
        wide = before + text_width(words, SMALL_PX)
        if left > x and left + wide > x + width:
            left, line_y = x, line_y + 24.0
        drawn.append(_swatch(kind, (left, line_y), key))
        drawn.append(text((left + before, line_y), words, size=SMALL_PX))
        left += wide + 18.0
    return "".join(drawn), line_y + 8.0


def _entries(view: FermentView) -> Iterator[tuple[str, str]]:
    yield "", "pale is fresh, deep is sour"
    if len(view.vessels[-1].layers) > 1 and any(each.bran is not None for each in view.batch.filling.layers):
        yield "bran", "bran between layers"
    if view.batch.has_drain and any(each.liquid_l >= SEEN_L for each in view.vessels):
        yield "liquid", "liquid below the grid"
    if any(each.liquid_l > view.batch.filling.kept.sump_l for each in view.vessels):
        yield "standing", "liquid among the scraps"


def _swatch(kind: str, at: Point, key: str) -> str:
    x, y = at
    if kind == "bran":
        return bran_dots((x + 2.0, y - 5.0), (x + 32.0, y - 5.0))
    if kind == "liquid":
        wet = rect((x, y - 8.0), (32.0, 11.0), fill=filled("leachate", key))
        return wet + line((x, y - 11.0), (x + 32.0, y - 11.0), width=2.2, dash="4 2.4")
    if kind == "standing":
        wet = rect((x, y - 11.0), (32.0, 14.0), fill=standing_fill(key))
        return wet + line((x, y - 11.0), (x + 32.0, y - 11.0), width=3.0)
    return ""
