"""Reads what a keeper has or wants on the bench: "3 L UHT milk", "25 lb wheat bran", "2 kg coffee grounds"."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Final, Protocol, TypeVar

from sourloam.base.errors import BadInput, NotFound, Problem
from sourloam.base.quantity import BadQuantity, Quantity, read_quantity
from sourloam.base.units import BY_NAME, EXAMPLES, Dimension
from sourloam.evidence.lookup import Lookup

MOST_WORDS: Final = 4  # of an amount, before a name begins
MOST: Final = 100_000.0
AMOUNT: Final = (Dimension.MASS, Dimension.VOLUME)
PIECES: Final = re.compile(r"(?P<count>\d+)\s+(?:sheets?|pieces?)(?:\s+of)?(?:\s+(?P<name>.+))?", re.IGNORECASE)
RATIO: Final = re.compile(r"(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)")


class Named(Protocol):
    """Something with an id, a name and other words for it."""

    @property
    def id(self) -> str:
        """Return its short name."""

    @property
    def name(self) -> str:
        """Return what a person calls it."""

    @property
    def synonyms(self) -> tuple[str, ...]:
        """Return what else it is called."""


Thing = TypeVar("Thing", bound=Named)


@dataclass
class Faults:
    """Gathers what cannot be read, so that all of it is said at once."""

    problems: list[Problem] = field(default_factory=list)

    def add(self, where: str, found: str, remedy: str = "") -> None:
        """Note a fault of an option."""
        self.problems.append(Problem(where, found, remedy))

    def raise_any(self) -> None:
        """Refuse, if there was any.

        Raises
        ------
        BadInput
            If something was noted.
        """
        if self.problems:
            raise BadInput("culture", tuple(self.problems))

    def quantity(self, typed: str, option: str, wanted: tuple[Dimension, ...]) -> Quantity | None:
        """Return a quantity above nothing, or note why there is none."""
        try:
            read = read_quantity(typed, wanted)
        except BadQuantity as bad:
            self.add(option, bad.found, bad.remedy)
            return None
        if not 0.0 < read.value <= MOST:
            most = f"more than nothing and less than {MOST:g}, for example {EXAMPLES[read.dimension]}"
            self.add(option, f'"{typed}" is no amount that can be used;', f"write {most}.")
            return None
        return read

    def measured(self, typed: str | None, option: str, wanted: Dimension, ends: tuple[float, float]) -> float | None:
        """Return a value between two ends, or note why there is none; nothing where nothing was written."""
        if typed is None:
            return None
        try:
            value = read_quantity(typed, wanted).value
        except BadQuantity as bad:
            self.add(option, bad.found, bad.remedy)
            return None
        if not ends[0] <= value <= ends[1]:
            times = 100.0 if wanted in (Dimension.SHARE, Dimension.LENGTH) else 1.0
            unit = {"temperature": "°C", "share": "%", "length": "cm", "time": "days"}.get(wanted.value, "")
            self.add(
                option,
                f'"{typed}" cannot be meant;',
                f"write something from {times * ends[0]:g} to {times * ends[1]:g} {unit}.",
            )
            return None
        return value


def split_name(typed: str) -> tuple[str, str]:
    """Return the amount and the name of "3 L UHT milk"; either may be empty."""
    words = typed.split()
    if not words or not (words[0][:1].isdigit() or words[0][:1] in "-+.\N{MINUS SIGN}" or words[0] in ("half", "a")):
        return "", typed.strip()
    for cut in range(min(MOST_WORDS, len(words)), 1, -1):
        unit = " ".join(words[1:cut]) if not words[1][:1].isdigit() else " ".join(words[2:cut])
        if unit.casefold().rstrip(".") in BY_NAME:
            name = " ".join(words[cut:])
            return " ".join(words[:cut]), re.sub(r"^(of|the)\s+", "", name, flags=re.IGNORECASE)
    if re.fullmatch(r"[\d.,/]+[a-zA-Z]+", words[0]):
        return words[0], " ".join(words[1:])
    return typed.strip(), ""


def lookup(kind: str, things: Iterable[Thing]) -> Lookup[Thing]:
    """Return a table to find things in by their words."""
    return Lookup(kind, tuple(things))


def find(name: str, table: Lookup[Thing], option: str, faults: Faults) -> Thing | None:
    """Return what a name means, or note that nothing answers to it."""
    try:
        return table.find(name)
    except NotFound as missing:
        there = ", ".join(each.name for each in table)
        problem = missing.problem(option, otherwise=f"There are: {there}.")
        faults.problems.append(problem)
        return None


def ratio(typed: str | None, faults: Faults) -> tuple[float, float, float] | None:
    """Return serum, sugar and water of a recipe such as "1:1:20", by volume."""
    if typed is None:
        return None
    found = RATIO.fullmatch(typed.strip())
    if found is None:
        faults.add("--recipe", f'"{typed}" is no recipe;', 'write serum : sugar : water by volume, as "1:1:20".')
        return None
    serum, sugar, water = (float(each) for each in found.groups())
    if serum > water or sugar > water or water == 0.0:
        more = "serum" if serum > water else "sugar"
        faults.add(
            "--recipe",
            f'"{typed}" holds more {more} than water;',
            'the order is serum : sugar : water, and "1:1:20" up to "1:1:100" are usual.',
        )
        return None
    if serum == 0.0:
        faults.add("--recipe", f'"{typed}" has no serum, so that nothing in it lives;', 'write one such as "1:1:43".')
        return None
    return serum, sugar, water
