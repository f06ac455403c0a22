"""Reads "12 L", "two handfuls", "64 F" or "1,5 kg" as a person writes them, and keeps what was written."""

import math
import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from types import MappingProxyType
from typing import Final

from sourloam.base.errors import SourloamError
from sourloam.base.units import ALSO, BY_NAME, EXAMPLES, OWN, QUOTIENTS, Dimension, Unit

_WORDS: Final = MappingProxyType(
    {
        "a": 1.0,
        "an": 1.0,
        "one": 1.0,
        "two": 2.0,
        "three": 3.0,
        "four": 4.0,
        "five": 5.0,
        "six": 6.0,
        "seven": 7.0,
        "eight": 8.0,
        "nine": 9.0,
        "ten": 10.0,
        "twelve": 12.0,
        "half": 0.5,
        "half a": 0.5,
        "half an": 0.5,
    }
)
LONGEST: Final = 60  # characters; nobody writes one number and its unit at such length
_NUMBER: Final = re.compile(
    r"(?P<whole>[-+]?[0-9]+)\s+(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    r"|(?P<over>[-+]?[0-9]+)/(?P<under>[0-9]+)"
    r"|(?P<plain>[-+]?[0-9.,]+(?:e[-+]?[0-9]{1,3})?)",
    re.IGNORECASE,
)
_WORD: Final = re.compile(r"(?P<word>half an?|[a-z]+)\b\s*", re.IGNORECASE)
_THOUSANDS: Final = re.compile(r"[-+]?[1-9][0-9]{0,2},[0-9]{3}")
_PER: Final = re.compile(r"\b(?:per(?! cent\b)|a|an|each|every)\b", re.IGNORECASE)
_SIDES: Final = re.compile(r"(?P<length>[^x×]+?)\s*[x×]\s*(?P<width>[^x×]+)")
_HANDFUL: Final = ("handful", "handfuls")


class BadQuantity(SourloamError, ValueError):
    """A quantity that cannot be read, or is of the wrong kind."""

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found, remedy)
        self.found, self.remedy = found, remedy

    def __str__(self) -> str:
        return f"{self.found} {self.remedy}"


@dataclass(frozen=True)
class Quantity:
    """A number in the project's unit of its dimension, and what was written."""

    value: float
    dimension: Dimension
    typed: str


def read_quantity(
    typed: str, wanted: Dimension | tuple[Dimension, ...], *, handful_kg: float | None = None
) -> Quantity:
    """Read a quantity of one of the `wanted` dimensions.

    Raises
    ------
    BadQuantity
        If there is no number, no unit, an unknown unit, or a quantity of another kind.
    """
    dimensions = wanted if isinstance(wanted, tuple) else (wanted,)
    text = " ".join(typed.split()).replace("\N{MINUS SIGN}", "-")
    if len(text) > LONGEST:
        raise BadQuantity(f"{len(text)} characters are too long for a quantity;", _write_one(dimensions))
    if Dimension.AREA in dimensions and (sides := _SIDES.fullmatch(text)):
        return _area(sides, typed)
    number, unit_text = _split(text, typed, dimensions)
    top, slash, bottom = (part.strip() for part in _PER.sub("/", unit_text).partition("/"))
    if Dimension.PRICE in dimensions:
        return Quantity(_float(number / _mass(bottom if slash else "", typed).exact, typed), Dimension.PRICE, typed)
    if top.casefold() in _HANDFUL:
        number, top = number * _handful(handful_kg), "kg"
    upper, lower = _unit(top, typed, dimensions), _unit(bottom, typed, dimensions) if slash else None
    value, dimension = _combine(number, upper, lower, typed=typed, wanted=dimensions)
    if dimension not in dimensions:
        raise BadQuantity(
            f'"{typed}" is {_article(dimension)};',
            f"{_article(dimensions[0])} is wanted, for example {EXAMPLES[dimensions[0]]}.",
        )
    return Quantity(_float(value, typed), dimension, typed)


def _area(sides: re.Match[str], typed: str) -> Quantity:
    """Read length times width; a unit that stands only at the end is that of both."""
    length, width = sides["length"], sides["width"]
    unit = re.sub(r"^[\d.,\s/]+", "", width)
    bare = re.fullmatch(r"[\d.,\s/]+", length)
    metres = [read_quantity(each, Dimension.LENGTH).value for each in (f"{length} {unit}" if bare else length, width)]
    return Quantity(metres[0] * metres[1], Dimension.AREA, typed)


def write_quantity(value: float, dimension: Dimension) -> str:
    """Write a value so that reading it gives the same number again, in the unit in which that is shortest.

    Raises
    ------
    ValueError
        If the value is not a finite number.
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} is no {dimension} that can be written")
    exact = Decimal(repr(value)).scaleb(2 if dimension is Dimension.SHARE else 0)
    own = f"{_digits(exact)} {OWN[dimension]}"
    others = (_written_in(value, unit, dimension) for unit in ALSO.get(dimension, ()))
    return min((own, *filter(None, others)), key=lambda text: len(text.partition(" ")[0]))


def _written_in(value: float, unit: str, dimension: Dimension) -> str:
    """Return a short text in another unit that reads back as `value`, or nothing if there is none."""
    one, two = (read_quantity(f"{number} {unit}", dimension).value for number in (0, 1))
    for digits in range(1, 7):
        text = f"{_digits(Decimal(f'{(value - one) / (two - one):.{digits}g}'))} {unit}"
        if _reads_as(text, value, dimension):
            return text
    return ""


def _digits(number: Decimal) -> str:
    """Return the digits of a number, with an exponent only where there would be a row of zeros."""
    plain = number.normalize()
    return f"{plain:f}" if plain.is_finite() and -6 < plain.adjusted() < 16 else str(plain).lower()


def _reads_as(text: str, value: float, dimension: Dimension) -> bool:
    try:
        return read_quantity(text, dimension).value == value
    except BadQuantity:
        return False


def _split(text: str, typed: str, wanted: tuple[Dimension, ...]) -> tuple[Fraction, str]:
    text = re.sub(r"^(about|around|roughly|ca\.?|~)\s*", "", text, flags=re.IGNORECASE)
    if match := _NUMBER.match(text):
        return _number(match, typed, text[match.end() :].strip())
    if (word := _WORD.match(text)) and word["word"].lower() in _WORDS:
        return Fraction(_WORDS[word["word"].lower()]), text[word.end() :].strip()
    raise BadQuantity(f'"{typed}" holds no number;', _write_one(wanted))


def _number(match: re.Match[str], typed: str, unit_text: str) -> tuple[Fraction, str]:
    if match["plain"]:
        return _plain(match["plain"], typed, unit_text), unit_text
    over, under = match["over"] or match["top"], match["under"] or match["bottom"]
    if int(under) == 0:
        raise BadQuantity(f'"{typed}" divides by zero;', "write the number out.")
    part, whole = Fraction(int(over), int(under)), match["whole"] or "0"
    return Fraction(int(whole)) + (-part if whole.startswith("-") else part), unit_text


def _plain(digits: str, typed: str, unit_text: str) -> Fraction:
    if _THOUSANDS.fullmatch(digits):
        small, large = digits.replace(",", ".").rstrip("0").rstrip("."), digits.replace(",", "")
        remedy = f'write "{small} {unit_text}" or "{large} {unit_text}".'
        raise BadQuantity(f'"{typed}" can be read in two ways;', remedy)
    try:
        return Fraction(digits.replace(",", "."))
    except ValueError:
        raise BadQuantity(f'"{typed}" holds no number that can be read;', 'write one such as "1.5".') from None


def _float(value: Fraction, typed: str) -> float:
    """Return the nearest float: all before it is exact, so that what was written comes back as it was."""
    try:
        return float(value)
    except OverflowError:
        raise BadQuantity(f'"{typed}" is too large a number;', "write it in a larger unit.") from None


def _unit(name: str, typed: str, wanted: tuple[Dimension, ...]) -> Unit:
    if not name:
        raise BadQuantity(f'"{typed}" has no unit;', _write_one(wanted))
    unit = BY_NAME.get(name.casefold().rstrip("."))
    if unit is None:
        raise BadQuantity(f'"{typed}": "{name}" is not a unit that is known;', _write_one(wanted))
    return unit


def _combine(
    number: Fraction, upper: Unit, lower: Unit | None, *, typed: str, wanted: tuple[Dimension, ...]
) -> tuple[Fraction, Dimension]:
    value = (number + Fraction(upper.offset)) * upper.exact
    if lower is None:
        return value, upper.dimension
    pair = QUOTIENTS.get((upper.dimension, lower.dimension))
    if pair is None:
        raise BadQuantity(f'"{typed}" is no quantity that is used here;', _write_one(wanted))
    return value / lower.exact * Fraction(pair[1]), pair[0]


def _mass(name: str, typed: str) -> Unit:
    """Return the unit of mass that a price is for."""
    unit = BY_NAME.get(name.casefold().rstrip("."))
    if unit is None or unit.dimension is not Dimension.MASS:
        raise BadQuantity(f'"{typed}" is not a price per mass;', f"write one such as {EXAMPLES[Dimension.PRICE]}.")
    return unit


def _handful(handful_kg: float | None) -> Fraction:
    if handful_kg is None:
        raise BadQuantity(
            "a handful is a different weight for everybody;", 'say yours first: [keeper] handful = "30 g".'
        )
    return Fraction(str(handful_kg))


def _write_one(wanted: tuple[Dimension, ...]) -> str:
    return f"write {_article(wanted[0])}, for example {EXAMPLES[wanted[0]]}."


def _article(dimension: Dimension) -> str:
    return f"an {dimension}" if dimension[0] in "aeiou" else f"a {dimension}"
