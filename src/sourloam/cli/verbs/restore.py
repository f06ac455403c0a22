"""`sourloam restore FILE`: a logbook from a copy."""

import sys
from pathlib import Path

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@options.book
@options.as_json
def command(file: Path, book: str | None, *, as_json: bool) -> None:
    """Take the sites of a copy into the logbook. Nothing that stands there is changed.

    Every line is held to the chain that was noted when the copy was made.

    Exit code 0: taken in, or it stood there already. 2: the copy was changed, or a site stands there with
    other lines. 4: it cannot be read.
    """
    sys.exit(guarded(lambda: _run(file, book, as_json=as_json), as_json=as_json))


def _run(file: Path, book: str | None, *, as_json: bool) -> Exit:
    from sourloam.service.archive import restore

    new = restore(file, book)
    if as_json:
        click.echo(options.json_text({"schema": "sourloam.restore/1", "new": new}))
    else:
        for site, count in new.items():
            click.echo(f"{site}: {f'{count} lines taken in' if count else 'it stood there already'}.")
    return Exit.DONE
