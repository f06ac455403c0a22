"""What the bench of cultures may show: one answer, whatever was asked."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from sourloam.plan.words import Speech
from sourloam.views.reason import Number, Reason


@dataclass(frozen=True)
class AmountLine:
    """One thing in the order of use: what, how much, and the same in spoons or cups."""

    name: str  # of its figure
    what: str
    said: str
    aside: str = ""


@dataclass(frozen=True)
class StepLine:
    """One step: from when, until when at the latest, what, how much, and the signs."""

    id: str
    start: date | None
    latest_start: date | None
    what: str
    amounts: str
    ready_when: str
    throw_away_when: str
    meanwhile: str
    days: Number | None


@dataclass(frozen=True)
class Bought:
    """One line of the shopping."""

    thing: str
    amount: float
    unit: str
    said: str


@dataclass(frozen=True)
class Disagreement:
    """Where custom, what was published, and what is reckoned here do not say the same."""

    about: str
    custom: str
    custom_low_d: float | None
    custom_high_d: float | None
    model: Number | None
    published: str
    says: str


@dataclass(frozen=True)
class StartLine:
    """Another way to begin: its days, how many it spares, what is done, when to begin afresh."""

    id: str
    name: str
    days: Number
    spares_d: float
    does: str
    amount: str
    when_afresh: str


@dataclass(frozen=True)
class UseLine:
    """Another use, with what stands behind it."""

    name: str
    amount: str
    evidence: str
    says: str
    caution: str


@dataclass(frozen=True)
class Link:
    """One link of the chain, for the drawing: what it is, how much, what holds it, when it begins."""

    id: str
    name: str
    litres: float
    said: str
    on: date | None
    log10: Number | None = None


@dataclass(frozen=True)
class CultureView:
    """One answer of the bench."""

    says: str
    speech: Speech
    is_yes: bool = True  # whether the answer is what was hoped for
    because: tuple[str, ...] = ()
    do: tuple[str, ...] = ()
    amounts: tuple[AmountLine, ...] = ()
    binds: str = ""
    steps: tuple[StepLine, ...] = ()
    start_on: date | None = None
    safe_start: date | None = None
    ready_on: date | None = None
    starts: tuple[StartLine, ...] = ()
    shopping: tuple[Bought, ...] = ()
    numbers: tuple[Number, ...] = ()
    reasons: Mapping[str, Reason] = field(default_factory=dict)
    disagreements: tuple[Disagreement, ...] = ()
    uses: tuple[UseLine, ...] = ()
    notes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    chain: tuple[Link, ...] = ()
    works_log10: Number | None = None  # live count from which bran works
    layer_m: float = 0.02  # depth in which it dries
    name: str = "culture"
