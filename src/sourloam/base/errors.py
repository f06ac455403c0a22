"""Every error that the project raises on purpose.

::

    SourloamError
    ├── OutOfRange          a number outside the range in which an answer is known
    ├── UnknownSource       a value names a source that is not in the list
    ├── NotFound            a name that nothing answers to; near names are offered
    ├── BalanceError        what went in did not come out
    ├── BadInput            faults in what a person wrote: all of them at once
    └── Surroundings        disk, permissions, a missing extra: nothing that the input could cure

An error carries fields and makes its sentence from them, so that the command
line, a form and the library all show the same words.
"""

from dataclasses import dataclass

from sourloam.base.ranges import Range


class SourloamError(Exception):
    """The root of the tree."""


class OutOfRange(SourloamError, ValueError):
    """A number lies outside the range in which an answer is known."""

    def __init__(self, name: str, value: float, limits: Range, why: str) -> None:
        super().__init__(name, value, limits, why)  # kept whole, so that it can be pickled
        self.name, self.value, self.limits, self.why = name, value, limits, why

    def __str__(self) -> str:
        given = f"{self.value:g} {self.limits.unit}".rstrip()
        return f"{self.name} = {given} is outside {self.limits}: {self.why}"


class UnknownSource(SourloamError, KeyError):
    """A value rests on a source that the list of sources does not hold."""

    def __init__(self, key: str, where: str) -> None:
        super().__init__(key, where)
        self.key, self.where = key, where

    def __str__(self) -> str:
        return f'{self.where}: "{self.key}" is not in sources.toml. Add it there, with the text of the source.'


class NotFound(SourloamError, KeyError):
    """A name that nothing answers to."""

    def __init__(self, kind: str, name: str, near: tuple[str, ...] = ()) -> None:
        super().__init__(kind, name, near)
        self.kind, self.name, self.near = kind, name, near

    @property
    def found(self) -> str:
        """Say what was found, without what is offered instead."""
        return f'"{self.name}" is not a known {self.kind}.'

    def problem(self, where: str = "", *, otherwise: str = "", line: int | None = None) -> "Problem":
        """Return it as a fault of an input, with the near names or else what would do."""
        return Problem(where, self.found, offer(self.near).strip() or otherwise, line)

    def __str__(self) -> str:
        return self.found + offer(self.near)


class BalanceError(SourloamError, ArithmeticError):
    """What went in did not come out; carries the terms, so that the leak can be found."""

    def __init__(self, what: str, terms: tuple[tuple[str, float], ...], unit: str) -> None:
        super().__init__(what, terms, unit)
        self.what, self.terms, self.unit = what, terms, unit

    def __str__(self) -> str:
        lines = "".join(f"\n  {name}: {value:+.6g} {self.unit}" for name, value in self.terms)
        missing = sum(value for _, value in self.terms)
        return f"{self.what} does not balance, {missing:+.6g} {self.unit} are left over:{lines}"


@dataclass(frozen=True)
class Problem:
    """One fault in what a person wrote: where it stands, what was found, what would do."""

    where: str  # the thing and its key in words: 'vessel "blue": volume'
    found: str  # what was written, and what is wrong with it
    remedy: str = ""  # what to write instead
    line: int | None = None
    key: str = ""  # the dotted path, for scripts

    def __str__(self) -> str:
        place = f"line {self.line}: " if self.line else ""
        subject = f"{self.where}: " if self.where else ""
        return printable(f"{place}{subject}{self.found}{' ' + self.remedy if self.remedy else ''}")


class BadInput(SourloamError, ValueError):
    """All faults of one input, gathered so that a person mends them in one go."""

    def __init__(self, name: str, problems: tuple[Problem, ...]) -> None:
        super().__init__(name, problems)
        self.name, self.problems = name, problems

    def __str__(self) -> str:
        if len(self.problems) == 1 and self.problems[0].line is None:
            return f"{self.name}: {self.problems[0]}"
        count = len(self.problems)
        head = f"{self.name}: {count} {'fault' if count == 1 else 'faults'} to mend first"
        return "\n".join([head, *(f"  {problem}" for problem in self.problems)])


class Surroundings(SourloamError, OSError):
    """Something outside the input and the program stands in the way: a disk, a lock, a missing part."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(what, remedy)
        self.what, self.remedy = what, remedy

    def __str__(self) -> str:
        return f"{self.what} {self.remedy}"


def printable(text: str) -> str:
    """Return the text on one line, with what would move a cursor or ring a bell written out."""
    return "".join(each if each.isprintable() else each.encode("unicode_escape").decode() for each in text)


def offer(near: tuple[str, ...]) -> str:
    """Return a sentence that offers near names, or nothing."""
    if not near:
        return ""
    *rest, last = near
    return f" Did you mean {', '.join(rest)} or {last}?" if rest else f" Did you mean {last}?"
