"""Times of the year in which no ground can be dug: by rule, and by frost."""

from collections.abc import Iterator
from datetime import date

from sourloam.base.days import Span, daily
from sourloam.plan.question import Question


def closed_ground(question: Question) -> tuple[Span, ...]:
    """Return the times that the site file closes, as far as they lie in the year."""
    last = max(daily(question.first, question.days))
    inside = (each for each in question.site.facts.closed if each.last >= question.first and each.first <= last)
    return tuple(Span(max(each.first, question.first), min(each.last, last)) for each in inside)


def frozen_ground(question: Question) -> tuple[Span, ...]:
    """Return the times in which the soil is frozen at digging depth."""
    return tuple(_spans(on for on in daily(question.first, question.days) if question.climate.is_frozen(on)))


def _spans(days: Iterator[date]) -> Iterator[Span]:
    first: date | None = None
    last: date | None = None
    for on in days:
        if first is None or last is None:
            first, last = on, on
        elif (on - last).days > 1:
            yield Span(first, last)
            first = on
        last = on
    if first is not None and last is not None:
        yield Span(first, last)
