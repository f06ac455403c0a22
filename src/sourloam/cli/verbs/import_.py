"""`sourloam import FILE`: a site file, the lines of another logbook, or a table of past records, into the logbook."""

import sys
from datetime import date
from pathlib import Path
from typing import Any

import click

from sourloam.base.errors import BadInput, Problem
from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_logbook import past_text
from sourloam.cli.show_record import record_text
from sourloam.views.logbook_json import record_object
from sourloam.views.past import past_object


@click.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--map", "maps", multiple=True, metavar="COLUMN=FIELD", help="What a column of a table is.")
@click.option("--rest", "is_rest", is_flag=True, help="Of a table: keep the rows that can be.")
@click.option("--yes", is_flag=True, help="Of a table: keep it without asking.")
@options.of_site
@options.on_day
@options.by
@options.book
@options.as_json
def command(file: Path, *, as_json: bool, **rest: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Take a site file (.toml), an export (.jsonl, .csv) or a table of past records (.csv) into the logbook.

    The first site file begins the record of that site, on its first day; a later one says how the
    site is from now on. Of a table of past records, what each column is taken for is shown first. Rows
    that cannot be are written beside it with the reason; without --rest one such row keeps all out.
    Taken in again, no row is kept twice.

    Exit code 0: taken in. 1: a table was shown, or rows were refused. 2: the file has faults, all of
    them named; nothing of it is kept.
    """
    sys.exit(guarded(lambda: _run(file, as_json=as_json, **rest), as_json=as_json))


def _run(file: Path, *, as_json: bool, maps: tuple[str, ...], is_rest: bool, yes: bool, **rest: Any) -> Exit:  # noqa: ANN401
    if file.suffix == ".csv" and not _is_export(file):
        return _table(file, _said(maps), is_rest=is_rest, yes=yes, as_json=as_json, **rest)
    on, who, book = rest["on"], rest["who"], rest["book"]
    if file.suffix in (".jsonl", ".csv"):
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


def _table(
    file: Path,
    said: dict[str, str],
    *,
    is_rest: bool,
    yes: bool,
    as_json: bool,
    site: str | None,
    who: str,
    book: str | None,
    on: date | None,
) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.past_records import keep_past, look

    if on is not None:
        raise BadInput("import", (Problem("--on", "a table has a day in each row;", "leave it out."),))
    into = Book.of(book, site)
    asks = not yes and not as_json and options.has_terminal()
    if not yes:
        view = look(file, said)
        click.echo(options.json_text(past_object(view)) if as_json else past_text(view))
        if not asks or not click.confirm("Keep it?", default=True, err=True):
            return Exit.NO
    view = keep_past(into, file, said, who=who, is_all=not is_rest)
    click.echo(options.json_text(past_object(view)) if as_json else past_text(view))
    return Exit.NO if view.refused else Exit.DONE


def _said(maps: tuple[str, ...]) -> dict[str, str]:
    problems = [
        Problem(each, "does not say what a column is;", "write COLUMN=FIELD, such as day=date.")
        for each in maps
        if "=" not in each
    ]
    if problems:
        raise BadInput("--map", tuple(problems))
    return {name.strip(): field.strip() for name, _, field in (each.rpartition("=") for each in maps)}


def _is_export(file: Path) -> bool:
    from sourloam.service.tables import is_exported

    return is_exported(file)
