"""The answer in two or three plain sentences: is it enough, where it fails, the cheapest cure."""

from collections.abc import Mapping
from datetime import date
from typing import Final

from sourloam.base.days import LONG_MONTHS
from sourloam.base.figure import Figure
from sourloam.fleet.cures import Cure
from sourloam.fleet.life import Binding, Life
from sourloam.plan.answer import BranLot
from sourloam.plan.chance import Weighed
from sourloam.plan.question import Question
from sourloam.plan.words import Speech, days, enumerated, share, when

FEW_D: Final = 31  # up to so many stalled days it is enough "but for" them; a way of speaking


def summary(
    question: Question,
    life: Life,
    figures: Mapping[str, Figure],
    *,
    cures: tuple[Cure, ...],
    lots: tuple[BranLot, ...],
    chance: Weighed,
) -> tuple[str, ...]:
    """Return two or three sentences, the first of them fit for a heading."""
    if life.stalled_days == 0 and not chance.is_enough:
        return *_by_chance(chance), bran_words(question, lots)
    if life.stalled_days == 0:
        return _enough(question, figures), bran_words(question, lots)
    return _not_enough(life), _where(life, question.speech), _cure(cures)


def _by_chance(chance: Weighed) -> tuple[str, str]:
    """Say that a usual year has no stall, but that chance makes too many."""
    weeks = share(chance.figure.value)
    heading = f"Not enough for uneven years: by chance, scraps have nowhere to go in {weeks} of the weeks."
    lived = f"That is of {chance.years} years with uneven days and batches; a year without chance has no stalled day."
    if not chance.cure:
        return heading, f"{lived} No cure that was tried is enough alone."
    return heading, f"{lived} Cheapest cure: {chance.cure}; then in {share(chance.cured_frac)}."


def _enough(question: Question, figures: Mapping[str, Figure]) -> str:
    owned = len(question.site.vessels)
    vessels = "one vessel takes" if owned == 1 else f"{owned} vessels take"
    stalled = figures["stall_days_per_year"]
    if stalled.high < 0.5:
        return f"Enough: {vessels} all scraps of the year."
    slow = f"in a slow one they have nowhere to go on {days(stalled.high)}"
    return f"Enough, but not by much: {vessels} all scraps of a middling year; {slow}."


def _not_enough(life: Life) -> str:
    """Return the answer in a few words, as a heading."""
    months = list(dict.fromkeys(LONG_MONTHS[line.on.month - 1] for line in life.days if line.is_stalled))
    if life.stalled_days <= FEW_D and len(months) <= 3:
        return f"Enough, but for {days(life.stalled_days)} in {enumerated(months)}."
    return f"Not enough: scraps have nowhere to go on {days(life.stalled_days)} of the year."


def _where(life: Life, speech: Speech) -> str:
    """Say when and why it fails."""
    stalls = life.stalls()
    first, last, binding = max(stalls, key=lambda each: (each[1] - each[0]).days)
    why = _binding(binding)
    lost = f"{speech.kg(life.turned_away_kg)} have nowhere to go"
    if len(stalls) == 1:
        span = _span(first, last)
        return f"{span[0].upper()}{span[1:]} {why}: {lost}."
    return f"In {len(stalls)} stalls {lost}; in the longest, {_span(first, last)}, {why}."


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
        return f"Cheapest cure: {best.what}; then no day is stalled."
    return f"What helps most: {best.what}; then {days(best.stalled_days)} are left."


def bran_words(question: Question, lots: tuple[BranLot, ...]) -> str:
    """Say when the first bran is begun or bought."""
    if not lots:
        return "The bran on hand lasts the year."
    kg, lot = question.speech.kg, lots[0]
    begun_on = next((on for kind, on, _ in lot.steps if kind != "buy"), None)
    if begun_on is None:
        return f"Buy {kg(lot.bought_kg)} of bran by {when(lot.usable_on)}."
    buy = f" Until it is dry, {kg(lot.bought_kg)} of ready bran must be bought." if lot.bought_kg > 0.0 else ""
    return f"Begin the first bran on {when(begun_on)}: it is dry on {when(lot.usable_on)}.{buy}"
