"""Options of a place that are quantities: read all of them, and name every fault at once."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

from sourloam.base.errors import BadInput, Problem
from sourloam.base.units import Dimension
from sourloam.service.measures import measured

Quantities = Mapping[str, tuple[str, Dimension, tuple[float, float], str]]  # option, dimension, ends, what would do


def read_quantities(asked: object, table: Quantities, problems: list[Problem]) -> dict[str, float]:
    """Return the fields of `asked` that were written, in the project's units; faults are added to `problems`."""
    values = {}
    for name, (option, dimension, ends, remedy) in table.items():
        typed = getattr(asked, name)
        if typed is None:
            continue
        read = partial(measured, typed, option, dimension, ends=ends, remedy=remedy)
        try:
            values[name] = read()
        except BadInput as bad:
            problems += [replace(each, where=option) for each in bad.problems]
    return values


def refuse(problems: list[Problem]) -> None:
    """Refuse what was written where something of it is at fault.

    Raises
    ------
    BadInput
        With all faults.
    """
    if problems:
        raise BadInput("command line", tuple(problems))
