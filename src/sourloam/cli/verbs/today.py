"""`sourloam today`: what to do now and next, and how everything stands."""

import sys
from datetime import date

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_logbook import today_text
from sourloam.views.logbook_json import today_object


@click.command("today")
@options.of_site
@options.book
@click.option("--today", "on", type=options.Day(), metavar="DATE", help="Another day: only what was so by then counts.")
@options.as_json
def command(site: str | None, book: str | None, on: date | None, *, as_json: bool) -> None:
    """Say what to do today and in the next week, from what was written down.

    Exit code 0: said. 2: the logbook holds no site, or the one that is named is not in it.
    """
    sys.exit(guarded(lambda: _run(site, book, on, as_json=as_json), as_json=as_json))


def _run(site: str | None, book: str | None, on: date | None, *, as_json: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.today import today

    view = today(Book.of(book, site), on)
    click.echo(options.json_text(today_object(view)) if as_json else today_text(view))
    return Exit.DONE
