"""From kitchen to ground: the year's mass as one bar, and under it where it went, step by step to the bar's end."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from sourloam.draw.canvas import (
    NAME_PX,
    SMALL_PX,
    Point,
    drawing,
    group,
    is_cut,
    line,
    lines_of_text,
    moves,
    path,
    rect,
    text,
    text_width,
    wrapped,
)
from sourloam.draw.palette import EDGE, HAIR, INK, INK_2, PAPER, SHEET
from sourloam.draw.patterns import filled, patterns
from sourloam.draw.scale import NO_BREAK, LengthScale
from sourloam.draw.vessel import matter_patterns, scraps_fill
from sourloam.plan.matter import Part
from sourloam.plan.words import Speech
from sourloam.views.plan import PlanView

COLUMNS: Final = ("What", "Share", "Mass")
WIDE_FROM_PX: Final = 640.0  # from here on the words stand left of the steps, not above them
MASS_PX, GUTTER_PX = 372.0, 396.0  # wide: where the words end and the bars begin
SHARE_PX: Final = 72.0  # from the end of a mass back to the end of its share
EDGE_PX: Final = 1.0  # left free for the outline of a bar that reaches the end
BECAME: Final = MappingProxyType(
    {
        "liquid": "Drawn off as liquid",
        "gas": "Gone as gas",
        "still held": "Still held at the end",
        "turned away": "Turned away, no room",
    }
)
FATES: Final = MappingProxyType(
    {
        "liquid": "are drawn off as liquid",
        "gas": "go as gas",
        "still held": "are still held at the end",
        "turned away": "are turned away for want of room",
    }
)
CAME: Final = MappingProxyType({"scraps": "scraps", "bran": "bran", "held before": "held before"})
MATTER: Final = MappingProxyType({"bed": "soil", "soil_tub": "soil", "pile": "leaves", "worm_bin": "worms"})
LEFT_OUT: Final = frozenset({"gas", "turned away"})  # in no vessel and no place: an empty outline


@dataclass(frozen=True)
class Step:
    """A part of the year's mass, and from where to where it lies under the bar."""

    part: Part
    name: str
    share: str
    start_px: float
    end_px: float


@dataclass(frozen=True)
class Heights:
    """How the lines of a drawing follow each other."""

    bar_px: float
    step_px: float
    words_px: float  # above the step, where the drawing is narrow
    pitch_px: float


WIDE: Final = Heights(bar_px=24.0, step_px=20.0, words_px=0.0, pitch_px=32.0)
NARROW: Final = Heights(bar_px=22.0, step_px=15.0, words_px=24.0, pitch_px=50.0)


@dataclass(frozen=True)
class Picture:
    """One drawing: the plan, its width, how its lines follow each other, its key."""

    view: PlanView
    width: float
    heights: Heights
    key: str

    @property
    def is_wide(self) -> bool:
        """Whether the words stand beside the steps."""
        return self.heights is WIDE

    def parts(self, parts: Sequence[Part]) -> tuple[Step, ...]:
        """Return parts of the mass where they lie in this drawing."""
        return parts_of(parts, self.view, GUTTER_PX if self.is_wide else EDGE_PX, self.width - EDGE_PX)


def flow(view: PlanView, *, width_px: float) -> str:
    """Return where the year's mass went, each destination beginning where the one above it ends."""
    picture = Picture(view, width_px, WIDE if width_px >= WIDE_FROM_PX else NARROW, f"flow-{width_px:.0f}")
    came, became = picture.parts(view.matter.came), picture.parts(view.matter.became)
    if not came or not became:
        return _bare(width_px, picture.key)
    head, top = _whole(came, picture)
    rows = [_row(each, top + row * picture.heights.pitch_px, picture) for row, each in enumerate(became)]
    return drawing(
        (width_px, top + len(became) * picture.heights.pitch_px + 2.0),
        patterns(("bran", "soil", "leaves", "worms"), picture.key),
        matter_patterns(picture.key),
        _drops(became, top, picture),
        head,
        *rows,
        title=finding(view),
        desc=f"A bar of {mass_words(view.matter.whole_kg, view.speech)}, and below it, stepping down to the right: "
        + "; ".join(f"{each.name} {mass_words(each.part.mass_kg, view.speech)}, {each.share}" for each in became)
        + ". The table has the same data.",
        key=picture.key,
    )


def flow_table(view: PlanView) -> tuple[tuple[str, ...], ...]:
    """Return the rows under `COLUMNS`: what came, then what it became, each with its sum."""
    whole = (f"100{NO_BREAK}%", mass_words(view.matter.whole_kg, view.speech))
    rows: list[tuple[str, ...]] = []
    for parts, total in ((view.matter.came, "All that comes in"), (view.matter.became, "All that it becomes")):
        rows += [
            (each.name, each.share, mass_words(each.part.mass_kg, view.speech))
            for each in parts_of(parts, view, 0.0, 1.0)
        ]
        rows.append((total, *whole))
    return tuple(rows)


def parts_of(parts: Sequence[Part], view: PlanView, start_px: float, end_px: float) -> tuple[Step, ...]:
    """Return parts of the year's mass end to end, the largest first."""
    whole = view.matter.whole_kg
    along = LengthScale(0.0, whole, start_px, end_px)
    found, so_far = [], 0.0
    for each in sorted(parts, key=lambda part: -part.mass_kg):
        after = so_far + each.mass_kg
        found.append(
            Step(each, _name(each, view), share_words(each.mass_kg / whole), along.at(so_far), along.at(after))
        )
        so_far = after
    return tuple(found)


def finding(view: PlanView) -> str:
    """Return where most of it went, in a sentence."""
    most = parts_of(view.matter.became, view, 0.0, 1.0)
    whole = mass_words(view.matter.whole_kg, view.speech)
    if not most:
        return "Nothing comes in"
    first = most[0]
    mass = mass_words(first.part.mass_kg, view.speech)
    return f"Of {whole} in the year, {mass} ({first.share}) {_fate(first.part, view)}"


def _fate(part: Part, view: PlanView) -> str:
    return f"go to {view.names.get(part.subject, part.subject)}" if part.what == "place" else FATES[part.what]


def mass_words(mass_kg: float, speech: Speech) -> str:
    """Return a mass beside others of the year, in words that stay on one line."""
    return speech.kg_of_many(mass_kg).replace(" ", NO_BREAK)


def share_words(share: float) -> str:
    """Return a share in words."""
    return f"{100.0 * share:.0f}{NO_BREAK}%" if share >= 0.005 else f"under 1{NO_BREAK}%"


def _name(part: Part, view: PlanView) -> str:
    name = view.names.get(part.subject, part.subject)
    words = name if part.what == "place" else {**BECAME, **CAME}.get(part.what, part.what)
    return words[:1].upper() + words[1:]


# The whole


def _whole(came: Sequence[Step], picture: Picture) -> tuple[str, float]:
    """Return the bar of all that came in, with its words, and where the steps begin."""
    parts = ", ".join(f"{mass_words(each.part.mass_kg, picture.view.speech)} {each.name.lower()}" for each in came)
    whole = mass_words(picture.view.matter.whole_kg, picture.view.speech)
    mass_end = MASS_PX if picture.is_wide else picture.width - EDGE_PX
    words = text((0.0, NAME_PX), "Comes in", bold=True) + _mass(whole, NAME_PX, mass_end)
    lines = wrapped(parts, mass_end, size=SMALL_PX)
    words += lines_of_text((0.0, NAME_PX * 2.0 + 5.0), lines, size=SMALL_PX, fill=INK_2)
    below = NAME_PX * 2.0 + 14.0 + (len(lines) - 1) * SMALL_PX * 1.2
    y = EDGE_PX if picture.is_wide else below
    top = max(below, y + picture.heights.bar_px) + 14.0
    return words + _bar(came, y, picture), top


def _bar(came: Sequence[Step], y: float, picture: Picture) -> str:
    high = picture.heights.bar_px
    boxes = "".join(
        rect((each.start_px, y), (each.end_px - each.start_px, high), fill=_came_fill(each.part, picture.key))
        for each in came
    )
    start, end = came[0].start_px, came[-1].end_px
    marks = [((each.start_px, y), (each.start_px, y + high)) for each in came[1:]]
    outline = rect((start, y), (end - start, high), fill="none", stroke=INK, width=1.6)
    return group(boxes, path(moves(marks), width=1.2) if marks else "", outline, class_="whole")


def _mass(words: str, y: float, end: float) -> str:
    return text((end, y), words, anchor="end", bold=True)


def _came_fill(part: Part, key: str) -> str:
    return filled("bran", key) if part.what == "bran" else scraps_fill(key)


# The steps


def _row(step: Step, top: float, picture: Picture) -> str:
    """Return one destination: its words, beside or above, and its step."""
    heights = picture.heights
    box_top = top + heights.words_px
    box = _box(step, box_top, picture)
    if not picture.is_wide:
        return group(_words(step, top + NAME_PX, picture), box, class_="step")
    foot = top + heights.step_px + (heights.pitch_px - heights.step_px) / 2.0
    rule = line((0.0, foot), (MASS_PX, foot), stroke=HAIR)
    return group(_words(step, box_top + heights.step_px / 2.0 + NAME_PX * 0.36, picture), rule, box, class_="step")


def _words(step: Step, y: float, picture: Picture) -> str:
    """Return name, share and mass on one base line."""
    end = MASS_PX if picture.is_wide else picture.width - EDGE_PX
    share_end = end - SHARE_PX
    name = wrapped(step.name, share_end - text_width(step.share, SMALL_PX) - 8.0, most=1)
    share = text((share_end, y), step.share, size=SMALL_PX, anchor="end", fill=INK_2)
    mass = _mass(mass_words(step.part.mass_kg, picture.view.speech), y, end)
    return group(text((0.0, y), name[0]), share, mass, title=step.name if is_cut(name) else None)


def _box(step: Step, top: float, picture: Picture) -> str:
    corner, size = (step.start_px, top), (step.end_px - step.start_px, picture.heights.step_px)
    if step.part.what in LEFT_OUT:
        return rect(corner, size, fill=PAPER, stroke=INK, width=1.4, dash="3 2")
    return rect(corner, size, fill=_fill(step.part, picture), stroke=INK, width=1.4)


def _fill(part: Part, picture: Picture) -> str:
    if part.what == "liquid":
        return filled("leachate", picture.key)
    if part.what == "still held":
        return scraps_fill(picture.key)
    kind = next((each.kind for each in picture.view.ground if each.place == part.subject), "")
    return filled(MATTER[kind], picture.key) if kind in MATTER else SHEET


def _drops(steps: Sequence[Step], top: float, picture: Picture) -> str:
    """Return thin lines from the end of each step down to the next, and from the bar's ends to the first and last.

    A narrow drawing has words between its steps: there they stop above the words and go on below.
    """
    heights = picture.heights
    strokes = []
    for row, (before, _) in enumerate(pairwise(steps)):
        foot = top + row * heights.pitch_px + heights.words_px + heights.step_px
        after = top + (row + 1) * heights.pitch_px
        strokes += list(_drop(before.end_px, foot, after, picture))
    if picture.is_wide:
        first, last = steps[0].start_px, steps[-1].end_px
        strokes.append(((first, EDGE_PX), (first, top)))
        strokes.append(((last, EDGE_PX), (last, top + (len(steps) - 1) * heights.pitch_px)))
    return path(moves(strokes), stroke=EDGE)


def _drop(x: float, foot: float, after: float, picture: Picture) -> Iterator[tuple[Point, Point]]:
    words_px = picture.heights.words_px
    if picture.is_wide:
        yield (x, foot), (x, after)
        return
    yield (x, foot), (x, foot + 4.0)
    yield (x, after + words_px - 4.0), (x, after + words_px)


def _bare(width_px: float, key: str) -> str:
    return drawing(
        (width_px, 30.0),
        text((0.0, NAME_PX + 4.0), "Nothing comes in this year.", fill=INK_2),
        title="Nothing comes in",
        desc="No bar: no scraps and no bran.",
        key=key,
    )
