"""`sourloam serve`: the pages for a browser on this machine, over one's own logbook."""

import sys
from datetime import date

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded

HERE = "127.0.0.1"


@click.command("serve")
@click.option("--port", type=click.IntRange(1024, 65535), default=8765, show_default=True, metavar="NUMBER")
@options.of_site
@options.book
@click.option("--today", "on", type=options.Day(), metavar="DATE", help="As on another day; entries are dated then.")
def command(port: int, site: str | None, book: str | None, on: date | None) -> None:
    """Open the pages in a browser: http://localhost:8765, on this machine alone.

    Ends with Ctrl-C. Exit code 0: ended. 3: the port is taken.
    """
    sys.exit(guarded(lambda: _run(port, site, book, on), as_json=False))


def _run(port: int, site: str | None, book: str | None, on: date | None) -> Exit:
    from sourloam.web.serve import serve

    serve(HERE, port, book=book, site=site, on=on, says=lambda words: click.echo(words, err=True))
    return Exit.DONE
