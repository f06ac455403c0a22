"""A figure opened: the formula, the inputs with their own figures, the source."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.source import Source

KEEPER: Final = "keeper"
UNSOURCED: Final = ("practice", "judgement", "memory")  # entries that stand for the want of a source


@dataclass(frozen=True)
class Number:
    """A number as it is shown: with its interval and unit, and the share of cases in which it never comes."""

    name: str
    words: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    never_frac: float = 0.0

    @property
    def is_exact(self) -> bool:
        """Whether it has no interval, as what a person wrote."""
        return self.low == self.high


@dataclass(frozen=True)
class Reason:
    """A number with all that it rests on."""

    number: Number
    formula: str = ""
    source: str = ""  # the text of the source
    is_sourced: bool = False  # by a work, not by the keeper, by custom or by judgement
    place: str = ""
    basis: str = ""  # in words
    typed: str = ""
    origin: str = ""  # all of that in one sentence
    model: str = ""  # of a simulated figure: what ran, how often
    strongest: tuple[str, ...] = ()  # inputs of a simulated figure, the one that moves it most first
    inputs: tuple["Reason", ...] = ()


def number_of(figure: Figure) -> Number:
    """Return a figure as it is shown."""
    value, low, high = (_finite(each) for each in (figure.value, figure.low, figure.high))
    return Number(figure.name, figure.words, value, low, high, figure.unit, figure.never_frac)


def reason_of(figure: Figure, sources: Mapping[str, Source]) -> Reason:
    """Return a figure opened down to its sources."""
    source = sources.get(figure.source)
    law = figure.law
    return Reason(
        number=number_of(figure),
        formula=law.formula if law else "",
        source=source.text if source else "",
        is_sourced=source is not None and source.key not in (KEEPER, *UNSOURCED),
        place=figure.place,
        basis=figure.basis.words if source or not law else "",
        typed=figure.typed,
        origin=_origin(figure, source),
        model=f"{law.model}, {figure.members.size} members" if law and law.model else "",
        strongest=tuple(_strongest(figure)) if law and law.model else (),
        inputs=tuple(reason_of(each, sources) for _, each in figure.inputs),
    )


def _origin(figure: Figure, source: Source | None) -> str:
    """Say where a number or a law is from, in one sentence without its full stop."""
    if figure.typed:
        return f'you wrote "{figure.typed}"'
    if source is None:
        return ""
    if source.key == KEEPER:
        return "from the site file"
    place = figure.place.rstrip(".")
    if source.key in UNSOURCED:
        return f"{figure.basis.words}: {place}" if place else figure.basis.words
    return ", ".join(each for each in (source.text.rstrip("."), place) if each) + f" ({figure.basis.words})"


def leaves(reason: Reason) -> Iterator[Reason]:
    """Give everything that a reason rests on in the end."""
    if not reason.inputs:
        yield reason
    for each in reason.inputs:
        yield from leaves(each)


def _strongest(figure: Figure) -> Iterator[str]:
    """Give the inputs by how closely the result follows them, rank by rank; those that do not move it are left out."""
    result = _ranks(figure.members)
    pulls = [(abs(_follows(_ranks(each.members[: result.size]), result)), each.words) for _, each in figure.inputs]
    yield from (words for pull, words in sorted(pulls, reverse=True) if pull > 0.3)


def _ranks(values: np.ndarray) -> np.ndarray:
    """Return the rank of each value; equal values share the middle of their ranks, so that no order is made up."""
    _, place, count = np.unique(np.nan_to_num(values, nan=np.inf), return_inverse=True, return_counts=True)
    middle = np.cumsum(count) - (count + 1) / 2.0
    return np.asarray(middle[place], dtype=float)


def _follows(one: np.ndarray, other: np.ndarray) -> float:
    if one.std() == 0.0 or other.std() == 0.0:
        return 0.0
    return float(np.corrcoef(one, other)[0, 1])


def _finite(value: float) -> float | None:
    return value if np.isfinite(value) else None
