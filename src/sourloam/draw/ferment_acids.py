"""Acids and alcohol of a batch over its days, each line with its name."""

from typing import Final

from sourloam.draw.canvas import axis
from sourloam.draw.ferment_frame import Frame, Named, course_band, course_line, day_axis, last_of, phases
from sourloam.draw.scale import round_up, ticks

# By the dash, not by colour, since colour is matter.
LINES: Final = (
    ("lactic", "lactic acid", None, 2.4),
    ("ethanol", "alcohol", "2 3", 1.8),
    ("acetic", "acetic acid", "8 4", 1.8),
    ("butyric", "butyric acid", "9 3 2 3", 1.8),
)


def acids(frame: Frame) -> tuple[str, list[Named]]:
    """Return the lines with their axes, and their names."""
    courses = {name: frame.view.course[f"{name}_g_per_kg_water"] for name, *_ in LINES}
    most = max(each for course in courses.values() for each in course.high if each is not None)
    up = frame.upright(0.0, round_up(most))
    marks = [(up.at(each), f"{each:g}") for each in ticks(0.0, up.high, most=4)]
    named = [
        Named(words, dash, width, up.at(last_of(courses[name].median) or 0.0)) for name, words, dash, width in LINES
    ]
    drawn = [
        phases(frame, has_words=False),
        axis((frame.left, frame.bottom), (frame.left, frame.top), marks, gridded_to=frame.right),
        course_band(frame, courses["lactic"], up),
        *(course_line(frame, courses[name].median, up, like) for (name, *_), like in zip(LINES, named, strict=True)),
        day_axis(frame),
    ]
    return "".join(drawn), named
