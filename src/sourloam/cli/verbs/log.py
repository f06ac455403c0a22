"""`sourloam log WORDS`: an entry of the logbook, in the keeper's own words."""

import json
import sys
from collections.abc import Mapping
from datetime import date
from typing import Any

import click

from sourloam.base.errors import BadInput, Problem
from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_record import record_text
from sourloam.views.logbook import RecordView
from sourloam.views.logbook_json import record_object


@click.command("log")
@click.argument("words", nargs=-1)
@click.option("--kind", metavar="KIND", help="For scripts: the kind of entry, with its fields in --value.")
@click.option("--value", metavar="JSON", help='For scripts: its fields, such as {"vessel": "blue-1"}.')
@click.option("--correct", metavar="ID", help="Put the entry of this id right: it says from now on what you type.")
@click.option("--undo", "is_undo", is_flag=True, help="Take back the last entry.")
@click.option("--id", "id_", metavar="ID", default="", help="An id of your own: sent twice, it is kept once.")
@click.option("--yes", is_flag=True, help="Keep it without asking.")
@options.on_day
@options.by
@options.of_site
@options.book
@options.as_json
def command(
    words: tuple[str, ...],
    *,
    kind: str | None,
    value: str | None,
    correct: str | None,
    is_undo: bool,
    yes: bool,
    as_json: bool,
    **rest: Any,  # noqa: ANN401 - click gives what it was declared
) -> None:
    """Write down what happened: "blue 1.5 kg peelings, some chicken, 2 handfuls".

    So too "blue sealed", "drew 300 ml off blue, amber", "blue ph 3.9", "blue to long-bed",
    "bran 2 kg bought", "blue failed putrid", "long-bed dug", "note frost last night".

    Exit code 0: kept. 1: not kept, as you wished. 2: it cannot be read, or cannot have happened.
    """

    def run() -> Exit:
        text = " ".join(words)
        if kind is not None:
            return _told(_by_kind(kind, value, **rest), as_json=as_json)
        if is_undo or correct is not None:
            return _told(_changed(text, correct, **rest), as_json=as_json)
        asks = not yes and not as_json and options.has_terminal()
        return _phrase(text, asks=asks, as_json=as_json, **rest)

    sys.exit(guarded(run, as_json=as_json))


def _phrase(
    text: str, *, asks: bool, as_json: bool, on: date | None, who: str, id_: str, book: str | None, site: str | None
) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.record import By, log_phrase

    by, where = By(who, on=on, id=id_), Book.of(book, site)
    if asks:
        click.echo(record_text(log_phrase(where, text, by, is_kept=False)), err=True)
        if not click.confirm("Keep it?", default=True, err=True):
            click.echo("Not kept.", err=True)
            return Exit.NO
    return _told(log_phrase(where, text, by), as_json=as_json)


def _changed(
    text: str, correct: str | None, *, on: date | None, who: str, id_: str, book: str | None, site: str | None
) -> RecordView:
    from sourloam.service.book import Book
    from sourloam.service.record import By, undo
    from sourloam.service.record import correct as put_right

    by, where = By(who, on=on, id=id_), Book.of(book, site)
    return undo(where, by) if correct is None else put_right(where, text, correct, by)


def _by_kind(
    kind: str, value: str | None, *, on: date | None, who: str, id_: str, book: str | None, site: str | None
) -> RecordView:
    from sourloam.service.book import Book
    from sourloam.service.record import By, log_record

    return log_record(Book.of(book, site), kind, _object(value), By(who, "script", on=on, id=id_))


def _object(value: str | None) -> Mapping[str, Any]:
    try:
        held = json.loads(value or "{}")
    except (ValueError, RecursionError):
        held = None
    if not isinstance(held, dict):
        raise BadInput("--value", (Problem("", "it is no JSON object;", 'write one such as {"vessel": "blue-1"}.'),))
    return held


def _told(view: RecordView, *, as_json: bool) -> Exit:
    click.echo(options.json_text(record_object(view)) if as_json else record_text(view))
    return Exit.DONE
