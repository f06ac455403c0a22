"""`sourloam verify`: whether the logbook is as it was written."""

import sys

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.views.logbook_json import verify_object


@click.command("verify")
@options.of_site
@options.book
@options.as_json
def command(site: str | None, book: str | None, *, as_json: bool) -> None:
    """Check every line of the logbook against the chain over what was first written.

    Exit code 0: nothing was changed. 1: lines were changed or are missing, and which.
    """
    sys.exit(guarded(lambda: _run(site, book, as_json=as_json), as_json=as_json))


def _run(site: str | None, book: str | None, *, as_json: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.record import verify

    lines, faults = verify(Book.of(book, site))
    if as_json:
        click.echo(options.json_text(verify_object(lines, faults)))
    elif faults:
        click.echo("\n".join([f"{len(lines_of(faults))} to look at, of {lines} lines:", *lines_of(faults)]))
    else:
        click.echo(
            f"All {lines} lines are as they were first written." if lines != 1 else "The one line is as written."
        )
    return Exit.NO if faults else Exit.DONE


def lines_of(faults: tuple[str, ...]) -> list[str]:
    """Return each fault as a line."""
    return [f"  - {each}" for each in faults]
