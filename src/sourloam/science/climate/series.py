"""A year of temperature, day by day: from twelve monthly means, or from measured days."""

from calendar import monthrange
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import accumulate, pairwise
from statistics import fmean
from typing import Final, NamedTuple

import numpy as np

from sourloam.base.checks import within
from sourloam.base.days import YEAR_D
from sourloam.base.errors import BadInput, Problem
from sourloam.base.numbers import FloatArray
from sourloam.base.ranges import Range

OUTDOOR: Final = Range(-60.0, 50.0, "°C")
LONGEST_GAP_D: Final = 3  # a longer one hides a cold spell, and nobody could tell
_LEAP: Final = 2024  # any leap year: only its calendar is used
_ORDINARY: Final = 2023
_MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_LEAP_DAY: Final = 59  # place of 29 February in a leap year, counted from 0


class DayRange(NamedTuple):
    """The coldest and the warmest temperature of one day."""

    on: date
    low_c: float
    high_c: float


class Year(NamedTuple):
    """Mean temperature of each day, for both lengths of a year."""

    ordinary_c: tuple[float, ...]
    leap_c: tuple[float, ...]


def smooth_year(monthly_mean_c: Sequence[float]) -> Year:
    """Return a smooth curve of daily means that keeps the mean of every month.

    Raises
    ------
    BadInput
        If there are not twelve months.
    OutOfRange
        If a month is colder or hotter than any place where people garden.
    """
    if len(monthly_mean_c) != 12:
        found = f"there are {len(monthly_mean_c)} values."
        raise BadInput("climate", (Problem("monthly means", found, "Write twelve, January first."),))
    within(monthly_mean_c, OUTDOOR, name="monthly_mean_c", why="no garden has such a month.")
    return Year(_through_months(monthly_mean_c, _ORDINARY), _through_months(monthly_mean_c, _LEAP))


def typical_year(days: Iterable[DayRange]) -> Year:
    """Return the mean of each calendar day; several years are averaged, short gaps are bridged.

    Raises
    ------
    BadInput
        If more than three days in a row are missing, or a day is warmer at its coldest than at its warmest.
    OutOfRange
        If a day is colder or hotter than any place where people garden.
    """
    found = _by_calendar_day(days)
    leap = _bridged(found)
    if _LEAP_DAY not in found:
        leap[_LEAP_DAY] = (leap[_LEAP_DAY - 1] + leap[_LEAP_DAY + 1]) / 2
    return Year(tuple(leap[:_LEAP_DAY] + leap[_LEAP_DAY + 1 :]), tuple(leap))


def monthly_means_c(ordinary_c: Sequence[float]) -> tuple[float, ...]:
    """Return the mean of each month of an ordinary year of daily means."""
    ends = [0, *accumulate(_month_lengths(_ORDINARY))]
    return tuple(fmean(ordinary_c[first:last]) for first, last in pairwise(ends))


def _through_months(means_c: Sequence[float], year: int) -> tuple[float, ...]:
    """Differentiate a periodic cubic spline through the running sum of degrees at the ends of the months.

    That sum is known exactly at the end of each month, so that the mean of every
    month is kept to the last digit. A sum of twelve harmonics would keep it too,
    but swings between months; one harmonic is smooth, but misses months by
    degrees wherever spring and autumn differ.
    """
    lengths = np.array(_month_lengths(year), dtype=float)
    overall = float(np.dot(lengths, means_c) / lengths.sum())
    rises = (np.asarray(means_c, dtype=float) - overall) * lengths  # of the running sum, which ends where it began
    bends = _bends(rises, lengths)
    next_bends = np.roll(bends, -1)
    slopes = rises / lengths - lengths * (2 * bends + next_bends) / 6
    curve: list[float] = []
    for length, slope, bend, next_bend in zip(lengths, slopes, bends, next_bends, strict=True):
        steps = np.arange(length + 1)
        sums = steps * (slope + steps * (bend / 2 + steps * (next_bend - bend) / (6 * length)))
        curve += (overall + np.diff(sums)).tolist()
    return tuple(curve)


def _bends(rises: FloatArray, lengths: FloatArray) -> FloatArray:
    """Return the second derivative of the spline at the start of each month."""
    before = np.roll(lengths, 1)
    matrix = np.diag(2 * (before + lengths))
    for each in range(12):
        matrix[each, each - 1] += before[each]
        matrix[each, (each + 1) % 12] += lengths[each]
    slopes = rises / lengths
    return np.asarray(np.linalg.solve(matrix, 6 * (slopes - np.roll(slopes, 1))), dtype=float)


def _month_lengths(year: int) -> list[int]:
    return [monthrange(year, month)[1] for month in range(1, 13)]


def _by_calendar_day(days: Iterable[DayRange]) -> dict[int, float]:
    """Return the mean of every day that was measured, by its place in a leap year."""
    gathered: dict[int, list[float]] = {}
    for each in days:
        within((each.low_c, each.high_c), OUTDOOR, name=f"temperature of {each.on}", why="no garden has such a day.")
        if each.low_c > each.high_c:
            found = f"the least, {each.low_c:g} °C, is above the greatest, {each.high_c:g} °C."
            raise BadInput("climate", (Problem(f"{each.on}", found, "Write the least first."),))
        place = (each.on.replace(year=_LEAP) - date(_LEAP, 1, 1)).days
        gathered.setdefault(place, []).append((each.low_c + each.high_c) / 2)
    return {place: fmean(means) for place, means in gathered.items()}


def _bridged(found: dict[int, float]) -> list[float]:
    """Return all 366 days; a straight line bridges a gap, around the end of the year too."""
    known = sorted(found)
    problems = tuple(_too_long(*gap) for gap in _gaps(known) if _missing(*gap) > LONGEST_GAP_D)
    if problems or not known:
        raise BadInput("climate", problems or (Problem("", "there is no day in it.", "It needs every day of a year."),))
    around = [known[-1] - YEAR_D - 1, *known, known[0] + YEAR_D + 1]
    means = [found[known[-1]], *(found[each] for each in known), found[known[0]]]
    return [float(each) for each in np.interp(np.arange(YEAR_D + 1), around, means)]


def _gaps(known: list[int]) -> list[tuple[int, int]]:
    if not known:
        return []
    return [*pairwise(known), (known[-1], known[0] + YEAR_D + 1)]


def _missing(before: int, after: int) -> int:
    """Return how many days lie between two places; 29 February may always be absent."""
    return after - before - 1 - (before < _LEAP_DAY < after)


def _too_long(before: int, after: int) -> Problem:
    first, last = before + 1, after - 1
    if first == _LEAP_DAY:  # never asked for
        first += 1
    span = f"{_words(first)} to {_words(last)}"
    found = f"{_missing(before, after)} days are missing."
    return Problem(span, found, f"At most {LONGEST_GAP_D} in a row can be bridged.")


def _words(place: int) -> str:
    on = date(_LEAP, 1, 1) + timedelta(days=place % (YEAR_D + 1))
    return f"{on.day} {_MONTHS[on.month - 1]}"
