"""Amounts of the bench in words: the keeper's units, and beside them spoons and cups."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.base.units import BY_NAME
from sourloam.plan.words import Speech
from sourloam.views.handling import spoons
from sourloam.views.reason import Number, Reason, number_of, reason_of

SPOONS_TO_L, CUPS_TO_L = 0.1, 1.5
METRIC_CUP_L: Final = 0.25
QUARTERS: Final = ("", "1/4", "1/2", "3/4")


def measure(litres: float, speech: Speech) -> str:
    """Return a volume in spoons or cups; nothing where neither would be counted."""
    if litres <= 0.0:
        return ""
    if litres < SPOONS_TO_L:
        return spoons(litres)
    if litres > CUPS_TO_L:
        return ""
    cup = BY_NAME["cup"].factor if speech.is_us else METRIC_CUP_L
    parts = 4 if litres < cup else 2
    whole, rest = divmod(max(1, round(parts * litres / cup)), parts)
    told = f"{whole or ''} {QUARTERS[4 * rest // parts]}".strip()
    return f"about {told} cup{'s' if whole > 1 or (whole and rest) else ''}" + ("" if speech.is_us else " of 250 ml")


def with_measure(litres: float, speech: Speech) -> str:
    """Return a volume in the keeper's units and, in brackets, in spoons or cups."""
    told = measure(litres, speech)
    return f"{speech.litres(litres)} ({told})" if told else speech.litres(litres)


def area(m2: float, speech: Speech) -> str:
    """Return an area."""
    if speech.is_us:
        return f"{m2 / 0.09290304:.0f} sq ft"
    return f"{m2:.1f} m2"


def depth(metres: float, speech: Speech) -> str:
    """Return a depth."""
    return speech.told(f"{100.0 * metres:g} cm")


def capital(words: str) -> str:
    """Return words with their first letter large."""
    return words[:1].upper() + words[1:]


def numbers_of(figures: Mapping[str, Figure]) -> tuple[Number, ...]:
    """Return figures as they are shown, each by the name under which it is asked for."""
    return tuple(number_of(replace(each, name=name)) for name, each in figures.items())


def reasons_of(figures: Mapping[str, Figure], sources: Mapping[str, Source]) -> dict[str, Reason]:
    """Return figures opened down to their sources, by the same names."""
    return {name: reason_of(replace(each, name=name), sources) for name, each in figures.items()}
