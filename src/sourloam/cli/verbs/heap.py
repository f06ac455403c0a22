"""`sourloam heap AMOUNT ...`: garden matter or manure that is to sour under a sheet."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show import reason_text
from sourloam.cli.show_heap import heap_text
from sourloam.service.heap import AskedHeap, build_heap
from sourloam.views.as_json import reason_object
from sourloam.views.heap_json import heap_object


@click.command("heap", cls=options.Amounts)
@click.argument("amounts", nargs=-1, metavar='"AMOUNT MATERIAL"...')
@click.option("--units", type=click.Choice(("metric", "us")), default="metric", help="In which units to speak.")
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: culture, water ...")
@options.as_json
def command(*, why: str | None, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """What a heap takes that is to sour under a sheet, for what no bucket holds.

    For example "2 m3 grass clippings" "20 kg hay", or "3 m3 horse manure".

    Exit code 0: how to build it. 1: nothing of it goes into such a heap. 2: an
    amount or a name cannot be read, all of them named.
    """
    sys.exit(guarded(lambda: _run(AskedHeap(**asked), why, as_json=as_json), as_json=as_json))


def _run(asked: AskedHeap, why: str | None, *, as_json: bool) -> Exit:
    view = build_heap(asked)
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech))
        return Exit.DONE
    click.echo(options.json_text(heap_object(view)) if as_json else heap_text(view))
    return Exit.DONE if view.is_built else Exit.NO
