"""Weather files: a table of date, min, max (CSV), or an hourly file for buildings (EPW), into days."""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final, NamedTuple

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.science.climate.series import OUTDOOR, DayRange

LARGEST_BYTES: Final = 20_000_000
SHOWN: Final = 30  # faults that are listed one by one
EPW_HEAD: Final = 8  # lines before the first hour
EPW_DRY_BULB: Final = 6  # place of the temperature in a row, from 0
EPW_MISSING_C: Final = 99.9  # as the format writes an hour without a temperature
EPW_LEAST_HOURS: Final = 20  # of a day, else it counts as missing
_ABSENT: Final = frozenset({"", "-", "na", "n/a", "nan", "null"})
_DATE: Final = re.compile(r"\d{4}-\d\d-\d\d")
_NAMED: Final = r"(?:t|temp|temperature)?[ _]*(min|max)(?:imum)?"
_HEADER: Final = re.compile(_NAMED + r"[ _]*[(\[]?(?:°|deg)?[ _]*([cf])?[)\]]?")
_UNIT: Final = re.compile(r"[(\[]?(?:°|deg)?\s*([cf])[)\]]?")


class _Row(NamedTuple):
    line: int
    cells: list[str]


class _Columns(NamedTuple):
    """Where the three columns stand, and the unit of each of the two temperatures."""

    date: int
    low: int
    high: int
    units: tuple[str, str]  # of min and max; empty where the first line tells none


def read_weather(path: Path) -> tuple[DayRange, ...]:
    """Read a weather file; which of the two kinds it is shows in its first line.

    Days without a temperature are left out; `Climate.from_daily` bridges short
    gaps and refuses long ones.

    Raises
    ------
    BadInput
        If it is not such a file, or with every fault that stands in it, by line.
    Surroundings
        If it exists and may not be read.
    """
    content = _content(path)
    problems: list[Problem] = []
    if content.startswith(b"LOCATION,"):
        # Only digits are read, so that a place name in an old encoding does no harm.
        days = _epw(content.decode("latin-1"), problems)
    else:
        days = _csv(_text(path, content), problems)
    if not days and not problems:
        problems.append(Problem("", "there is no day in it.", "It needs every day of a year."))
    if problems:
        raise BadInput(path.name, _shortened(problems))
    return tuple(sorted(days))


def _content(path: Path) -> bytes:
    """Return the bytes of a file, or refuse it before it is read."""
    try:
        if path.is_dir():
            raise _refused(path, "this is a folder.", "Name the file in it.")
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            remedy = f"At most {LARGEST_BYTES // 1_000_000} MB is read. Cut it down to the days of a few years."
            raise _refused(path, f"the file has {size / 1e6:.1f} MB.", remedy)
        content = path.read_bytes()
    except FileNotFoundError:
        raise _refused(path, "there is no such file.", "Give its name as seen from the site file.") from None
    except OSError as fault:
        raise Surroundings(f"{path.name} cannot be read: {fault.strerror}.", "See who may read it.") from fault
    if not content.strip():
        raise _refused(path, "the file is empty.", "It needs a line with the names date, min, max, and then the days.")
    return content


def _text(path: Path, content: bytes) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = content.count(b"\n", 0, fault.start) + 1
        problem = Problem("", "this is not text in UTF-8.", "Save the table as CSV in UTF-8.", line)
        raise BadInput(path.name, (problem,)) from None


def _refused(path: Path, found: str, remedy: str) -> BadInput:
    return BadInput(path.name, (Problem("", found, remedy),))


def _shortened(problems: list[Problem]) -> tuple[Problem, ...]:
    """Return the first faults, and how many more there are: one wrong setting spoils every line alike."""
    left = len(problems) - SHOWN
    if left <= 0:
        return tuple(problems)
    return (*problems[:SHOWN], Problem("", f"and {left} more of the kind.", "Mend these first."))


# A table of date, min, max


def _csv(text: str, problems: list[Problem]) -> list[DayRange]:
    delimiter = ";" if ";" in text.lstrip().partition("\n")[0] else ","
    try:
        rows = list(_rows(text, delimiter))
    except csv.Error as fault:
        problems.append(Problem("", f"this is not a table ({fault}).", "Save it as CSV."))
        return []
    columns = _columns(rows[0] if rows else _Row(1, []), problems)
    if columns is None:
        return []
    units = _unit_row(columns, rows[1:2])
    table = _Table(columns, units or columns.units, decimal_comma=delimiter == ";", problems=problems)
    if units and any(each not in {"", unit} for each, unit in zip(columns.units, units, strict=True)):
        table.fault(rows[1], "", "the units differ from those in the first line.", "Keep one of the two.")
    return table.days(rows[2:] if units else rows[1:])


def _rows(text: str, delimiter: str) -> Iterator[_Row]:
    """Give each line that holds something, with its number."""
    reader = csv.reader(text.splitlines(), delimiter=delimiter, strict=True)
    for cells in reader:
        if any(cell.strip() for cell in cells):
            yield _Row(reader.line_num, [cell.strip() for cell in cells])


def _columns(head: _Row, problems: list[Problem]) -> _Columns | None:
    """Find the three columns by their names, in whatever order."""
    found: dict[str, tuple[int, str]] = {}
    for place, cell in enumerate(head.cells):
        match = _HEADER.fullmatch(cell.lower())
        what, unit = (match[1], match[2] or "") if match else (cell.lower(), "")
        if what in found and what in {"date", "min", "max"}:
            problems.append(Problem(f'column "{what}"', "it stands here twice.", "Keep one of the two.", head.line))
            return None
        found[what] = (place, unit)
    lacking = [f'"{name}"' for name in ("date", "min", "max") if name not in found]
    if lacking:
        remedy = "The first line names the columns date, min and max; min_f and max_f if in Fahrenheit."
        problems.append(Problem("", f"there is no column {' and no '.join(lacking)}.", remedy, head.line))
        return None
    return _Columns(found["date"][0], found["min"][0], found["max"][0], (found["min"][1], found["max"][1]))


def _unit_row(columns: _Columns, rows: list[_Row]) -> tuple[str, str] | None:
    """Return the units of min and max if the first of `rows` holds units instead of a day."""
    for row in rows:
        if len(row.cells) > max(columns.low, columns.high):
            low, high = (_UNIT.fullmatch(row.cells[place].lower()) for place in (columns.low, columns.high))
            return (low[1], high[1]) if low and high else None
    return None


@dataclass(frozen=True)
class _Table:
    """The lines below the names; what is wrong in them is added to `problems`."""

    columns: _Columns
    units: tuple[str, str]
    decimal_comma: bool
    problems: list[Problem]

    def fault(self, row: _Row, where: str, found: str, remedy: str) -> None:
        self.problems.append(Problem(where, found, remedy, row.line))

    def days(self, rows: list[_Row]) -> list[DayRange]:
        """Return every day that has both temperatures."""
        days: dict[date, DayRange] = {}
        for row in rows:
            day = self.day(row)
            if day is not None and day.on in days:
                self.fault(row, f"{day.on}", "this day stands here twice.", "Keep one of the two.")
            elif day is not None:
                days[day.on] = day
        return list(days.values())

    def day(self, row: _Row) -> DayRange | None:
        """Return the day of a row; nothing where a temperature is absent or a fault was noted."""
        columns = self.columns
        if len(row.cells) <= max(columns.date, columns.low, columns.high):
            count = len(row.cells)
            self.fault(row, "", f"only {count} of the columns stand{'s' * (count == 1)} here.", "Fill the line.")
            return None
        on = self.date(row)
        low = self.temperature_c(row, "min", row.cells[columns.low], self.units[0])
        high = self.temperature_c(row, "max", row.cells[columns.high], self.units[1])
        if on is None or low is None or high is None:
            return None
        if low > high:
            found = f"min, {low:g} °C, is above max, {high:g} °C."
            self.fault(row, f"{on}", found, "Are the columns swapped?")
            return None
        return DayRange(on, low, high)

    def date(self, row: _Row) -> date | None:
        """Return the date of a row, or note what is wrong with it."""
        cell = row.cells[self.columns.date]
        found = f'"{cell}" is not a date.'
        if _DATE.fullmatch(cell):
            try:
                return date.fromisoformat(cell)
            except ValueError:
                found = f'"{cell}" is not a day of the calendar.'
        self.fault(row, "date", found, "Write year, month and day as in 2024-03-01.")
        return None

    def temperature_c(self, row: _Row, where: str, cell: str, unit: str) -> float | None:
        """Return a temperature, or nothing where it is absent or a fault was noted."""
        if cell.lower() in _ABSENT:
            return None
        remedy = "Leave it empty if it was not measured."
        try:
            typed = float(cell.replace(",", ".") if self.decimal_comma else cell)
        except ValueError:
            self.fault(row, where, f'"{cell}" is not a number.', remedy)
            return None
        value_c = (typed - 32.0) / 1.8 if unit == "f" else typed
        if OUTDOOR.low <= value_c <= OUTDOOR.high:
            return value_c
        if not unit and typed > OUTDOOR.high:
            remedy = "If it is in Fahrenheit, name the columns min_f and max_f."
        self.fault(row, where, f"{cell}{' °F' * (unit == 'f')} is outside {OUTDOOR}.", remedy)
        return None


# Hours for buildings


def _epw(text: str, problems: list[Problem]) -> list[DayRange]:
    hours: dict[date, list[float]] = {}
    for line, row in enumerate(text.splitlines()[EPW_HEAD:], EPW_HEAD + 1):
        if row.strip():
            _hour(row.split(","), line, hours, problems)
    return [DayRange(on, min(each), max(each)) for on, each in hours.items() if len(each) >= EPW_LEAST_HOURS]


def _hour(cells: list[str], line: int, hours: dict[date, list[float]], problems: list[Problem]) -> None:
    """Add the temperature of one line to its day."""
    remedy = "Take the file anew from where it came."
    try:
        on = date(int(cells[0]), int(cells[1]), int(cells[2]))
        dry_bulb_c = float(cells[EPW_DRY_BULB])
    except (ValueError, IndexError):
        problems.append(Problem("", "this is not an hour of an EPW file.", remedy, line))
        return
    if dry_bulb_c == EPW_MISSING_C:
        return
    if OUTDOOR.low <= dry_bulb_c <= OUTDOOR.high:
        hours.setdefault(on, []).append(dry_bulb_c)
    else:
        problems.append(Problem("dry bulb", f"{dry_bulb_c:g} is outside {OUTDOOR}.", remedy, line))
