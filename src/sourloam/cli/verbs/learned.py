"""`sourloam learned`: this site's own values beside the usual ones, by what was written down."""

import sys

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show import reason_text
from sourloam.cli.show_learned import learned_text
from sourloam.plan.words import Speech
from sourloam.views.as_json import reason_object
from sourloam.views.learned import learned_object


@click.command("learned")
@options.of_site
@options.book
@click.option("--why", metavar="FIGURE", help="Open one value down to what it rests on: week_kg, handful_g ...")
@options.as_json
def command(site: str | None, book: str | None, why: str | None, *, as_json: bool) -> None:
    """Show what the record says of this site, beside what is usual elsewhere.

    Scraps a week, kg to a litre, days to fill and to sour, liquid, bran, a handful, failures.
    Nothing of it is taken by itself; what the site file can take is offered as a line to write.

    Exit code 0: shown. 2: the logbook holds no site.
    """
    sys.exit(guarded(lambda: _run(site, book, why, as_json=as_json), as_json=as_json))


def _run(site: str | None, book: str | None, why: str | None, *, as_json: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.learned import learned

    view = learned(Book.of(book, site))
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, Speech()))
        return Exit.DONE
    click.echo(options.json_text(learned_object(view)) if as_json else learned_text(view))
    return Exit.DONE
