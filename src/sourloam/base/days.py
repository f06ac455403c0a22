"""Arithmetic on dates that are passed in; there is no "now" here."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
LONG_MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
MONTHS: Final = tuple(each[:3] for each in LONG_MONTHS)
YEAR_D: Final = 365


@dataclass(frozen=True, order=True)
class Span:
    """From one day to another, both included."""

    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        return self.first <= day <= self.last

    @property
    def days(self) -> int:
        """Return how many days it has."""
        return (self.last - self.first).days + 1

    def __str__(self) -> str:
        return f"{self.first.isoformat()} to {self.last.isoformat()}"


def after(day: date, days: float) -> date:
    """Return the day that lies `days` later; a part of a day counts as a whole one."""
    return day + timedelta(days=int(-(-days // 1)))


def before(day: date, days: float) -> date:
    """Return the day that lies `days` earlier; a part of a day counts as a whole one."""
    return day - timedelta(days=int(-(-days // 1)))


def daily(first: date, days: int) -> Iterator[date]:
    """Give `days` days, beginning with `first`."""
    for each in range(days):
        yield first + timedelta(days=each)


def weekday(day: date) -> str:
    """Return the short name of the day of the week."""
    return WEEKDAYS[day.weekday()]


def next_on(day: date, weekdays: tuple[str, ...]) -> date:
    """Return the first day from `day` on that falls on one of `weekdays`."""
    for each in daily(day, 7):
        if not weekdays or weekday(each) in weekdays:
            return each
    return day


def last_on(day: date, weekdays: tuple[str, ...]) -> date:
    """Return the latest day up to `day` that falls on one of `weekdays`."""
    for each in range(7):
        if not weekdays or weekday(day - timedelta(days=each)) in weekdays:
            return day - timedelta(days=each)
    return day
