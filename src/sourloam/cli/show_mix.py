"""The judgement of a load as text for a terminal."""

import textwrap
from collections.abc import Collection, Iterator, Sequence
from typing import Final

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show import spoken
from sourloam.plan.words import Speech
from sourloam.views.mix import FIRST, THEN, MixView
from sourloam.views.reason import Number

WORDS: Final = 47  # columns for what a number is about
PLANNED: Final = "absorbent_g"  # two amounts for one thing would have to be told apart
FILLING: Final = ("full_kg", "bed_g", "mixed_g_per_kg")
PART: Final = 38  # columns for an amount as it was written


def mix_text(view: MixView, *, is_full: bool = False) -> str:
    """Return the judgement as a page of text; in full with what lies behind its numbers."""
    blocks = (
        _head(view),
        _advice(view),
        listed("How to fill it", view.fill),
        listed("The liquid", view.liquid),
        listed("What goes in, and how", view.notes),
        listed("Kept apart", view.apart),
        listed("Once it is in the ground", view.ground),
        _parts(view),
        [*_numbers("In numbers (in brackets: nine in ten lie between)", _first(view), view), *_class(view)],
        _numbers("And behind them", {*FIRST, *THEN} - _first(view), view) if is_full else (),
        listed("Elsewhere, unfermented", view.elsewhere),
        listed("Taken as given", view.assumptions),
        _foot(view),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _head(view: MixView) -> Iterator[str]:
    yield from textwrap.wrap(view.says, WIDTH)
    for each in view.why:
        yield from wrapped("  - ", f"{each.words.rstrip('.')} ({_chance(each.holds_frac)}).")


def _chance(holds_frac: float) -> str:
    """Return how likely it is that a limit is not kept."""
    tenths = round(10.0 * (1.0 - holds_frac))
    return "as good as certain" if tenths == 10 else f"{max(tenths, 1)} in 10"


def _advice(view: MixView) -> Iterator[str]:
    if not view.advice and not view.hints:
        return
    yield "Do this"
    for each in view.advice:
        yield from wrapped("  - ", f"{each.do}, {each.because}.")
    if view.advice:
        yield f"  With that: {view.after[0].lower()}{view.after[1:]}"
    elif view.why:
        yield from wrapped("  ", "Nothing that is at hand makes it sound: leave the worst of it out, or bury it deep.")
    yield from listed("", view.hints)


def _parts(view: MixView) -> Iterator[str]:
    yield "What it is"
    for typed, mass in view.parts:
        yield f"  {textwrap.shorten(typed, PART, placeholder=' ...'):<{PART}} {mass}"


def _numbers(title: str, names: Collection[str], view: MixView) -> Iterator[str]:
    yield from number_lines(title, [each for each in view.numbers if each.name in names], view.speech)


def number_lines(title: str, numbers: Sequence[Number], speech: Speech) -> Iterator[str]:
    """Give numbers with their intervals under a title; nothing where there are none."""
    if not numbers:
        return
    yield title
    for each in numbers:
        value, interval = spoken(each, speech)
        first, *rest = textwrap.wrap(each.words, WORDS)
        line = f"  {first:<{WORDS}} {value:>12}"
        fits = len(line) + 2 + len(interval) <= WIDTH
        yield f"{line}  {interval}".rstrip() if fits else line
        yield from (f"    {each}" for each in (rest if fits else [*rest, interval]))


def _first(view: MixView) -> set[str]:
    """Return the numbers that come first; where a filling is planned, its own stand for what would soak up a load."""
    return set(FIRST) - {PLANNED} if view.fill else set(FIRST) - {*FILLING}


def _class(view: MixView) -> Iterator[str]:
    if view.fermentability:
        yield f"  As silage makers class it: {view.fermentability}."


def _foot(view: MixView) -> Iterator[str]:
    yield "Why? --why bran opens that figure. More numbers: --all. Everything: --json."
