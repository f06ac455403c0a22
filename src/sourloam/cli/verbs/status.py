"""`sourloam status`: the shelf, the cupboard and the ground, by the record."""

import sys
from datetime import date

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_logbook import status_text
from sourloam.views.status import status_object


@click.command("status")
@options.of_site
@options.book
@click.option("--today", "on", type=options.Day(), metavar="DATE", help="Another day: only what was so by then counts.")
@options.as_json
def command(site: str | None, book: str | None, on: date | None, *, as_json: bool) -> None:
    """Show how everything stands by what was written down: the shelf, the cupboard, the ground.

    Exit code 0: shown. 2: the logbook holds no site, or the one that is named is not in it.
    """
    sys.exit(guarded(lambda: _run(site, book, on, as_json=as_json), as_json=as_json))


def _run(site: str | None, book: str | None, on: date | None, *, as_json: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.today import status

    view = status(Book.of(book, site), on)
    click.echo(options.json_text(status_object(view)) if as_json else status_text(view))
    return Exit.DONE
