"""The answer of a place as text for a terminal, and how its verb ends."""

import textwrap
from collections.abc import Iterator
from typing import Final

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit
from sourloam.cli.lines import WIDTH, listed
from sourloam.cli.show import reason_text
from sourloam.cli.show_mix import number_lines
from sourloam.views.as_json import reason_object
from sourloam.views.place import Decision, PlaceView
from sourloam.views.place_json import place_object

WORD: Final = {Decision.YES: "Yes", Decision.NOT_YET: "Not yet", Decision.NO: "No", Decision.ASK: "Ask first"}


def place_text(view: PlaceView, *, is_full: bool = False) -> str:
    """Return the answer as a page of text: the decision, what to do, numbers, why."""
    told = view.speech.told
    blocks = (
        _head(view),
        *(listed(each.title, tuple(map(told, each.lines))) for each in view.sections),
        number_lines("In numbers (in brackets: nine in ten lie between)", view.numbers, view.speech),
        number_lines("And behind them", view.behind, view.speech) if is_full else (),
        *(listed(each.title, tuple(map(told, each.lines))) for each in view.later),
        listed("With care", tuple(map(told, view.cautions))),
        listed("Taken as given", tuple(map(told, view.assumptions))),
        _foot(view),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def answered(view: PlaceView, why: str | None, *, as_json: bool, is_full: bool = False) -> Exit:
    """Print an answer, or one of its figures opened; 0 where it goes in or is to be asked about, else 1."""
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech))
        return Exit.DONE
    click.echo(options.json_text(place_object(view)) if as_json else place_text(view, is_full=is_full))
    return Exit.DONE if view.decision in (Decision.YES, Decision.ASK) else Exit.NO


def _head(view: PlaceView) -> Iterator[str]:
    yield from textwrap.wrap(f"{WORD[view.decision]}: {view.speech.told(view.says)}", WIDTH)
    yield from listed("", tuple(map(view.speech.told, view.because)))


def _foot(view: PlaceView) -> Iterator[str]:
    if view.numbers:
        more = " More numbers: --all." if view.behind else ""
        yield from textwrap.wrap(
            f"Why? --why {view.numbers[0].name} opens that figure.{more} Everything: --json.", WIDTH
        )
