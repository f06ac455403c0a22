"""When a bed may be dug: what is closed, what grows there, and what goes in before a rest is over."""

from collections.abc import Iterable
from datetime import date, timedelta

from sourloam.base.days import Span
from sourloam.science.places.bed.bed import Planting


def span_of(planting: Planting, stands_d: float) -> Span:
    """Return from when to when a crop stands; `stands_d` where the keeper does not say."""
    last = planting.until or planting.on + timedelta(days=round(stands_d))
    return Span(planting.on, max(last, planting.on))


def closed_until(closed: Iterable[Span], on: date) -> date | None:
    """Return the last day of the closing that holds on a day, if one does."""
    return max((each.last for each in closed if on in each), default=None)


def crop_standing(plantings: Iterable[Planting], on: date, stands_d: float) -> tuple[Planting, date] | None:
    """Return the crop that stands on a day and until when, if one does."""
    standing = ((each, span_of(each, stands_d)) for each in plantings)
    return next(((each, span.last) for each, span in standing if on in span), None)


def planted_within(plantings: Iterable[Planting], on: date, rested_on: date) -> Planting | None:
    """Return the first crop that is due to go in from `on` until the rest is over, if there is one."""
    due = [each for each in plantings if on <= each.on < rested_on]
    return min(due, key=lambda each: each.on, default=None)
