"""The answer in two or three plain sentences: is it enough, where it fails, the cheapest cure."""

from collections.abc import Mapping
from datetime import date

from sourloam.base.figure import Figure
from sourloam.fleet.cures import Cure
from sourloam.fleet.life import Binding, Life
from sourloam.plan.answer import BranLot
from sourloam.plan.question import Question
from sourloam.plan.words import days, kg, when


def summary(
    question: Question, life: Life, figures: Mapping[str, Figure], *, cures: tuple[Cure, ...], lots: tuple[BranLot, ...]
) -> tuple[str, ...]:
    """Return the sentences."""
    first = _enough(question, figures) if life.stalled_days == 0 else _not_enough(life)
    second = _cure(cures) if life.stalled_days else ""
    return tuple(each for each in (first, second, _bran(question, lots)) if each)


def _enough(question: Question, figures: Mapping[str, Figure]) -> str:
    owned = len(question.site.vessels)
    vessels = "one vessel takes" if owned == 1 else f"{owned} vessels take"
    stalled = figures["stall_days_per_year"]
    if stalled.high < 0.5:
        return f"Enough: {vessels} all scraps of the year."
    slow = f"in a slow one they have nowhere to go on {days(stalled.high)}"
    return f"Enough, but not by much: {vessels} all scraps of a middling year; {slow}."


def _not_enough(life: Life) -> str:
    stalls = life.stalls()
    longest = max(stalls, key=lambda each: (each[1] - each[0]).days)
    total = f"scraps have nowhere to go on {days(life.stalled_days)} of the year, {kg(life.turned_away_kg)} in all"
    span = _span(*longest[:2])
    why = _binding(longest[2])
    if len(stalls) == 1:
        return f"Not enough: {total}, {span}, because {why}."
    return f"Not enough: {total}, in {len(stalls)} stalls; the longest {span}, because {why}."


def _span(first: date, last: date) -> str:
    return f"on {when(first)}" if first == last else f"from {when(first)} to {when(last)}"


def _binding(binding: Binding) -> str:
    if binding == "places":
        return "finished batches wait for a place"
    return "all vessels are still fermenting"


def _cure(cures: tuple[Cure, ...]) -> str:
    if not cures:
        return "Nothing that was tried cures it: take in less, or find another taker."
    best = cures[0]
    if best.is_whole:
        return f"Cheapest cure: {best.what}. Then no day is stalled."
    return f"What helps most: {best.what}. Then {days(best.stalled_days)} are left."


def _bran(question: Question, lots: tuple[BranLot, ...]) -> str:
    if not lots:
        return "The bran on hand lasts the year."
    lot = lots[0]
    if question.site.stock.bran_from == "bought":
        return f"Buy {kg(lot.bran_kg)} of bran by {when(lot.usable_on)}."
    begin = lot.steps[0] if lot.bought_kg == 0.0 else lot.steps[1]
    buy = f" Until it is dry, {kg(lot.bought_kg)} of ready bran must be bought." if lot.bought_kg > 0.0 else ""
    return f"Begin the first bran on {when(begin[1])}: it is dry on {when(lot.usable_on)}.{buy}"
