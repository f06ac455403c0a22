"""`sourloam export`: the logbook's lines, or its site as a file."""

import sys
from pathlib import Path

import click

from sourloam.base.errors import BadInput, Problem
from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded


@click.command("export")
@click.option("--toml", "is_site", is_flag=True, help="The site as it is now, as a site file.")
@click.option("--csv", "is_table", is_flag=True, help="As a table: --to FILE.csv; and what its columns are.")
@click.option("--to", "to", type=click.Path(path_type=Path), metavar="FILE", help="Write it there.")
@options.of_site
@options.book
def command(to: Path | None, site: str | None, book: str | None, *, is_site: bool, is_table: bool) -> None:
    """Give out the lines of the logbook, one JSON object each, as they were first written.

    Taken in again with "sourloam import FILE" they make the same logbook, here or on another
    database.

    Exit code 0: given out. 2: the logbook holds no such site. 4: it cannot be written.
    """
    sys.exit(guarded(lambda: _run(to, site, book, is_site=is_site, is_table=is_table), as_json=False))


def _run(to: Path | None, site: str | None, book: str | None, *, is_site: bool, is_table: bool) -> Exit:
    from sourloam.service.book import Book
    from sourloam.service.files import write_whole
    from sourloam.service.moving import export_lines
    from sourloam.service.record import export_site

    of = Book.of(book, site)
    if is_table or (to is not None and to.suffix == ".csv"):
        from sourloam.service.tables import write_tables

        if to is None:
            raise BadInput("export", (Problem("--csv", "a table is two files;", "say where: --to FILE.csv."),))
        for each in write_tables(of, to):
            click.echo(f"Written: {each}")
        return Exit.DONE
    text = export_site(of) if is_site else "".join(f"{each}\n" for each in export_lines(of))
    if to is None:
        click.echo(text, nl=False)
        return Exit.DONE
    click.echo(f"Written: {write_whole(to, text.encode(), otherwise='Name another file.')}")
    return Exit.DONE
