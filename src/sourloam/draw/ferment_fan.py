"""The pH of a batch as a fan over its days, the line below which it keeps, its dates, and how warm it stands."""

from typing import Final

from sourloam.draw.canvas import LEVEL_PX, SMALL_PX, axis, interval, line, polyline, steps, text_width
from sourloam.draw.ferment_frame import (
    ROW_PX,
    Frame,
    Named,
    course_band,
    course_line,
    day_axis,
    last_of,
    note,
    phases,
    title_words,
)
from sourloam.draw.ph import SOURED, limits_of, ph_axis
from sourloam.draw.scale import LengthScale
from sourloam.plan.words import converted
from sourloam.views.ferment import FermentView
from sourloam.views.ferment_verdict import RARE, chance_words, never_words

NARROW_PX: Final = 400.0  # a drawing in which words stand above their bars
BARS: Final = (("soured_day", "sour"), ("ready_day", "ready"), ("due_day", "due"), ("hold_day", "held sour"))


def scale_of(frame: Frame, *also: float) -> LengthScale:
    """Return the upright scale of pH, on which the fan and some other values have room."""
    ph = frame.view.course["ph"]
    known = [each for each in (*ph.low, *ph.high, *also) if each is not None]
    return frame.upright(*limits_of(known))


def fan(frame: Frame, *also: float) -> tuple[str, list[Named]]:
    """Return the fan with its axis, which is the scale of the colours too, and the names of its lines."""
    ph, critical = frame.view.course["ph"], frame.view.course["critical_ph"]
    up = scale_of(frame, *also)
    keeps = tuple(each if each is not None and each > up.low else None for each in critical.median)
    named = [
        Named("sour: 4.5", "7 4", 1.2, up.at(SOURED)),
        Named("keeps below", "2 4", 1.6, up.at(_held(last_of(keeps), up))),
        Named("middle case", None, 2.4, up.at(_held(last_of(ph.median), up))),
    ]
    drawn = (
        phases(frame, has_words=True),
        course_band(frame, ph, up),
        course_line(frame, keeps, up, named[1]),
        line((frame.left, up.at(SOURED)), (frame.right, up.at(SOURED)), width=1.2, dash="7 4"),
        course_line(frame, ph.median, up, named[2]),
        ph_axis(frame.left, up),
        day_axis(frame),
    )
    return "".join(drawn), [each for each in named if each is not named[1] or keeps[-1] is not None]


def _held(value: float | None, up: LengthScale) -> float:
    return up.low if value is None else min(max(value, up.low), up.high)


def bars(view: FermentView, frame: Frame, top: float) -> tuple[str, float]:
    """Return a bar for each date, with its words at the left, and where they end."""
    drawn, y = [], top
    for name, words in BARS:
        number = view.number(name)
        if number is None:
            continue
        y += ROW_PX
        if number.value is None or number.low is None or number.high is None:
            drawn.append(note((frame.left + 4.0, y), f"{words}: {never_words(number.never_frac)}"))
            continue
        low, middle, high = (view.batch.last_d + each for each in (number.low, number.value, number.high))
        start, end = (min(frame.days.at(each), frame.right) for each in (low, high))
        said = _words(words, (number.low, number.value, number.high))
        if number.never_frac >= RARE:
            said += f", in {chance_words(1.0 - number.never_frac)}"
        wide = text_width(said, SMALL_PX) + 10.0
        if frame.edge < NARROW_PX:
            drawn.append(note((0.0, y), said))
            y += 15.0
        elif end + wide <= frame.edge:
            drawn.append(note((end + 8.0, y), said))
        else:
            drawn.append(note((start - 8.0, y), said, anchor="end"))
        drawn.append(interval((start, y - 5.0), (end, y - 5.0), middle=min(frame.days.at(middle), frame.right)))
    return "".join(drawn), y + 6.0


def _words(words: str, days: tuple[float, float, float]) -> str:
    low, middle, high = (round(each) for each in days)
    between = "" if low == high else f" ({low} to {high})"
    return f"{words}: day {middle}{between}"


def warmth(frame: Frame) -> str:
    """Return how warm it is where the vessel stands, in a low chart of its own."""
    view = frame.view
    unit = "°F" if view.speech.is_us else "°C"
    room = [converted(float(each), "°C", unit) for each in view.batch.filling.kept.room_c]
    up = frame.upright(min(room) - 2.0, max(room) + 2.0)
    points = [(frame.days.at(day), up.at(each)) for day, each in enumerate(room)]
    points.append((frame.right, points[-1][1]))
    levels = {round(min(room)), round(max(room))}
    marks = [(up.at(each), f"{each:g}") for each in sorted(levels) if up.low <= each <= up.high]
    return "".join(
        (
            title_words((0.0, frame.top - 8.0), f"Where it stands, {unit}"),
            phases(frame, has_words=False),
            axis((frame.left, frame.bottom), (frame.left, frame.top), marks, gridded_to=frame.right),
            line((frame.left, frame.bottom), (frame.right, frame.bottom)),
            polyline(steps(points), width=LEVEL_PX),
        )
    )
