"""The table of signs: how often each is seen in a vessel of each condition, and how loosely that is known.

Chances are held as Beta distributions: so many vessels were told of, as it
were, before the first one of this site. What is seen at a site is counted on.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from enum import IntEnum
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis


class Column(IntEnum):
    """The condition of a vessel on a day, as the table of signs has them."""

    SOUND = 0  # sour
    SHARP = 1  # acetic or yeasty, and tolerable
    ROTTEN = 2
    MOULDY = 3
    STILL = 4  # not sour yet, or never: cold, dry, no sugar
    DROWNED = 5


PRIORS: Final = (0.75, 0.10, 0.05, 0.05, 0.03, 0.02)  # of the columns, where nothing else is known; judgement
AT_LEAST: Final = 1e-4


@dataclass(frozen=True)
class Sign:
    """A sign, in words, and how often it is seen in each condition."""

    id: str
    kind: str
    words: str
    also: tuple[str, ...]
    chances: tuple[float, ...]  # by column
    told: float  # vessels that this is worth
    is_red: bool  # a single one is enough to stop
    source: str
    place: str
    basis: Basis
    counted: tuple[int, ...] = (0,) * len(Column)  # vessels of this site, by column

    @property
    def weighs(self) -> FloatArray:
        """Return how many vessels each chance is worth, those of this site counted."""
        return np.asarray(self.told + np.array(self.counted, dtype=float))

    @property
    def names(self) -> tuple[str, ...]:
        """Return all words under which a person may name it."""
        return (self.id, *self.also)


@dataclass(frozen=True)
class Outcome:
    """In how many vessels of this site, of so many that turned out one way, a sign was seen."""

    sign: str
    column: Column
    seen: int = 1
    of: int = 1


@dataclass(frozen=True)
class Signs:
    """The table, by id."""

    by_id: Mapping[str, Sign]

    def of(self, kind: str) -> tuple[Sign, ...]:
        """Return the signs of a kind, in the order of the table."""
        return tuple(each for each in self.by_id.values() if each.kind == kind)

    def find(self, kind: str, words: str) -> Sign | None:
        """Return the sign of a kind that goes by some words, the one with the longest name among them first."""
        bare = " ".join(words.casefold().replace("-", " ").split())
        named = [(name.replace("-", " "), each) for each in self.of(kind) for name in each.names]
        whole = next((each for name, each in named if name == bare), None)
        if whole is not None:
            return whole
        held = [(len(name), at) for at, (name, _) in enumerate(named) if f" {name} " in f" {bare} "]
        return named[max(held, key=lambda each: (each[0], -each[1]))[1]][1] if held else None

    def updated(self, outcomes: Iterable[Outcome]) -> "Signs":
        """Return the table with the outcomes of a site counted on, in whatever order they come.

        Of a Beta prior that is worth `told` vessels, k of n more leave (told p + k) ÷ (told + n).
        """
        table = dict(self.by_id)
        for each in outcomes:
            sign, at = table[each.sign], each.column
            chances, counted = list(sign.chances), list(sign.counted)
            weight = sign.told + counted[at]
            chances[at] = (weight * chances[at] + each.seen) / (weight + each.of)
            counted[at] += each.of
            table[each.sign] = replace(sign, chances=tuple(chances), counted=tuple(counted))
        return Signs(MappingProxyType(table))

    def drawn(self, seed: int) -> "Signs":
        """Return the table as it may as well be: each chance drawn from its Beta distribution."""
        chance = np.random.default_rng(seed)
        table = {}
        for name, sign in self.by_id.items():
            held = np.clip(sign.chances, AT_LEAST, 1.0 - AT_LEAST)
            told = chance.beta(sign.weighs * held, sign.weighs * (1.0 - held))
            table[name] = replace(sign, chances=tuple(np.clip(told, AT_LEAST, 1.0 - AT_LEAST)))
        return Signs(MappingProxyType(table))


def seen_times(sign: Sign, times: FloatArray) -> FloatArray:
    """Return the chance that a sign is seen so often in each column: times is by column, in its last axis.

    A chance that is not known makes the second time less of a surprise than the first: of a Beta distribution worth
    `told` vessels, k times come with the product of (told p + j) ÷ (told + j).
    """
    chances = np.asarray(sign.chances)
    total = np.ones(times.shape)
    for at in range(int(times.max(initial=0.0))):
        step = (sign.weighs * chances + at) / (sign.weighs + at)
        total = np.where(times > at, total * step, total)
    return np.asarray(total)


def by_table(signs: Signs, seen: Iterable[str], priors: tuple[float, ...] = PRIORS) -> FloatArray:
    """Return the chance of each column by the table alone: what is seen is multiplied, and nothing else.

    Examples
    --------
    >>> from sourloam.evidence.signs import load_signs
    >>> round(float(by_table(load_signs(), ("rancid", "high"))[Column.ROTTEN]), 3)
    0.774
    """
    chances = np.array(priors)
    for each in seen:
        chances = chances * np.array(signs.by_id[each].chances)
    return np.asarray(chances / chances.sum())
