"""The kinds of value that a key may hold: each reads what a person wrote, checks it, and writes it back."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from difflib import get_close_matches
from typing import Final

from sourloam.base.days import WEEKDAYS, Span
from sourloam.base.errors import offer
from sourloam.base.fields import REQUIRED, Asking, Fault, Key
from sourloam.base.literals import listed, quoted, shown
from sourloam.base.quantity import BadQuantity, read_quantity, write_quantity
from sourloam.base.units import EXAMPLES, Dimension

NOT_PRICES: Final = tuple(each for each in Dimension if each is not Dimension.PRICE)
LONGEST_TEXT: Final = 400
LONGEST_NAME: Final = 80
LONGEST_ID: Final = 40
EARLIEST: Final = date(1970, 1, 1)  # a date before or after these two is a slip of the pen
LATEST: Final = date(2199, 12, 31)
_ID: Final = re.compile(r"[a-z][a-z0-9-]*")
_CONTROL: Final = re.compile(r"[\x00-\x1f\x7f-\x9f]")
_SPAN: Final = re.compile(r"(\d{4}-\d{2}-\d{2})\s+(?:to|until)\s+(\d{4}-\d{2}-\d{2})")


def amount(
    name: str,
    low: str,
    high: str,
    *,
    help: str,  # noqa: A002 - the word a reader of the declaration expects
    default: object = REQUIRED,
    why: str = "that is beyond what is known here.",
    assume: str = "",
) -> Key:
    """Declare a quantity; its dimension is that of its bounds."""
    return Key(name, Amount(_dimension(low), low, high, why), help, default, assume)


def _dimension(text: str) -> Dimension:
    try:
        return read_quantity(text, NOT_PRICES).dimension
    except BadQuantity:
        return read_quantity(text, Dimension.PRICE).dimension


@dataclass(frozen=True)
class Amount:
    """A quantity of one dimension between two bounds."""

    dimension: Dimension
    low: str
    high: str
    why: str

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return EXAMPLES[self.dimension].partition(" or ")[0]

    def read(self, raw: object, asking: Asking) -> float:
        """Return the value in the project's unit."""
        if not isinstance(raw, str):
            is_number = isinstance(raw, int | float) and not isinstance(raw, bool)
            raise Fault(
                f"{shown(raw)} {'has no unit' if is_number else 'is not a quantity'};",
                f"write it in quotes with its unit, for example {EXAMPLES[self.dimension]}.",
            )
        value = self._value(raw, asking)
        low, high = (read_quantity(text, self.dimension).value for text in (self.low, self.high))
        if not low <= value <= high:
            raise Fault(f'"{raw}" is outside {self.low} to {self.high}: {self.why}', self._meant(raw, value, low, high))
        return value

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return f'"{write_quantity(float(str(value)), self.dimension)}"'

    def _value(self, raw: str, asking: Asking) -> float:
        try:
            return read_quantity(raw, self.dimension, handful_kg=asking.handful_kg).value
        except BadQuantity as bad:
            raise Fault(bad.found, bad.remedy) from None

    def _meant(self, raw: str, value: float, low: float, high: float) -> str:
        """Offer the same digits with the point moved, where that would do."""
        meant = re.sub(r"(\d)0(?=\D)", r"\1", raw, count=1)
        if meant == raw or not low <= value / 10 <= high:
            return ""
        return f'If you meant {meant}, write "{meant}".'


@dataclass(frozen=True)
class Text:
    """Free words."""

    longest: int = LONGEST_TEXT

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '"..."'

    def read(self, raw: object, _asking: Asking) -> str:
        """Return the words with one space between them; they may go over several lines of the file."""
        if not isinstance(raw, str):
            raise Fault(f"{shown(raw)} is not text;", "write it in quotes.")
        words = " ".join(raw.split())
        if len(words) > self.longest:
            raise Fault(f"{len(words)} characters are too long;", f"{self.longest} will do.")
        if _CONTROL.search(words):
            raise Fault(f"{shown(raw)} holds a character that cannot be shown;", "leave it out.")
        return words

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return quoted(str(value))


@dataclass(frozen=True)
class Ident:
    """A name that other things refer to, and that never changes."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '"blue"'

    def read(self, raw: object, _asking: Asking) -> str:
        """Return the id."""
        if isinstance(raw, str) and _ID.fullmatch(raw) and len(raw) <= LONGEST_ID:
            return raw
        meant = id_of(str(raw))
        remedy = f'Write "{meant}".' if _ID.fullmatch(meant) else 'Write one such as "blue-1".'
        rule = f"a letter first, then letters, digits and hyphens, all small, {LONGEST_ID} at most."
        raise Fault(f"{shown(raw)} is not an id: {rule}", remedy)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return quoted(str(value))


@dataclass(frozen=True)
class Choice:
    """One of a few words."""

    options: tuple[str, ...]

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return " or ".join(f'"{each}"' for each in self.options)

    def read(self, raw: object, _asking: Asking) -> str:
        """Return the word."""
        if isinstance(raw, str) and raw in self.options:
            return raw
        near = tuple(get_close_matches(str(raw), self.options, n=1))
        raise Fault(f"{shown(raw)} is not one of {', '.join(self.options)}.", offer(near).strip())

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return quoted(str(value))


@dataclass(frozen=True)
class Choices:
    """Any of a few words, as a list."""

    options: tuple[str, ...]

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"a list from: {', '.join(self.options)}"

    def read(self, raw: object, asking: Asking) -> tuple[str, ...]:
        """Return the words in the order of the options, each once."""
        if not isinstance(raw, list | tuple):
            raise Fault(f"{shown(raw)} is not a list;", f'write one such as ["{self.options[0]}"].')
        chosen = {Choice(self.options).read(each, asking) for each in raw}
        return tuple(each for each in self.options if each in chosen)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return listed(quoted(str(each)) for each in _sequence(value))


WEEK: Final = Choices(WEEKDAYS)


@dataclass(frozen=True)
class Whole:
    """A whole number."""

    low: int
    high: int

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"a whole number from {self.low} to {self.high}"

    def read(self, raw: object, _asking: Asking) -> int:
        """Return the number."""
        if isinstance(raw, int) and not isinstance(raw, bool) and self.low <= raw <= self.high:
            return raw
        raise Fault(f"{shown(raw)} will not do;", f"write {self.wanted}.")

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return str(value)


@dataclass(frozen=True)
class Flag:
    """Yes or no."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return "true or false"

    def read(self, raw: object, _asking: Asking) -> bool:
        """Return it."""
        if isinstance(raw, bool):
            return raw
        raise Fault(f"{shown(raw)} is neither yes nor no;", "write true or false, without quotes.")

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return "true" if value else "false"


@dataclass(frozen=True)
class Day:
    """A civil date."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return "2027-03-01"

    def read(self, raw: object, _asking: Asking) -> date:
        """Return the date; one in quotes will do."""
        if isinstance(raw, datetime):
            raise Fault(f"{raw.isoformat()} has a time of day;", f"write only the date: {raw.date().isoformat()}.")
        if isinstance(raw, date):
            return _reasonable(raw)
        if isinstance(raw, str):
            return _date(raw)
        raise Fault(f"{shown(raw)} is not a date;", "write one such as 2027-03-01.")

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return str(value)


@dataclass(frozen=True)
class Spans:
    """Times from one day to another."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '["2027-07-10 to 2027-07-24"]'

    def read(self, raw: object, _asking: Asking) -> tuple[Span, ...]:
        """Return the times, earliest first."""
        if not isinstance(raw, list | tuple):
            raise Fault(f"{shown(raw)} is not a list;", f"write {self.wanted}.")
        return tuple(sorted(self._one(each) for each in raw))

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return listed(quoted(str(each)) for each in _sequence(value))

    def _one(self, raw: object) -> Span:
        match = _SPAN.fullmatch(str(raw).strip())
        if not match:
            raise Fault(f"{shown(raw)} is not a time from one day to another;", 'write "2027-07-10 to 2027-07-24".')
        first, last = _date(match[1]), _date(match[2])
        if last < first:
            raise Fault(f"{shown(raw)} ends before it begins;", f'write "{last} to {first}".')
        return Span(first, last)


@dataclass(frozen=True)
class Factors:
    """A fixed count of plain factors, such as one for each weekday."""

    count: int
    first: str  # what the first one stands for

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"a list of {self.count} numbers, {self.first} first"

    def read(self, raw: object, _asking: Asking) -> tuple[float, ...]:
        """Return the factors."""
        if not isinstance(raw, list | tuple) or len(raw) != self.count:
            raise Fault(f"{shown(raw)} will not do;", f"write {self.wanted}.")
        if any(isinstance(each, bool) or not isinstance(each, int | float) for each in raw):
            raise Fault(f"{shown(raw)} holds something that is no number;", f"write {self.wanted}.")
        if not all(0 <= each <= 100 for each in raw) or not any(raw):
            raise Fault(f"{shown(raw)} holds a factor outside 0 to 100, or nothing but 0;", "1 is the usual amount.")
        return tuple(float(each) for each in raw)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return listed(repr(each) for each in _sequence(value))


@dataclass(frozen=True)
class Amounts:
    """A fixed count of quantities of one kind, such as one for each month."""

    count: int
    each: Amount
    first: str

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"a list of {self.count}, {self.first} first, each such as {self.each.wanted}"

    def read(self, raw: object, asking: Asking) -> tuple[float, ...]:
        """Return the values."""
        if not isinstance(raw, list | tuple) or len(raw) != self.count:
            held = f"holds {len(raw)}" if isinstance(raw, list | tuple) else "is no list"
            raise Fault(f"the list {held};", f"write {self.wanted}.")
        return tuple(self.each.read(one, asking) for one in raw)

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        return listed(self.each.write(each) for each in _sequence(value))


@dataclass(frozen=True)
class Shares:
    """Names and what part of the whole each is; together they make the whole."""

    of: str

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return '{ vegetable-scraps = "70 %", coffee-grounds = "30 %" }'

    def read(self, raw: object, asking: Asking) -> tuple[tuple[str, float], ...]:
        """Return names and shares; shares that do not make up the whole are a fault."""
        if not isinstance(raw, Mapping) or not raw:
            raise Fault(f"{shown(raw)} does not say what part each {self.of} is;", f"write {self.wanted}.")
        share = Amount(Dimension.SHARE, "0.01 %", "100 %", "a share is part of a whole.")
        try:
            shares = tuple((str(name), share.read(value, asking)) for name, value in raw.items())
        except Fault as fault:
            raise Fault(f"a share in it: {fault.found}", fault.remedy) from None
        total = sum(value for _, value in shares)
        if abs(total - 1.0) > 0.005:
            raise Fault(f"the shares make {100 * total:.4g} % together;", "they must make 100 %.")
        return shares

    def write(self, value: object) -> str:
        """Return it as it stands in the file."""
        shares: tuple[tuple[str, float], ...] = tuple(value)  # type: ignore[arg-type]
        rows = (f"{name} = {quoted(write_quantity(share, Dimension.SHARE))}" for name, share in shares)
        return "{ " + ", ".join(rows) + " }"


def id_of(words: str) -> str:
    """Return the id that is nearest to some words; where they begin with no letter it is none yet."""
    return re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")[:LONGEST_ID].rstrip("-")


def _date(text: str) -> date:
    try:
        return _reasonable(date.fromisoformat(text.strip()))
    except ValueError:
        raise Fault(f"{shown(text)} is not a date;", "write one such as 2027-03-01.") from None


def _reasonable(day: date) -> date:
    if not EARLIEST <= day <= LATEST:
        raise Fault(f"{day} lies outside {EARLIEST.year} to {LATEST.year};", "write one such as 2027-03-01.")
    return day


def _sequence(value: object) -> tuple[object, ...]:
    return tuple(value)  # type: ignore[arg-type]
