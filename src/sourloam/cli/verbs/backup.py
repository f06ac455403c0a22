"""`sourloam backup FILE`: the whole logbook in one file."""

import sys
from pathlib import Path

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded


@click.command("backup")
@click.argument("file", type=click.Path(path_type=Path))
@options.book
@options.as_json
def command(file: Path, book: str | None, *, as_json: bool) -> None:
    """Copy every site of the logbook into one file, while others may write to it; the copy is read back.

    Take it somewhere else: a copy on the same disk is lost with it. "sourloam restore FILE" makes a
    logbook of it, on this machine or another, on either database.

    Exit code 0: copied. 2: there is nothing to copy, or FILE is there already. 4: it cannot be written.
    """
    sys.exit(guarded(lambda: _run(file, book, as_json=as_json), as_json=as_json))


def _run(file: Path, book: str | None, *, as_json: bool) -> Exit:
    from sourloam.service.archive import backup

    lines = backup(book, file)
    if as_json:
        click.echo(options.json_text({"schema": "sourloam.backup/1", "file": str(file), "lines": lines}))
    else:
        click.echo(f"Copied to {file}: {', '.join(f'{site}, {count} lines' for site, count in lines.items())}.")
    return Exit.DONE
