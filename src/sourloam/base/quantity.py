"""Reads "12 L", "two handfuls", "64 F" or "1,5 kg" as a person writes them, and keeps what was written."""

import math
import re
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.errors import SourloamError
from sourloam.base.units import BY_NAME, EXAMPLES, OWN, QUOTIENTS, Dimension, Unit

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
_NUMBER: Final = re.compile(
    r"(?P<whole>-?\d+)\s+(?P<top>\d+)/(?P<bottom>\d+)|(?P<over>-?\d+)/(?P<under>\d+)|(?P<plain>-?[\d.,]+)"
)
_WORD: Final = re.compile(r"(?P<word>half an?|[a-z]+)\b\s*", re.IGNORECASE)
_THOUSANDS: Final = re.compile(r"-?\d{1,3},\d{3}")
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
    number, unit_text = _split(typed.strip(), dimensions)
    if Dimension.PRICE in dimensions:
        return _price(typed, number, unit_text)
    top, _, bottom = (part.strip() for part in re.sub(r"\b(per|a|an|each|every)\b", "/", unit_text).partition("/"))
    if top in _HANDFUL:
        number, top = number * _handful(handful_kg), "kg"
    upper, lower = _unit(top, typed, dimensions), _unit(bottom, typed, dimensions) if bottom else None
    value, dimension = _combine(number, upper, lower, typed=typed, wanted=dimensions)
    if dimension not in dimensions:
        raise BadQuantity(
            f'"{typed}" is {_article(dimension)};',
            f"{_article(dimensions[0])} is wanted, for example {EXAMPLES[dimensions[0]]}.",
        )
    return Quantity(value, dimension, typed)


def write_quantity(value: float, dimension: Dimension) -> str:
    """Write a value so that reading it gives the same number again."""
    if dimension is Dimension.SHARE:
        return _shortest(value, 0.01) + " %"
    return f"{value!r} {OWN[dimension]}".replace(".0 ", " ")


def _shortest(value: float, factor: float) -> str:
    """Return the shortest decimal that comes back as `value` when it is multiplied by `factor`."""
    for digits in range(1, 18):
        text = f"{value / factor:.{digits}g}"
        if float(text) * factor == value:
            return f"{float(text)!r}".removesuffix(".0")
    return repr(value / factor)


def _split(typed: str, wanted: tuple[Dimension, ...]) -> tuple[float, str]:
    text = re.sub(r"^(about|around|roughly|ca\.?|~)\s*", "", typed, flags=re.IGNORECASE)
    if match := _NUMBER.match(text):
        return _number(match, typed), text[match.end() :].strip()
    if (word := _WORD.match(text)) and word["word"].lower() in _WORDS:
        return _WORDS[word["word"].lower()], text[word.end() :].strip()
    raise BadQuantity(f'"{typed}" holds no number;', f"write {_article(wanted[0])}, for example {EXAMPLES[wanted[0]]}.")


def _number(match: re.Match[str], typed: str) -> float:
    if match["whole"]:
        if int(match["bottom"]) == 0:
            raise BadQuantity(f'"{typed}" divides by zero;', "write the number out.")
        return int(match["whole"]) + math.copysign(int(match["top"]) / int(match["bottom"]), int(match["whole"]))
    if match["over"]:
        if int(match["under"]) == 0:
            raise BadQuantity(f'"{typed}" divides by zero;', "write the number out.")
        return int(match["over"]) / int(match["under"])
    text = match["plain"]
    if _THOUSANDS.fullmatch(text):
        raise BadQuantity(
            f'"{typed}" can be read in two ways;', f'write "{text.replace(",", ".")}" or "{text.replace(",", "")}".'
        )
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise BadQuantity(f'"{typed}" holds no number that can be read;', 'write one such as "1.5".') from None


def _unit(name: str, typed: str, wanted: tuple[Dimension, ...]) -> Unit:
    if not name:
        raise BadQuantity(f'"{typed}" has no unit;', f"write {_article(wanted[0])}, for example {EXAMPLES[wanted[0]]}.")
    unit = BY_NAME.get(name) or BY_NAME.get(name.lower())
    if unit is None:
        raise BadQuantity(
            f'"{typed}": "{name}" is not a unit that is known;',
            f"write {_article(wanted[0])}, for example {EXAMPLES[wanted[0]]}.",
        )
    return unit


def _combine(
    number: float, upper: Unit, lower: Unit | None, *, typed: str, wanted: tuple[Dimension, ...]
) -> tuple[float, Dimension]:
    value = (number + upper.offset) * upper.factor
    if lower is None:
        return value, upper.dimension
    pair = QUOTIENTS.get((upper.dimension, lower.dimension))
    if pair is None:
        raise BadQuantity(
            f'"{typed}" is no quantity that is used here;',
            f"write {_article(wanted[0])}, for example {EXAMPLES[wanted[0]]}.",
        )
    return value / lower.factor * pair[1], pair[0]


def _price(typed: str, number: float, unit_text: str) -> Quantity:
    _, slash, per = unit_text.partition("/")
    unit = BY_NAME.get(per.strip())
    if not slash or unit is None or unit.dimension is not Dimension.MASS:
        raise BadQuantity(f'"{typed}" is not a price per mass;', f"write one such as {EXAMPLES[Dimension.PRICE]}.")
    return Quantity(number / unit.factor, Dimension.PRICE, typed)


def _handful(handful_kg: float | None) -> float:
    if handful_kg is None:
        raise BadQuantity(
            "a handful is a different weight for everybody;", 'say yours first: [keeper] handful = "30 g".'
        )
    return handful_kg


def _article(dimension: Dimension) -> str:
    return f"an {dimension}" if dimension[0] in "aeiou" else f"a {dimension}"
