"""`sourloam import FILE`: a site file, or the lines of another logbook, into the logbook."""

import sys
from datetime import date
from pathlib import Path

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_logbook import record_text
from sourloam.views.logbook_json import record_object


@click.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@options.on_day
@options.by
@options.book
@options.as_json
def command(file: Path, on: date | None, who: str, book: str | None, *, as_json: bool) -> None:
    """Take a site file (.toml) or exported lines (.jsonl) into the logbook.

    The first site file begins the record of that site, on its first day; a later one says how the
    site is from now on.

    Exit code 0: taken in. 2: the file has faults, all of them named; nothing of it is kept.
    """
    sys.exit(guarded(lambda: _run(file, on, who, book, as_json=as_json), as_json=as_json))


def _run(file: Path, on: date | None, who: str, book: str | None, *, as_json: bool) -> Exit:
    if file.suffix == ".jsonl":
        from sourloam.service.moving import import_lines

        into, new = import_lines(file, book)
        held = {"schema": "sourloam.import/1", "site": into.site, "new": new}
        words = (
            f"{new} lines taken in for {into.site}." if new else f"All of it stands in the book of {into.site} already."
        )
        click.echo(options.json_text(held) if as_json else words)
        return Exit.DONE
    from sourloam.service.record import By, import_site

    view = import_site(file, book, By(who, on=on))
    click.echo(options.json_text(record_object(view)) if as_json else record_text(view))
    return Exit.DONE
