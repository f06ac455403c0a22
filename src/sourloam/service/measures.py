"""The times, depths and mixtures that a load is asked with, as a person writes them after an option."""

import re
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import Figure, written
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension

OVER_D: Final = 7.0  # in which a load comes in, where nobody says
LONGEST_D: Final = 366.0
LEAST_M, DEEPEST_M = 0.005, 0.5  # a dusting, and no vessel is deeper than twice that
MOST_PARTS: Final = 100_000.0
_DILUTION: Final = re.compile(r"(?:1\s*(?::|/|to|in)\s*)?(?P<parts>\d+(?:\.\d+)?)")


def over_d(typed: str | None) -> float:
    """Return in how many days a load comes in: as was written after `--over`, else a week, as a stream's.

    Raises
    ------
    BadInput
        If that is no time, or one that cannot be meant.
    """
    if typed is None:
        return OVER_D
    remedy = "write a day or more, and a year at most."
    return measured(typed, "--over", Dimension.TIME, ends=(1.0, LONGEST_D), remedy=remedy)


def depth_m(typed: str | None, option: str, *, members: int) -> Figure | None:
    """Return a depth as it was written after an option, or nothing where it was not.

    Raises
    ------
    BadInput
        If that is no depth, or one that cannot be meant.
    """
    if typed is None:
        return None
    remedy = "write half a centimetre to half a metre."
    metres = measured(typed, option, Dimension.LENGTH, ends=(LEAST_M, DEEPEST_M), remedy=remedy)
    name, words = f"{option.lstrip('-')}_m", f"depth, as asked with {option}"
    return written(name, metres, "m", words=words, typed=typed, members=members)


def parts_of_water(typed: str | None) -> float | None:
    """Return the parts of water in a mixture such as "1:10", or nothing where none was written.

    Raises
    ------
    BadInput
        If that is no mixture.
    """
    if typed is None:
        return None
    found = _DILUTION.fullmatch(typed.strip())
    if found is None or not 0.0 < float(found["parts"]) <= MOST_PARTS:
        remedy = 'write "1:100" for 1 part to 100 of water.'
        raise BadInput("--dilute", (Problem("", f'"{typed}" is no mixture;', remedy),))
    return float(found["parts"])


def measured(typed: str, option: str, dimension: Dimension, *, ends: tuple[float, float], remedy: str) -> float:
    """Return a quantity as it was written after an option, in the project's unit.

    Raises
    ------
    BadInput
        If it is no such quantity, or one that cannot be meant.
    """
    try:
        value = read_quantity(typed, dimension).value
    except BadQuantity as bad:
        raise BadInput(option, (Problem("", bad.found, bad.remedy),)) from None
    if not ends[0] <= value <= ends[1]:
        raise BadInput(option, (Problem("", f'"{typed}" cannot be meant;', remedy),))
    return value
