"""`sourloam ferment BATCH`: when a filling is sour, ready and due, what may go wrong, and what would help."""

import sys
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

import click

from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.following import check_drawing, tell
from sourloam.cli.show import reason_text
from sourloam.cli.show_ferment import ferment_text
from sourloam.service.batches import AskedBatch
from sourloam.service.ferment import forecast_batch
from sourloam.views.as_json import reason_object
from sourloam.views.ferment import FermentView
from sourloam.views.ferment_json import ferment_object

LEAST_MEMBERS, MOST_MEMBERS = 20, 5_000
MOST_DAYS = 200
CALLED: Final = MappingProxyType({"held_sour": "hold_day", "held": "hold_day", "sour": "soured_day"})  # in the table


@click.command("ferment", cls=options.Amounts)
@click.argument("batch", nargs=-1, metavar='BATCH | "AMOUNT MATERIAL"...')
@click.option("--at", metavar="TEMPERATURE", help='Follow amounts, laid in at once, at so much, such as "16 C".')
@click.option("--site", type=click.Path(path_type=Path), metavar="SITE", help="BATCH is VESSEL/N of this site's plan.")
@click.option("--vessel", metavar="VOLUME", help='With --at: of what size the vessel is, such as "20 L".')
@click.option("--drain/--no-drain", "has_drain", default=None, help="With --at: whether liquid can run off below.")
@click.option("--materials", "own", type=click.Path(path_type=Path), metavar="FILE", help="Materials of your own, CSV.")
@click.option("--units", type=click.Choice(("metric", "us")), help="In which units to speak.")
@click.option(
    "--days", type=click.IntRange(1, MOST_DAYS), metavar="COUNT", help="Days after the last layer, 42 if left out."
)
@click.option(
    "--members",
    type=click.IntRange(LEAST_MEMBERS, MOST_MEMBERS),
    default=1000,
    show_default=True,
    metavar="COUNT",
    help="In how many cases it is followed.",
)
@click.option("--plot", type=click.Path(path_type=Path), metavar="FILE.svg", help="Draw it: pH, acids, cut open.")
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: ready_day, leachate ...")
@options.book_beside
@options.as_json
def command(*, plot: Path | None, why: str | None, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Follow a batch: when it is sour, ready and due, and what may go wrong.

    BATCH is a batch file, such as examples/batch.toml; or VESSEL/N with --site;
    or amounts with --at, such as "2 kg vegetable peelings" --at "16 C".

    Exit code 0: it gets there in most cases. 1: it goes wrong in half of them or
    more, is not ready within the days, does not fit, or holds meat or fish without
    bran. 2: what was written cannot be used, every fault named.
    """
    sys.exit(guarded(lambda: _run(AskedBatch(**asked), plot, why, as_json=as_json), as_json=as_json))


def _run(asked: AskedBatch, plot: Path | None, why: str | None, *, as_json: bool) -> Exit:
    if plot is not None:
        check_drawing(plot)
    view = forecast_batch(asked, compiler=compiled, says=tell, is_advised=why is None)
    if why is not None:
        reason = view.reasons[options.figure_named(CALLED.get(why.replace("-", "_").lower(), why), tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech))
        return Exit.DONE
    if plot is not None:
        _draw(view, plot)
    click.echo(options.json_text(ferment_object(view)) if as_json else ferment_text(view))
    if plot is not None:
        click.echo(f"Written: {plot}", err=as_json)
    return Exit.DONE if view.is_likely else Exit.NO


def _draw(view: FermentView, path: Path) -> None:
    from sourloam.draw.ferment_plot import ferment_sheet
    from sourloam.service.files import write_whole

    write_whole(path, ferment_sheet(view).encode(), otherwise="Name another file with --plot.")
