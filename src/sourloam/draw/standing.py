"""One vessel as it stands, by itself: for a page whose words, dates and buttons hang below it."""

from collections.abc import Iterator, Sequence
from typing import Final

from sourloam.draw.canvas import LEAST_PX, SMALL_PX, Point, drawing, line, moves, path, text
from sourloam.draw.palette import EDGE, INK_2, cabbage
from sourloam.draw.rule import marks_of, upright
from sourloam.draw.scale import day_words
from sourloam.draw.shelf_boards import RULE_PX
from sourloam.draw.vessel import body_of, matter_patterns, rim_px, scraps_fill, section, top_px
from sourloam.plan.shelf import Layer, OnShelf
from sourloam.plan.words import Speech

SIDE_PX: Final = 8.0  # for the tap at the right, and as much at the left so that it stands in the middle
UNIT_PX: Final = 20.0  # above a rule, for its unit
LEADER_PX: Final = 178.0  # for the words beside a layer
LINE_PX: Final = 19.0  # from one line of words to the next
MOST_SAID: Final = 14  # layers that get their words; of more the newest and the oldest


Sourness = Sequence[float | None]  # pH of each layer, the oldest first, as far as it is known


def standing(vessel: OnShelf, *, px_per_m: float, key: str, says: str, ph: Sourness = ()) -> str:
    """Return a vessel cut open, its floor at the lower edge of the drawing."""
    width, height = rim_px(vessel, px_per_m) + 2.0 * SIDE_PX, top_px(vessel, px_per_m) + 2.0
    return drawing(
        (width, height),
        matter_patterns(key),
        section(vessel, (width / 2.0, height - 1.0), px_per_m=px_per_m, key=key, fills=_fills(vessel, ph, key)),
        title=says,
        desc="Cut open and to scale.",
        key=key,
    )


def rule(vessels: Sequence[OnShelf], *, px_per_m: float, speech: Speech, key: str) -> str:
    """Return the rule that stands at the left of a board, as high as its tallest vessel."""
    marks = marks_of(speech, px_per_m)
    tallest = marks.tallest(vessels)
    height = tallest * marks.unit_px + UNIT_PX
    return drawing(
        (RULE_PX, height),
        upright(marks, tallest, (RULE_PX, height - 1.0)),
        title=f"A rule, in {marks.name}",
        desc="All vessels of a board stand to its scale.",
        key=key,
    )


def cut_open(
    vessel: OnShelf, *, px_per_m: float, speech: Speech, most: int, key: str, says: str, ph: Sourness = ()
) -> str:
    """Return one vessel large, with a line to the words of its layers; of many only `most` are said."""
    left = RULE_PX + SIDE_PX
    rim = rim_px(vessel, px_per_m)
    said = _said(vessel.layers, most)
    height = max(top_px(vessel, px_per_m), len(said) * LINE_PX + 12.0) + 4.0
    foot = (left + rim / 2.0, height - 2.0)
    return drawing(
        (left + rim + SIDE_PX + LEADER_PX, height),
        matter_patterns(key),
        section(vessel, foot, px_per_m=px_per_m, key=key, fills=_fills(vessel, ph, key)),
        *_leaders(vessel, said, foot, px_per_m=px_per_m, speech=speech, ph=ph),
        _scale_bar(foot, px_per_m, speech),
        title=says,
        desc="Cut open and to scale; the table has the same layers.",
        key=key,
    )


def _fills(vessel: OnShelf, ph: Sourness, key: str) -> tuple[str, ...]:
    """Return the fills of the layers: by their pH, or dotted where nobody knows it."""
    if len(ph) != len(vessel.layers):
        return ()
    return tuple(scraps_fill(key) if each is None else cabbage(each) for each in ph)


def layer_rows(vessel: OnShelf, speech: Speech) -> tuple[tuple[str, ...], ...]:
    """Return the layers as rows, the newest first: day, scraps, bran."""
    return tuple(
        (day_words(each.on), speech.kg(each.scraps_kg), speech.kg(each.bran_kg) if each.bran_kg > 0.0 else "no bran")
        for each in reversed(vessel.layers)
    )


def _said(layers: Sequence[Layer], most: int) -> list[int]:
    """Return which layers get words, the oldest first: all, or the newest and the oldest of many."""
    count = len(layers)
    if count <= min(most, MOST_SAID):
        return list(range(count))
    return [0, *range(count - min(most, MOST_SAID) + 1, count)]


def _leaders(
    vessel: OnShelf, said: Sequence[int], foot: Point, *, px_per_m: float, speech: Speech, ph: Sourness
) -> Iterator[str]:
    """Give a thin line from each layer to its words, spread so that no two lie on each other."""
    body = body_of(vessel)
    base = vessel.below_grid_l
    tops = [base]
    for each in vessel.layers:
        tops.append(tops[-1] + each.litres)
    middles = [foot[1] - body.height_of((tops[at] + tops[at + 1]) / 2.0) * px_per_m for at in said]
    words = _spread(middles, foot[1])
    x = foot[0] + rim_px(vessel, px_per_m) / 2.0
    for at, middle, y in zip(said, middles, words, strict=True):
        inner = foot[0] + body.width_at(body.height_of((tops[at] + tops[at + 1]) / 2.0)) * px_per_m / 2.0
        yield path(moves([((inner - 4.0, middle), (x + 4.0, middle)), ((x + 4.0, middle), (x + 14.0, y))]), stroke=EDGE)
        layer = vessel.layers[at]
        sour = f", pH {value:.1f}" if len(ph) == len(vessel.layers) and (value := ph[at]) is not None else ""
        said_of = f"{day_words(layer.on)}, {speech.kg(layer.scraps_kg)}{sour}"
        yield text((x + 18.0, y + 4.6), said_of, size=SMALL_PX)


def _spread(middles: Sequence[float], lowest: float) -> list[float]:
    """Return heights for words that are at least a line apart, as near to what they are about as can be."""
    found: list[float] = []
    below = lowest + LINE_PX / 2.0
    for middle in middles:  # the oldest layer lies lowest
        below = min(middle, below - LINE_PX)
        found.append(below)
    return found


def _scale_bar(foot: Point, px_per_m: float, speech: Speech) -> str:
    """Return ten centimetres, or half a foot, upright at the left."""
    marks = marks_of(speech, px_per_m)
    high = marks.long * marks.unit_px
    x = RULE_PX - 2.0
    ticks = moves([((x - 4.0, foot[1]), (x + 4.0, foot[1])), ((x - 4.0, foot[1] - high), (x + 4.0, foot[1] - high))])
    bar = line((x, foot[1]), (x, foot[1] - high), stroke=EDGE) + path(ticks, stroke=EDGE)
    words = f"{marks.long} {marks.name}"
    return bar + text((x - 2.0, foot[1] - high - 6.0), words, size=LEAST_PX, anchor="middle", fill=INK_2)
