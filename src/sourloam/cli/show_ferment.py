"""The forecast of a batch as text for a terminal."""

import textwrap
from collections.abc import Iterator
from typing import Final

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show import spoken
from sourloam.plan.words import when
from sourloam.views.ferment import AMOUNTS, DATES, FailingView, FermentView
from sourloam.views.ferment_verdict import RARE, chance_words, never_words, span
from sourloam.views.reason import Number

WORDS: Final = 47  # columns for what a number is about
KINDS: Final = 9  # and for how it may fail
OFTEN: Final = 12  # and in how many cases
DATE_WORDS: Final = {
    "soured_day": "sour",
    "ready_day": "ready",
    "due_day": "due",
    "hold_day": "held sour",
}


def ferment_text(view: FermentView) -> str:
    """Return the forecast as a page of text."""
    blocks = (
        _head(view),
        _dates(view),
        _failing(view),
        _advice(view),
        listed("While it ferments", view.hints),
        listed("With care", view.cautions),
        _numbers(view),
        listed("Taken as given", view.assumptions),
        _foot(),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _head(view: FermentView) -> Iterator[str]:
    yield from textwrap.wrap(f"{view.batch.name}: {view.says}", WIDTH)


def _dates(view: FermentView) -> Iterator[str]:
    count = len(view.batch.filling.layers)
    since = "Days after the last layer" if count > 1 else "Days after it was laid in"
    yield f"{since} (in brackets: nine in ten of those that get there)"
    for each in view.numbers:
        if each.name in DATES:
            yield f"  {DATE_WORDS[each.name]:<10} {_day(each, view)}".rstrip()


def _day(number: Number, view: FermentView) -> str:
    if number.value is None or number.low is None or number.high is None:
        return never_words(number.never_frac)
    low, middle, high = (round(each) for each in (number.low, number.value, number.high))
    told = f"{middle:>4}  {f'({low} to {high})' if low < high else '':<12}"
    often = f"in {chance_words(1.0 - number.never_frac)} cases" if number.never_frac >= RARE else ""
    if view.batch.first is None:
        return f"{told}  {often}"
    between = f"({span(view.batch, low, high)})" if low < high else ""
    return f"{told}  {when(view.batch.on(middle)):>6}  {between:<18}  {often}"


def _failing(view: FermentView) -> Iterator[str]:
    yield "What may go wrong, the likeliest first"
    for each in view.failing:
        if each.word != "low":
            yield from wrapped(f"  {each.kind:<{KINDS}} {each.word:<7} {each.often:<{OFTEN}} ", f"{each.because}.")
    low = _names(each for each in view.failing if each.word == "low")
    if low:
        yield f"  {low}: low, each in fewer than 1 of 20"
    yield from textwrap.wrap(view.because, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _names(failing: Iterator[FailingView]) -> str:
    return ", ".join(each.kind for each in failing)


def _advice(view: FermentView) -> Iterator[str]:
    if not view.advice:
        return
    yield "What would help, each tried by itself"
    for each in view.advice:
        yield from wrapped("  - ", f"{each.do}: {each.because}.")


def _numbers(view: FermentView) -> Iterator[str]:
    yield "In numbers (in brackets: nine in ten lie between)"
    for each in view.numbers:
        if each.name in AMOUNTS and each.value is not None:
            value, interval = spoken(each, view.speech)
            yield f"  {each.words:<{WORDS}} {value:>12}  {interval}".rstrip()


def _foot() -> Iterator[str]:
    yield "Why? --why ready_day opens that figure. Drawn: --plot FILE.svg. All: --json."
