"""What may be shown of what a record says of its site."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from sourloam.base.source import Source
from sourloam.logbook.learned import Lesson, offered
from sourloam.views.as_json import figure_object
from sourloam.views.reason import Number, Reason, number_of, reason_of

LEARNED: Final = "sourloam.learned/1"


@dataclass(frozen=True)
class LearnedLine:
    """A value of the site beside the usual one."""

    name: str
    words: str
    site: Number
    usual: Number
    seen: str  # "3 batches"
    count: int
    write: str


@dataclass(frozen=True)
class LearnedView:
    """All that the record says."""

    site: str
    lines: tuple[LearnedLine, ...]
    offered: tuple[LearnedLine, ...]
    reasons: Mapping[str, Reason]


def learned_view(found: Iterable[Lesson], site: str, sources: Mapping[str, Source]) -> LearnedView:
    """Return what may be shown."""
    held = tuple(found)
    lines = {each.usual.name.rpartition(".")[2]: _line(each) for each in held}
    chosen = {each.usual.name.rpartition(".")[2] for each in offered(held)}
    reasons = {each.usual.name.rpartition(".")[2]: reason_of(each.site, sources) for each in held}
    return LearnedView(site, tuple(lines.values()), tuple(lines[each] for each in lines if each in chosen), reasons)


def learned_object(view: LearnedView) -> dict[str, Any]:
    """Return it as a plain object."""
    return {
        "schema": LEARNED,
        "values": {
            each.name: {
                "site": figure_object(each.site),
                "usual": figure_object(each.usual),
                "seen": each.count,
                "write": each.write or None,
            }
            for each in view.lines
        },
        "offered": [each.name for each in view.offered],
    }


def _line(lesson: Lesson) -> LearnedLine:
    name = lesson.usual.name.rpartition(".")[2]
    of = lesson.of.removesuffix("s") if lesson.count == 1 and lesson.of.endswith("s") else lesson.of
    seen = f"{lesson.count} {of}" if lesson.count else "nothing yet"
    site, usual = number_of(lesson.site), number_of(lesson.usual)
    return LearnedLine(name, lesson.usual.words, site, usual, seen, lesson.count, lesson.write)
