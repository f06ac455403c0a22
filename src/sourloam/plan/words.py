"""How the plan speaks: amounts in the keeper's units, days, and what is done at each kind of place."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from types import MappingProxyType
from typing import Final

from sourloam.base.days import MONTHS
from sourloam.base.units import BY_NAME, Dimension
from sourloam.site.site import Site

# What to do with a batch at each kind of place, and what follows.
ACTS: Final = MappingProxyType(
    {
        "bed": ("Dig {what} from {vessel} into {place}", "May be planted from {day}."),
        "pile": ("Turn {what} from {vessel} into {place}, covered with browns", ""),
        "worm_bin": ("Feed {what} from {vessel} to {place}, at one side", ""),
        "soil_tub": ("Mix {what} from {vessel} with soil in {place}", "Soil again from {day}."),
        "taker": ("Hand {what} from {vessel} to {place}", ""),
    }
)

# What a US kitchen says, the largest unit first; areas, densities and doses stay metric in every plan.
US_UNITS: Final = MappingProxyType(
    {
        Dimension.MASS: ("lb", "oz"),
        Dimension.VOLUME: ("gal", "qt", "fl oz", "tsp"),
        Dimension.LENGTH: ("ft", "in"),
        Dimension.AREA: ("sq ft",),
        Dimension.TEMPERATURE: ("°F",),
    }
)

SPOONS: Final = ("oz", "fl oz", "tsp")  # of which a keeper takes whole ones from ten up

_NUMBER: Final = r"-?\d+(?:\.\d+)?"
_NUMBERS: Final = rf"({_NUMBER}(?:(?:, | to | or | and ){_NUMBER})*)"
_WARMTHS: Final = re.compile(rf"{_NUMBERS} (°C)(?!\w)")
_AMOUNTS: Final = re.compile(rf"{_NUMBERS} (kg|g|L|ml|cm|m2|m)(?![\w/]| of nitrogen)")


@dataclass(frozen=True)
class Speech:
    """The units in which a plan speaks to its keeper: "metric" or "us". Numbers come in the project's own units."""

    units: str = "metric"

    @property
    def is_us(self) -> bool:
        """Whether pounds, gallons and Fahrenheit are spoken."""
        return self.units == "us"

    def kg(self, value: float) -> str:
        """Return a mass as a keeper would say it."""
        if self.is_us:
            return self._us(value, "kg")
        if value < 0.995:
            return f"{_small(value)} g"
        return f"{value:.1f} kg" if value < 99.5 else f"{value:.0f} kg"

    def litres(self, value: float) -> str:
        """Return a volume as a keeper would say it."""
        if self.is_us:
            return self._us(value, "L")
        if value < 0.995:
            return f"{_small(value)} ml"
        return f"{value:.1f} L" if value < 99.5 else f"{value:.0f} L"

    def amount(self, value: float, unit: str) -> str:
        """Return a mass or a volume as a keeper would say it."""
        return self.kg(value) if unit == "kg" else self.litres(value)

    def kg_of_many(self, value: float) -> str:
        """Return a mass beside others of the year: whole kilograms or pounds from ten up."""
        large = "lb" if self.is_us else "kg"
        number = converted(value, "kg", large)
        return f"{number:.0f} {large}" if number >= 9.95 else self.kg(value)

    def size(self, value_l: float, *, digits: int = 1) -> str:
        """Return the size of a vessel, without a needless nought."""
        if not self.is_us:
            return f"{value_l:.{digits}f}".removesuffix(".0") + " L"
        gallons = converted(value_l, "L", "gal")
        if gallons < 0.25:
            return self._us(value_l, "L")
        return f"{gallons:.{digits if gallons >= 9.95 else 1}f}".removesuffix(".0") + " gal"

    def celsius(self, value: float) -> str:
        """Return a temperature to the whole degree."""
        name = self.unit_for(value, "°C")
        return f"{converted(value, '°C', name):.0f} {name}"

    def told(self, text: str) -> str:
        """Return a sentence that is written in metric, as in a table, with its amounts to two digits."""
        return _AMOUNTS.sub(self._retold, self.warmths(text)) if self.is_us else text

    def warmths(self, text: str) -> str:
        """Return a text that may hold names, in which only the temperatures are said anew."""
        return _WARMTHS.sub(self._retold, text) if self.is_us else text

    def unit_for(self, value: float, unit: str) -> str:
        """Return the unit in which an amount of this size is said: the largest of which there is one."""
        if not self.is_us:
            return unit
        names = US_UNITS[BY_NAME[unit.casefold()].dimension]
        return next((each for each in names if converted(abs(value), unit, each) >= 0.995), names[-1])

    def _us(self, value: float, unit: str) -> str:
        name = self.unit_for(value, unit)
        number = converted(value, unit, name)
        if number >= 99.5:
            return f"{number:.0f} {name}"
        return f"{_few(number) if name in SPOONS else f'{number:.1f}'} {name}"

    def _retold(self, found: re.Match[str]) -> str:
        numbers, unit = found.groups()
        name = self.unit_for(max(float(each) for each in re.findall(_NUMBER, numbers)), unit)
        said = re.sub(_NUMBER, lambda each: _roughly(converted(float(each[0]), unit, name), name), numbers)
        return f"{said} {name}"


def converted(value: float, unit: str, other: str) -> float:
    """Return a value in another unit of the same dimension."""
    one, two = BY_NAME[unit.casefold()], BY_NAME[other.casefold()]
    if one is two:
        return value
    return (value + one.offset) * float(one.exact / two.exact) - two.offset


def _roughly(number: float, name: str) -> str:
    """Return a number to two digits, a temperature to the whole degree."""
    digits = ".0f" if name == "°F" else ".2g"
    return f"{float(f'{number:{digits}}'):g}"


def _small(value: float) -> str:
    """Return thousandths, to ten from a hundred up."""
    thousandths = value * 1000.0
    return f"{round(thousandths, -1):.0f}" if thousandths >= 99.5 else f"{thousandths:.0f}"


def _few(number: float) -> str:
    """Return ounces: whole ones from ten up, tenths below, hundredths of what is hardly any."""
    return f"{round(number, 0 if number >= 9.95 else 1 if number >= 0.0995 else 2):g}"


def enumerated(words: Sequence[str]) -> str:
    """Return words as a sentence lists them: "one, two and three"."""
    *rest, last = words
    return f"{', '.join(rest)} and {last}" if rest else last


def money(value: float, currency: str) -> str:
    """Return a sum of money as the keeper writes it."""
    return f"{value:.2f} {currency}".rstrip()


def when(day: date | None) -> str:
    """Return a day without its year."""
    return "no day that we know" if day is None else f"{day.day} {MONTHS[day.month - 1]}"


def days(number: float) -> str:
    """Return a count of days."""
    return "1 day" if round(number) == 1 else f"{round(number)} days"


def place_words(site: Site, place: str) -> tuple[str, str]:
    """Return what to do at a place and what follows, with its name filled in."""
    kind = next(kind for kind, parts in site.parts().items() if any(each.id == place for each in parts))
    act, after = ACTS[kind]
    return act.replace("{place}", site.name_of(place)), after


def share(value: float) -> str:
    """Return a chance in hundredths, tenths of them where there are few."""
    return f"{100.0 * value:.1f} %" if value < 0.0995 else f"{100.0 * value:.0f} %"
