"""An answer of the bench of cultures as text for a terminal."""

import textwrap
from collections.abc import Iterator
from datetime import date
from typing import Final

from sourloam.base.days import MONTHS
from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show_mix import number_lines
from sourloam.views.culture import CultureView, StepLine

NUMBERS: Final = "In numbers (in brackets: nine in ten lie between)"
FIRST: Final = (
    "bran_kg",
    "moisture_pct",
    "log10_cfu_per_g",
    "days_ahead",
    "sheets",
    "needed_kg",
    "works_pct",
    "dose_g_per_kg",
    "keeps_d",
    "least_log10",
    "days_left",
    "made_per_kg",
    "bought_per_kg",
    "made_scraps_per_kg",
    "bought_scraps_per_kg",
    "break_even_kg",
    "made_month",
    "bought_month",
)
WHAT: Final = 34  # columns for what an amount is of
BOX: Final = "[ ]"
ONE_DAY: Final = 1.5


def culture_text(view: CultureView, *, is_full: bool = False) -> str:
    """Return an answer as a page of text; in full with all numbers, signs and other starts."""
    numbers = [each for each in view.numbers if is_full or each.name in FIRST]
    disagreements = [each.says for each in view.disagreements]
    blocks = (
        textwrap.wrap(view.says, WIDTH),
        _lines(view.because),
        listed("Do this", view.do),
        _amounts(view),
        _steps(view, is_full=is_full),
        listed("To buy", [each.said for each in view.shopping]),
        listed("Mind", view.notes),
        _uses(view),
        _starts(view, is_full=is_full),
        listed("Where custom and reckoning differ", disagreements if is_full else disagreements[:3]),
        number_lines(NUMBERS, numbers, view.speech),
        listed("With care", view.cautions),
        listed("Taken as given", view.assumptions),
        _foot(view),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _lines(texts: tuple[str, ...]) -> Iterator[str]:
    for each in texts:
        yield from textwrap.wrap(each, WIDTH)


def _amounts(view: CultureView) -> Iterator[str]:
    if not view.amounts:
        return
    yield "Amounts, in the order of use"
    for each in view.amounts:
        aside = f"  {each.aside}" if each.aside else ""
        yield f"  {textwrap.shorten(each.what, WHAT, placeholder=' ...'):<{WHAT}} {each.said:>9}{aside}"


def _steps(view: CultureView, *, is_full: bool) -> Iterator[str]:
    if not view.steps:
        return
    yield "Step by step"
    for number, each in enumerate(view.steps):
        if number:
            yield ""
        yield from _step(each, is_full=is_full)
    if all(each.latest_start == each.start for each in view.steps):
        return
    yield ""
    yield from wrapped("  ", "On a later day than the one in brackets it is ready in time in 1 case of 4 at most.")


def _step(step: StepLine, *, is_full: bool) -> Iterator[str]:
    on = _day(step.start) if step.start else ""
    latest = (
        f" (at the latest {_day(step.latest_start)})" if step.latest_start and step.latest_start != step.start else ""
    )
    head = f"  {BOX} {on}{latest}: "
    yield from wrapped(head, f"{step.what}.", hang=6 - len(head))
    yield from _hung("Amounts", step.amounts)
    if step.days is not None and step.days.value is not None and step.days.value > ONE_DAY:
        low, high = step.days.low or 0.0, step.days.high or 0.0
        yield from _hung("Takes", f"about {step.days.value:.0f} days ({low:.0f} to {high:.0f})")
    yield from _hung("Ready when", step.ready_when)
    yield from _hung("Away with it when", step.throw_away_when)
    if is_full or not step.ready_when:
        yield from _hung("Meanwhile", step.meanwhile)


def _hung(title: str, words: str) -> Iterator[str]:
    if words:
        yield from wrapped(
            f"      {title}: ", f"{words[:1].lower()}{words[1:]}.".replace("..", "."), hang=-(len(title) + 2)
        )


def _starts(view: CultureView, *, is_full: bool) -> Iterator[str]:
    if not view.starts:
        return
    yield "Other ways to begin" + ("" if is_full else " (how: --all)")
    for each in view.starts:
        takes = f"{each.days.value or 0.0:.0f} days ({each.days.low or 0.0:.0f} to {each.days.high or 0.0:.0f})"
        spares = f", {each.spares_d:.0f} fewer than from rice" if each.spares_d >= 0.5 else ""
        yield from wrapped("  - ", f"{each.name}: {takes}{spares}." + (f" {each.does}" if is_full else ""))
        if is_full and each.amount:
            yield from wrapped("    ", f"How much: {each.amount}.")
        if is_full and each.when_afresh:
            yield from wrapped("    ", f"Begin afresh: {each.when_afresh[0].lower()}{each.when_afresh[1:]}")


def _uses(view: CultureView) -> Iterator[str]:
    for each in view.uses:
        yield from wrapped("  - ", f"{each.name[:1].upper()}{each.name[1:]}: {each.amount}. {each.says}")
        yield from wrapped("    ", f"Evidence: {each.evidence}.")
        if each.caution:
            yield from wrapped("    ", each.caution)


def _foot(view: CultureView) -> Iterator[str]:
    why = next((each.name for each in view.numbers if view.reasons[each.name].inputs), "")
    if why:
        yield f"Why? --why {why} opens that figure. More: --all. Everything: --json."
    if view.steps:
        yield "As a sheet for the bench: --out FOLDER."


def _day(on: date) -> str:
    return f"{on:%a} {on.day} {MONTHS[on.month - 1]}"
