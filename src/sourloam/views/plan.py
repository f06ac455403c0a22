"""What the plan may show, on a page, in a terminal, in print or as JSON."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sourloam.base.days import Span
from sourloam.base.source import Source
from sourloam.plan.answer import Batch, BranLot, Ground, Task, YearPlan
from sourloam.plan.lived import LivedYears
from sourloam.plan.matter import Matter
from sourloam.plan.shelf import Shelf
from sourloam.plan.words import Speech
from sourloam.views.reason import Number, Reason, number_of, reason_of


@dataclass(frozen=True)
class Stall:
    """A time in which scraps have nowhere to go."""

    first: date
    last: date
    binding: str


@dataclass(frozen=True)
class CureView:
    """A change, and what is left of the stall with it."""

    kind: str
    what: str
    stalled_days: int
    effort: str  # nothing, habit or thing


@dataclass(frozen=True)
class PlanView:
    """A year's plan."""

    site: str
    site_id: str
    speech: Speech
    first: date
    last: date
    enough: bool
    summary: tuple[str, ...]
    numbers: tuple[Number, ...]
    reasons: Mapping[str, Reason]
    names: Mapping[str, str]  # of vessels and places, by id
    batches: tuple[Batch, ...]
    tasks: tuple[Task, ...]
    bran: tuple[BranLot, ...]
    currency: str
    ground: tuple[Ground, ...]
    shelf: Shelf
    matter: Matter
    closed: tuple[Span, ...]
    frozen: tuple[Span, ...]
    bran_on_hand: tuple[tuple[date, float], ...]
    levels: Mapping[str, tuple[tuple[date, float], ...]]
    stalls: tuple[Stall, ...]
    cures: tuple[CureView, ...]
    lived: LivedYears
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]
    hints: tuple[str, ...]
    asks: tuple[str, ...]


def view_of(plan: YearPlan, names: Mapping[str, str], sources: Mapping[str, Source]) -> PlanView:
    """Return what of a plan is shown."""
    return PlanView(
        site=plan.site,
        site_id=plan.site_id,
        speech=plan.speech,
        first=plan.first,
        last=plan.last,
        enough=plan.enough,
        summary=plan.summary,
        numbers=tuple(number_of(each) for each in plan.figures.values()),
        reasons={name: reason_of(each, sources) for name, each in plan.figures.items()},
        names=names,
        batches=plan.batches,
        tasks=plan.tasks,
        bran=plan.bran,
        currency=plan.currency,
        ground=plan.ground,
        shelf=plan.shelf,
        matter=plan.matter,
        closed=plan.closed,
        frozen=plan.frozen,
        bran_on_hand=plan.bran_on_hand,
        levels=plan.levels,
        stalls=tuple(Stall(*each) for each in plan.stalls),
        cures=tuple(CureView(each.kind, each.what, each.stalled_days, each.effort) for each in plan.cures),
        lived=plan.lived,
        cautions=plan.cautions,
        assumptions=plan.assumptions,
        hints=plan.hints,
        asks=plan.asks,
    )
