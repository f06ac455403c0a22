"""A number that can be opened down to its sources.

A figure is made in one of two ways. A *leaf* was read somewhere or written by a
person. Everything else comes from `derive(law, **inputs)`, which evaluates a
pure function over the members of its inputs and keeps both, so that the reason
is never written by hand and can be computed again.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Final, TypeVar

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.base.spread import Spread

MEMBERS: Final = 200
SEED: Final = 20261


@dataclass(frozen=True)
class Law:
    """What is known of a function that computes a figure."""

    formula: str  # in words, as a person would put it
    unit: str  # UCUM
    source: str = ""  # key in the list of sources
    place: str = ""  # where in that source
    basis: Basis = Basis.DERIVED
    model: str = ""  # named where the function runs a simulation


Function = TypeVar("Function", bound=Callable[..., object])


def law(
    formula: str, *, unit: str, source: str = "", place: str = "", basis: Basis = Basis.DERIVED, model: str = ""
) -> Callable[[Function], Function]:
    """Write beside a function what formula it computes and where that is from."""

    def attach(function: Function) -> Function:
        function.__law__ = Law(formula, unit, source, place, basis, model)  # type: ignore[attr-defined]
        return function

    return attach


@dataclass(frozen=True)
class Figure:
    """A number with its unit, its members, and what it rests on."""

    name: str
    unit: str
    members: FloatArray = field(repr=False, compare=False)
    words: str = ""  # what it is, for a reader
    source: str = ""
    place: str = ""
    basis: Basis = Basis.JUDGEMENT
    typed: str = ""  # what a person wrote, where one did
    law: Law | None = None
    function: Callable[..., object] | None = field(default=None, repr=False, compare=False)
    inputs: tuple[tuple[str, "Figure"], ...] = field(default=(), repr=False, compare=False)
    at_medians: float | None = None  # of a leaf, what its source says; of a simulated figure, that run

    @cached_property
    def value(self) -> float:
        """Return the median; not a number where no member has one.

        Of a leaf it is what its source says, and of a simulated figure the run
        at the medians of the inputs: that is the run which the rest of an
        answer is about.
        """
        return self._quantile(0.5) if self.at_medians is None else self.at_medians

    @cached_property
    def low(self) -> float:
        """Return the lower end of the 90 % interval."""
        return float(np.fmin(self._quantile(0.05), self.value))

    @cached_property
    def high(self) -> float:
        """Return the upper end of the 90 % interval."""
        return float(np.fmax(self._quantile(0.95), self.value))

    @cached_property
    def never_frac(self) -> float:
        """Return the share of members in which it never happens; the interval is that of the others."""
        return float(np.mean(~np.isfinite(self.members)))

    def _quantile(self, share: float) -> float:
        finite = self.members[np.isfinite(self.members)]
        return float(np.quantile(finite, share, method="nearest")) if finite.size else float("nan")

    def called(self, words: str) -> "Figure":
        """Return the same figure under other words."""
        return replace(self, words=words)


def leaf(
    name: str,
    spread: Spread,
    unit: str,
    *,
    words: str = "",
    source: str = "",
    place: str = "",
    basis: Basis = Basis.JUDGEMENT,
    typed: str = "",
    members: int = MEMBERS,
    seed: int = SEED,
) -> Figure:
    """Return a figure that rests on nothing but its source."""
    drawn = spread.members(members, name=name, seed=seed)
    return Figure(name, unit, drawn, words or name, source, place, basis, typed, at_medians=spread.median)


def written(name: str, value: float, unit: str, *, words: str = "", typed: str = "", members: int = MEMBERS) -> Figure:
    """Return a figure that a person wrote; it has no interval."""
    exactly = Spread.exactly(value)
    return leaf(name, exactly, unit, words=words, source="keeper", basis=Basis.READ, typed=typed, members=members)


def derive(name: str, function: Callable[..., object], *, words: str = "", **inputs: Figure) -> Figure:
    """Evaluate `function` over the members of `inputs`; keep both as the reason."""
    return derived(name, function, inputs, words=words)


def derived(
    name: str, function: Callable[..., object], inputs: Mapping[str, Figure], *, words: str = "", runs: int = 0
) -> Figure:
    """Do as `derive` for inputs that are gathered by name.

    With `runs` only the first so many members are used: for a simulation, whose
    every member costs. The members are independent draws, so that a part of
    them is an ensemble too.
    """
    rule = law_of(function)
    values = _evaluate(function, {key: each.members for key, each in inputs.items()}, runs)
    middle = None
    if rule.model:
        middle = float(_evaluate(function, {key: np.array([each.value]) for key, each in inputs.items()}, 1)[0])
    return Figure(
        name,
        rule.unit,
        values,
        words or name,
        rule.source,
        rule.place,
        rule.basis,
        law=rule,
        function=function,
        inputs=tuple(inputs.items()),
        at_medians=middle,
    )


def law_of(function: Callable[..., object]) -> Law:
    """Return what `@law` wrote beside a function; a function without one cannot give a figure."""
    rule = getattr(function, "__law__", None)
    if not isinstance(rule, Law):
        raise TypeError(f"{function.__name__} has no @law, so a figure from it could not be explained")
    return rule


def recomputed(figure: Figure) -> FloatArray:
    """Compute a figure again from its leaves alone."""
    if figure.function is None:
        return figure.members
    again = {key: recomputed(each) for key, each in figure.inputs}
    return _evaluate(figure.function, again, figure.members.size)


def _evaluate(function: Callable[..., object], inputs: Mapping[str, FloatArray], runs: int) -> FloatArray:
    count = runs or min((each.size for each in inputs.values()), default=MEMBERS)
    values = function(**{key: each[:count] for key, each in inputs.items()})
    return np.array(np.broadcast_to(np.asarray(values, dtype=float), (count,)))
