"""The judgement of a load as text for a terminal."""

import textwrap
from collections.abc import Collection, Iterator
from typing import Final

from sourloam.cli.show import WIDTH, listed, spoken, wrapped
from sourloam.views.mix import FIRST, THEN, MixView

WORDS: Final = 47  # columns for what a number is about
PART: Final = 38  # columns for an amount as it was written


def mix_text(view: MixView, *, is_full: bool = False) -> str:
    """Return the judgement as a page of text; in full with what lies behind its numbers."""
    blocks = (
        _head(view),
        _advice(view),
        listed("What goes in, and how", view.notes),
        _parts(view),
        [*_numbers("In numbers (in brackets: nine in ten lie between)", FIRST, view), *_class(view)],
        _numbers("And behind them", THEN, view) if is_full else (),
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
    shown = [each for each in view.numbers if each.name in names]
    if not shown:
        return
    yield title
    for each in shown:
        value, interval = spoken(each, view.speech)
        first, *rest = textwrap.wrap(each.words, WORDS)
        yield f"  {first:<{WORDS}} {value:>12}  {interval}".rstrip()
        yield from (f"    {line}" for line in rest)


def _class(view: MixView) -> Iterator[str]:
    if view.fermentability:
        yield f"  As silage makers class it: {view.fermentability}."


def _foot(view: MixView) -> Iterator[str]:
    yield "Why? --why bran opens that figure. More numbers: --all. Everything: --json."
