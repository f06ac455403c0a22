"""`sourloam forecast`: work out the forecasts of what is in the vessels, and keep them for today's list."""

import sys
from datetime import date

import click

from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.following import tell
from sourloam.cli.show_logbook import forecasts_text
from sourloam.views.logbook_json import forecasts_object


@click.command("forecast")
@options.of_site
@options.book
@click.option("--today", "on", type=options.Day(), metavar="DATE", help="Forecast as on this day, not the clock's.")
@options.as_json
def command(site: str | None, book: str | None, on: date | None, *, as_json: bool) -> None:
    """Forecast every batch that is in a vessel, from what was laid in and read, and keep it.

    What is kept and still holds is not worked out again. "sourloam today" shows the last forecasts with
    their age, and plans by them.

    Exit code 0: all are kept. 1: a batch cannot be forecast, and why. 2: the logbook holds no site.
    """
    sys.exit(guarded(lambda: _run(site, book, on, as_json=as_json), as_json=as_json))


def _run(site: str | None, book: str | None, on: date | None, *, as_json: bool) -> Exit:
    from sourloam.service.book import Book, Known, now_utc
    from sourloam.service.forecasts import refresh

    done = refresh(Book.of(book, site), Known(), compiler=compiled, says=tell, on=on)
    tell("")
    if as_json:
        click.echo(options.json_text(forecasts_object(done.kept, done.new, done.failed, now_utc())))
    else:
        click.echo(forecasts_text(done.kept, done.new, done.failed, now_utc()))
    return Exit.NO if done.failed else Exit.DONE
