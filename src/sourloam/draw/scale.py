"""Scales: where a day or an amount lies in a drawing, and which ticks an axis gets."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from sourloam.base.days import MONTHS, Span

NO_BREAK: Final = "\u00a0"


@dataclass(frozen=True)
class LengthScale:
    """From amounts to pixels along a straight line; `start_px` may be the larger, as on an axis that goes up."""

    low: float
    high: float
    start_px: float
    end_px: float

    def at(self, value: float) -> float:
        """Return where an amount lies."""
        if self.high == self.low:
            return self.start_px
        return self.start_px + (value - self.low) / (self.high - self.low) * (self.end_px - self.start_px)

    @property
    def px_per_unit(self) -> float:
        """Return the pixels of one unit, always positive."""
        return abs(self.end_px - self.start_px) / (self.high - self.low)


@dataclass(frozen=True)
class TimeScale:
    """From days to pixels; `first` begins at `start_px`, `last` ends at `end_px`."""

    first: date
    last: date
    start_px: float
    end_px: float

    @property
    def px_per_day(self) -> float:
        """Return how long a day is."""
        return (self.end_px - self.start_px) / ((self.last - self.first).days + 1)

    def at(self, day: date) -> float:
        """Return where a day begins; a day outside is held at the end."""
        days = (day - self.first).days
        return min(max(self.start_px + days * self.px_per_day, self.start_px), self.end_px)

    def past(self, day: date) -> float:
        """Return where a day ends."""
        return self.at(day + timedelta(days=1))

    def holds(self, day: date | None) -> bool:
        """Whether a day lies inside."""
        return day is not None and self.first <= day <= self.last


def months(first: date, last: date) -> Iterator[Span]:
    """Give the months from one day to another, the first and the last as far as they lie inside."""
    day = first
    while day <= last:
        following = date(day.year + day.month // 12, day.month % 12 + 1, 1)
        yield Span(day, min(following - timedelta(days=1), last))
        day = following


def ticks(low: float, high: float, most: int = 5) -> tuple[float, ...]:
    """Return at most `most` round numbers from `low` to `high`: steps of 1, 2 or 5 times a power of ten."""
    if high <= low:
        return (low,)
    step = _step((high - low) / max(most - 1, 1))
    start, end = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return tuple(each * step for each in range(start, end + 1))


def round_up(value: float) -> float:
    """Return the next number of 1, 2, 3, 4, 5, 6 or 8 times a power of ten: the end of an axis."""
    if value <= 0.0:
        return 1.0
    power = 10.0 ** math.floor(math.log10(value))
    return next(times * power for times in (1, 2, 3, 4, 5, 6, 8, 10) if times * power >= value * (1.0 - 1e-9))


def day_words(day: date) -> str:
    """Return a day as it stands in a drawing, which does not break: "13 Oct"."""
    return f"{day.day}{NO_BREAK}{MONTHS[day.month - 1]}"


def span_words(first: date, last: date) -> str:
    """Return a stretch of days: "1 to 4 Jan", "28 Dec to 4 Jan", or the one day."""
    if first == last:
        return day_words(first)
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} to {day_words(last)}"
    return f"{day_words(first)} to {day_words(last)}"


def _step(least: float) -> float:
    power = 10.0 ** math.floor(math.log10(least))
    return next(times * power for times in (1.0, 2.0, 5.0, 10.0) if times * power >= least * (1.0 - 1e-9))
