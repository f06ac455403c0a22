"""`sourloam history [ABOUT]`: what was written down."""

import sys

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_logbook import history_text
from sourloam.views.logbook_json import history_object


@click.command("history")
@click.argument("about", required=False)
@options.of_site
@options.book
@options.as_json
def command(about: str | None, site: str | None, book: str | None, *, as_json: bool) -> None:
    """Show what was written down, oldest first: all, or about a vessel, a place or a batch.

    Exit code 0: shown. 2: nothing of that name is in the logbook.
    """
    sys.exit(guarded(lambda: _run(about, site, book, as_json=as_json), as_json=as_json))


def _run(about: str | None, site: str | None, book: str | None, *, as_json: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.record import history

    lines = history(Book.of(book, site), about)
    click.echo(options.json_text(history_object(lines)) if as_json else history_text(lines))
    return Exit.DONE
