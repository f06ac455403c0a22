"""The rows of the wide year for places: rest, what arrives, what is planted, and ground that is shut."""

from collections.abc import Sequence
from typing import Final

from sourloam.draw.canvas import line, rect, text_on_paper
from sourloam.draw.palette import CALL, INK, PAPER
from sourloam.draw.scale import span_words
from sourloam.draw.signs import sprout
from sourloam.draw.year import RESTING, Frame, Place, Sown, longest_rest, sown
from sourloam.draw.year_key import Laid
from sourloam.draw.year_shapes import arrivals, rest_spans, rest_strokes, shut_ground
from sourloam.draw.year_sheet import LEFT, RIGHT, SIZE, Label, Sheet, beside, name_lines, over, row_name

REST_PX: Final = 24.0
LANE_PX: Final = 17.0


def beds(sheet: Sheet, top: float) -> Laid:
    """Return the beds, and across all of them the times in which none can be dug."""
    beds = [each for each in sheet.places if each.ground.kind == "bed"]
    if not beds:
        return Laid("", top)
    view = sheet.view
    said = _shut_words(sheet, top + 20.0)
    y = said.bottom
    rows = _grounds(sheet, beds, y)
    across = Frame(sheet.time, rows.bottom, rows.bottom - y)
    shut = shut_ground(view.frozen, across, "frozen", key=sheet.key) + shut_ground(
        view.closed, across, "closed", key=sheet.key
    )
    return Laid(shut + said.svg + rows.svg, rows.bottom)


def _shut_words(sheet: Sheet, top: float) -> Laid:
    """Return the words over shut ground; the longest come first, one that would touch another stays without."""
    spans = [(each, "frozen") for each in sheet.view.frozen] + [(each, "closed") for each in sheet.view.closed]
    kept: list[Label] = []
    for span, kind in sorted(spans, key=lambda each: -each[0].days):
        start, end = sheet.time.at(span.first), sheet.time.past(span.last)
        label = over(start, end, f"{kind} {span_words(span.first, span.last)}")
        if all(label.end + 8.0 <= each.start or each.end + 8.0 <= label.start for each in kept):
            kept.append(label)
    words = "".join(text_on_paper((each.start, top), each.words, size=SIZE, bold=True) for each in kept)
    return Laid(words, top + 7.0 if kept else top - 12.0)


def others(sheet: Sheet, top: float) -> Laid:
    """Return the places that are no beds."""
    return _grounds(sheet, [each for each in sheet.places if each.ground.kind != "bed"], top)


def _grounds(sheet: Sheet, rows: Sequence[Place], top: float) -> Laid:
    drawn = []
    y = top
    for each in rows:
        laid = _ground(sheet, each, y)
        drawn.append(laid.svg)
        y = laid.bottom
    return Laid("".join(drawn), y)


def _ground(sheet: Sheet, place: Place, top: float) -> Laid:
    """Return one place: its rest in strokes, or what arrives; and what is planted."""
    rests = place.rests if place.ground.kind in RESTING else ()
    planted = [each for each in sown(place) if sheet.time.holds(each.on)]
    frame = Frame(sheet.time, 0.0, REST_PX)
    raised = _raised(sheet, planted, rest_spans(rests, frame))
    levels = max((level for _, level in raised), default=0)
    mark = place.mark if sheet.numbered else ""
    label_px = 17.0 * (len(name_lines(place.name, mark)) + 1)
    base = top + max(12.0 + REST_PX + levels * LANE_PX, label_px)
    frame = Frame(sheet.time, base, REST_PX)
    got = sheet.view.speech.kg(place.ground.got_kg) if place.ground.got_kg else "gets none"
    drawn = [
        row_name(place.name, got, base + 5.0 - label_px / 2.0, mark=mark),
        line((LEFT, base), (RIGHT, base)),
        rest_strokes(rests, frame, px_per_day=REST_PX / longest_rest(sheet.places)),
        "" if rests else arrivals(place.rests, frame),
        *(_sown(sheet, each, base, level=level) for each, (_, level) in zip(planted, raised, strict=True)),
    ]
    return Laid("".join(drawn), base + 10.0)


def _raised(sheet: Sheet, planted: Sequence[Sown], strokes: Sequence[tuple[float, float]]) -> list[tuple[Label, int]]:
    """Return for each planting its words and how high they stand: beside the sprout, or in a lane over the strokes.

    From the last to the first: words that reach over a later sprout then stand above the words of that one.
    """
    found: list[tuple[Label, int]] = []
    for each in reversed(planted):
        label = beside(sheet.time.at(each.on), each.words, offset=11.0)
        above = [level for other, level in found if other.at - 9.0 < label.end and label.start < other.end + 8.0]
        on_strokes = any(start < label.end and label.start < end for start, end in strokes)
        found.append((label, max([level + 1 for level in above] + [int(on_strokes)])))
    return found[::-1]


def _sown(sheet: Sheet, planting: Sown, base: float, *, level: int) -> str:
    x = sheet.time.at(planting.on)
    label = beside(x, planting.words, offset=11.0)
    y = base - 4.0 if level == 0 else base - REST_PX - 6.0 - (level - 1) * LANE_PX
    leader = line((x, base - 15.0), (x, y + 3.0)) if level else ""
    clear = rect((x - 8.0, base - 16.0), (16.0, 15.5), fill=PAPER)
    fill = CALL if planting.too_soon else INK
    words = text_on_paper((label.start, y), planting.words, size=SIZE, fill=fill, bold=planting.too_soon)
    return clear + leader + sprout((x, base)) + words
