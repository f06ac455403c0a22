"""The plan of a year: the rotation without chance, everything that follows from it, and how often chance stalls it."""

from dataclasses import replace
from datetime import date, timedelta

from sourloam.fleet.cures import cures
from sourloam.fleet.life import Life
from sourloam.plan.answer import BranLot, YearPlan
from sourloam.plan.chance import weighed
from sourloam.plan.culture import bran_lots, bran_on_hand
from sourloam.plan.figures import figures
from sourloam.plan.forecast import batches
from sourloam.plan.ground import ground
from sourloam.plan.matter import matter
from sourloam.plan.question import Question
from sourloam.plan.remarks import asks, assumptions, cautions, hints
from sourloam.plan.shelf import busiest_shelf
from sourloam.plan.simulated import living, simulated
from sourloam.plan.sizes import sizes
from sourloam.plan.summary import bran_words, summary
from sourloam.plan.tasks import tasks
from sourloam.plan.weather import closed_ground, frozen_ground
from sourloam.plan.winter import winter


def plan_year(question: Question) -> YearPlan:
    """Answer a question: is it enough, what to do when, and why.

    Raises
    ------
    BalanceError
        If the rotation loses a kilogram on the way, which would be our fault.
    """
    site = question.site
    live = living(question)
    life = live(site)
    flows = figures(question)
    measured = flows | sizes(question, flows)
    chance = weighed(question, seeks_cure=life.stalled_days == 0)
    found = measured | winter(question, measured) | simulated(question) | {chance.figure.name: chance.figure}
    tried = cures(site, life, live, indoors_c=question.climate.indoors_c)
    helping = tuple(replace(each, what=question.speech.told(each.what)) for each in tried)
    planned = batches(question, life)
    lots = bran_lots(question, life)
    places = ground(question, life)
    return YearPlan(
        site=site.facts.name or site.facts.id,
        site_id=site.facts.id,
        speech=question.speech,
        first=question.first,
        last=question.first + timedelta(days=question.days - 1),
        enough=chance.is_enough,
        summary=summary(question, life, found, cures=helping, lots=lots, chance=chance),
        figures=found,
        batches=planned,
        tasks=tasks(question, life, planned, lots=lots, places=places),
        bran=lots,
        currency=site.stock.currency,
        ground=places,
        shelf=busiest_shelf(question, life),
        matter=matter(life),
        closed=closed_ground(question),
        frozen=frozen_ground(question),
        bran_on_hand=bran_on_hand(question, life, lots),
        levels=_levels(life),
        stalls=life.stalls(),
        cures=helping,
        lived=chance.lived,
        cautions=cautions(question, life),
        assumptions=assumptions(question),
        hints=(*_bran_first(question, life, lots), *hints(question, life, found)),
        asks=asks(question),
    )


def _levels(life: Life) -> dict[str, tuple[tuple[date, float], ...]]:
    """Return how far each batch fills its vessel after each load."""
    found: dict[str, tuple[tuple[date, float], ...]] = {}
    for load in life.loads:
        found[load.batch] = (*found.get(load.batch, ()), (load.on, load.level_frac))
    return found


def _bran_first(question: Question, life: Life, lots: tuple[BranLot, ...]) -> tuple[str, ...]:
    """Return when the bran is begun, where the summary has other things to say."""
    return (bran_words(question, lots),) if life.stalled_days else ()
