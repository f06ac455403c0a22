"""`sourloam undo [ID]`: take back an entry; nothing is deleted, it no longer counts."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_record import record_text
from sourloam.views.logbook_json import record_object


@click.command("undo")
@click.argument("entry", required=False)
@click.option("--why", metavar="WORDS", default="", help="Why it is taken back.")
@options.by
@options.of_site
@options.book
@options.as_json
def command(entry: str | None, *, as_json: bool, **rest: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Take back the last entry that counts, or the one of an id; undo the undoing to have it back.

    Exit code 0: taken back. 2: there is no such entry, or others would have no ground.
    """
    sys.exit(guarded(lambda: _run(entry, as_json=as_json, **rest), as_json=as_json))


def _run(entry: str | None, *, why: str, who: str, site: str | None, book: str | None, as_json: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.record import By, undo

    view = undo(Book.of(book, site), By(who), entry, why)
    click.echo(options.json_text(record_object(view)) if as_json else record_text(view))
    return Exit.DONE
