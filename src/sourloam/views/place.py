"""What any place may show of a product: the decision first, then numbers, then why."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType
from typing import Any

from sourloam.base.figure import Figure
from sourloam.base.source import Source
from sourloam.plan.words import Speech
from sourloam.science.batch.cautions import Caution
from sourloam.views.reason import Number, Reason, number_of, reason_of


class Decision(StrEnum):
    """What is to be done with a product at a place."""

    YES = "yes"
    NOT_YET = "not yet"
    NO = "no"
    ASK = "ask"


@dataclass(frozen=True)
class Section:
    """Lines under a title of their own: what to do, what to look at."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class PlaceView:
    """The answer of one place."""

    place: str  # its kind: "bed", "pile", "worm_bin", "soil_tub", "leachate" ...
    name: str  # what it is called
    decision: Decision
    says: str  # the decision in a sentence
    because: tuple[str, ...]  # the limit that binds first
    cautions: tuple[str, ...]
    numbers: tuple[Number, ...]  # in the order in which they are shown
    reasons: Mapping[str, Reason]
    speech: Speech
    sections: tuple[Section, ...] = ()  # what to do, before the numbers
    later: tuple[Section, ...] = ()  # what else is worth knowing, after the numbers
    tables: Mapping[str, Any] = field(default_factory=lambda: MappingProxyType({}))  # more for JSON: amounts, rules
    assumptions: tuple[str, ...] = ()
    behind: tuple[Number, ...] = ()  # more numbers, which --all and the JSON show

    @property
    def is_yes(self) -> bool:
        """Whether it goes in."""
        return self.decision is Decision.YES


def numbers_of(figures: Mapping[str, Figure], names: Iterable[str]) -> tuple[Number, ...]:
    """Return the figures of some names that are there, as they are shown."""
    return tuple(replace(number_of(figures[name]), name=name) for name in names if name in figures)


def reasons_of(figures: Mapping[str, Figure], sources: Mapping[str, Source]) -> Mapping[str, Reason]:
    """Return all figures opened down to their sources."""
    return MappingProxyType({name: reason_of(each, sources) for name, each in figures.items()})


def caution_lines(keys: Sequence[str], cautions: Mapping[str, Caution]) -> tuple[str, ...]:
    """Return the sentences of cautions, each with whom to ask, in the order of their keys and each once."""
    found = (cautions[key] for key in dict.fromkeys(keys))
    return tuple(f"{each.text} {each.authority}".strip() for each in found)
