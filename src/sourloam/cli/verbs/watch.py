"""`sourloam watch BATCH --reading ...`: what is going on in a vessel, what to do now, and when to worry."""

import sys
from pathlib import Path
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.following import check_drawing, tell
from sourloam.cli.show import reason_text
from sourloam.cli.show_watch import watch_text
from sourloam.service.batches import AskedBatch
from sourloam.service.watch import MEMBERS, AskedWatch, watched
from sourloam.views.as_json import reason_object
from sourloam.views.watch import WatchView
from sourloam.views.watch_json import watch_object

LEAST_MEMBERS, MOST_MEMBERS = 100, 5_000


@click.command("watch", cls=options.Amounts)
@click.argument("batch", nargs=-1, metavar='[BATCH | "AMOUNT MATERIAL"...]')
@click.option(
    "--reading",
    "readings",
    multiple=True,
    metavar="WORDS",
    help='What you saw, such as "day 9 strip 4.5 leachate" or "day 9 smell vinegar". As often as you like.',
)
@click.option("--day", type=click.IntRange(0, 730), metavar="COUNT", help="Days since the first layer, today.")
@click.option("--at", metavar="TEMPERATURE", help='How warm it stands, such as "16 C", where there is no batch file.')
@click.option(
    "--site",
    type=click.Path(path_type=Path),
    metavar="SITE",
    help="BATCH is VESSEL/N of this site's plan; its [past] counts.",
)
@click.option("--vessel", metavar="VOLUME", help='With amounts: of what size the vessel is, such as "20 L".')
@click.option("--drain/--no-drain", "has_drain", default=None, help="With amounts: whether liquid can run off below.")
@click.option("--materials", "own", type=click.Path(path_type=Path), metavar="FILE", help="Materials of your own, CSV.")
@click.option("--units", type=click.Choice(("metric", "us")), help="In which units to speak.")
@click.option(
    "--members",
    type=click.IntRange(LEAST_MEMBERS, MOST_MEMBERS),
    default=MEMBERS,
    show_default=True,
    metavar="COUNT",
    help="In how many cases it is followed.",
)
@click.option(
    "--plot", type=click.Path(path_type=Path), metavar="FILE.svg", help="Draw it: readings, chances, cut open."
)
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: chance_putrid, ready_day ...")
@options.book_beside
@options.as_json
def command(
    *,
    readings: tuple[str, ...],
    day: int | None,
    plot: Path | None,
    why: str | None,
    as_json: bool,
    **asked: Any,  # noqa: ANN401 - click gives what it was declared
) -> None:
    """Say what is going on in a vessel, by what you saw, smelled and measured.

    BATCH is as for ferment: a batch file, VESSEL/N with --site, or amounts with
    --at. Without any, a bucket of usual scraps is taken, and that is said.
    Readings: strip, fizz, temperature, smell, growth, lid, leachate, larvae,
    texture, weight, caddy, bran; each with its day, from the first layer ("day
    9") or from when it was shut ("a week after sealing").

    Exit code 0: most likely sound. 1: not, or not clear. 2: what was written
    cannot be used, every fault named.
    """
    sys.exit(
        guarded(
            lambda: _run(
                AskedWatch(AskedBatch(**asked), readings, day, is_advised=why is None), plot, why, as_json=as_json
            ),
            as_json=as_json,
        )
    )


def _run(asked: AskedWatch, plot: Path | None, why: str | None, *, as_json: bool) -> Exit:
    if plot is not None:
        check_drawing(plot)
    view = watched(asked, compiler=compiled, says=tell)
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.batch.speech))
        return Exit.DONE
    if plot is not None:
        _draw(view, plot)
    click.echo(options.json_text(watch_object(view)) if as_json else watch_text(view))
    if plot is not None:
        click.echo(f"Written: {plot}", err=as_json)
    return Exit.DONE if view.is_sound else Exit.NO


def _draw(view: WatchView, path: Path) -> None:
    from sourloam.draw.watch_plot import watch_sheet
    from sourloam.service.files import write_whole

    write_whole(path, watch_sheet(view).encode(), otherwise="Name another file with --plot.")
