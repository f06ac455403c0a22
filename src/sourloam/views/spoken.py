"""How a number is said: in the keeper's units, rounded by its interval."""

import math
from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType
from typing import Final

from sourloam.plan.words import Speech, converted
from sourloam.views.reason import Number

HARDLY: Final = 5e-4  # in any unit in which a number is said
UNITS: Final = MappingProxyType(
    {
        "d": "days",
        "mo": "months",
        "wk": "weeks",
        "{sack}": "",
        "1": "",
        "{vessel}": "",
        "{layer}": "",
        "{hole}": "",
        "{tub}": "",
        "{sheet}": "",
        "1/mo": "a month",
        "[pH]": "",
        "g/(100.g)": "g/100 g",
    }
)

# What is said in the keeper's units: the unit of the amount, and what follows it.
AMOUNTS: Final = MappingProxyType(
    {
        "kg": ("kg", ""),
        "g": ("g", ""),
        "L": ("L", ""),
        "Cel": ("°C", ""),
        "cm": ("cm", ""),
        "m": ("m", ""),
        "m2": ("m2", ""),
        "kg/d": ("kg", " a day"),
        "L/d": ("L", " a day"),
        "g/wk": ("g", ""),
        "kg/wk": ("kg", " a week"),
    }
)


def said(number: Number, speech: Speech) -> str:
    """Return the number with its unit; in words where it never comes."""
    number, unit = _in_units_of(speech, number)
    if number.value is None:
        return "none" if number.unit.startswith("{") else "never"
    return f"{_rounded(number.value, number)} {unit}".rstrip()


def said_range(number: Number, speech: Speech) -> str:
    """Return its interval in words, or nothing where it has none."""
    number, _ = _in_units_of(speech, number)
    if number.value is None or number.low is None or number.high is None:
        return "in no case that was tried"
    low, high = (_rounded(each, number) for each in (number.low, number.high))
    never = f"never in {round(100 * number.never_frac)} of 100" if number.never_frac > 0.005 else ""
    between = "" if low == high else f"{low} to {high}"
    return ", ".join(each for each in (between, never) if each)


def _in_units_of(speech: Speech, number: Number) -> tuple[Number, str]:
    """Return the number and the unit in which it is said; both ends of its interval are in that unit too."""
    if number.unit not in AMOUNTS:
        return number, UNITS.get(number.unit, number.unit)
    unit, every = AMOUNTS[number.unit]
    size = max(abs(number.value or 0.0), abs(number.high or 0.0) / 4.0)  # a nought beside gallons is in gallons too
    name = speech.unit_for(size, unit)
    change = _changed(unit, name)
    return replace(number, value=change(number.value), low=change(number.low), high=change(number.high)), name + every


def _changed(unit: str, name: str) -> Callable[[float | None], float | None]:
    return lambda value: None if value is None else converted(value, unit, name)


def _rounded(value: float, number: Number) -> str:
    """Round to a power of ten not above a tenth of the interval, and to three digits of the size at most.

    What is counted, such as vessels, is a whole number whatever its interval.
    """
    if number.value is None or number.low is None or number.high is None:
        return f"{value:g}"
    if max(abs(number.low), abs(number.high)) < HARDLY:
        return "0"
    step = 1.0 if number.unit.startswith("{") else max((number.high - number.low) / 10.0, 1e-9)
    digits = -math.floor(math.log10(step))
    most = 2 - math.floor(math.log10(abs(number.value))) if number.value else 0
    places = min(digits, most)
    return f"{round(value, places):.{max(places, 0)}f}"
