"""`sourloam size SITE`: will the chain ever stall, and what is the cheapest cure."""

import csv
import io
import sys
import time
from pathlib import Path
from typing import Any

import click

from sourloam.base.errors import BadInput, Problem
from sourloam.cli import options
from sourloam.cli.compiled import compiled_fleet
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show import reason_text
from sourloam.cli.show_size import size_text
from sourloam.draw.size_plot import size_sheet
from sourloam.service.files import write_whole
from sourloam.service.size import AskedSize, size_site
from sourloam.views.as_json import reason_object
from sourloam.views.size_json import COLUMNS, rows_of_lives, size_object

LINE = 60  # columns that a word on the way may take


@click.command("size")
@click.argument("site", type=click.Path(path_type=Path))
@click.option("--replications", type=click.IntRange(2, 10_000), default=100, show_default=True, metavar="COUNT")
@click.option("--seed", type=click.IntRange(0), default=1, show_default=True, metavar="NUMBER")
@click.option(
    "--level", type=click.FloatRange(0.0, 1.0), default=0.01, show_default=True, metavar="PART", help="Weeks allowed."
)
@click.option("--failing", type=click.FloatRange(0.0, 1.0), metavar="PART", help="What part of all batches fails.")
@click.option("--chance-only", "is_bare", is_flag=True, help="Leave out what would help; it is soon done.")
@click.option("--csv", "table", type=click.Path(path_type=Path), metavar="FILE", help="Write each lived year as a row.")
@click.option(
    "--plot", type=click.Path(path_type=Path), metavar="FILE.svg", help="Draw how often it stalls, and what would help."
)
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: stall_chance ...")
@options.today
@options.book_beside
@options.as_json
def command(*, table: Path | None, plot: Path | None, why: str | None, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Live the year many times, each with its own chance, and count its stalls.

    Exit code 0: it stalls no more than allowed. 1: it does. 2: the site file has
    faults. 130: stopped; what was done until then is shown, and said to be that.
    """
    sys.exit(guarded(lambda: _run(AskedSize(**asked), table, why, plot=plot, as_json=as_json), as_json=as_json))


def _run(asked: AskedSize, table: Path | None, why: str | None, *, plot: Path | None, as_json: bool) -> Exit:
    if plot is not None and plot.suffix.lower() != ".svg":
        raise BadInput("--plot", (Problem("", f'"{plot.name}" does not end in .svg;', "name an SVG file."),))
    view = size_site(asked, tells=_teller(), run=compiled_fleet())
    if sys.stderr.isatty():
        click.echo(f"\r{'':<{LINE}}\r", err=True, nl=False)
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech))
        return Exit.DONE
    if plot is not None:
        write_whole(plot, size_sheet(view).encode(), otherwise="Name another file with --plot.")
        click.echo(f"Written: {plot}", err=True)
    if table is not None:
        text = io.StringIO()
        csv.writer(text, lineterminator="\n").writerows([COLUMNS, *rows_of_lives(view)])
        write_whole(table, text.getvalue().encode(), otherwise="Name another file with --csv.")
    click.echo(options.json_text(size_object(view)) if as_json else size_text(view))
    if view.stopped:
        return Exit.STOPPED
    return Exit.DONE if view.is_enough else Exit.NO


def _teller() -> Any:  # noqa: ANN401 - a plain function of two counts
    begun = time.monotonic()

    def tell(done: int, whole: int) -> None:
        past = time.monotonic() - begun
        if past > 1.0 and done and sys.stderr.isatty():
            words = f"Lived {done} of about {whole} years, about {past * (whole - done) / done:.0f} s left"
            click.echo(f"\r{words:<{LINE}}", err=True, nl=False)

    return tell
