"""`sourloam pile`: a batch, or garden matter alone, goes into a pile."""

import sys
from pathlib import Path
from typing import Any

import click

from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.place_options import asked_product, of_a_product
from sourloam.cli.show_place import answered
from sourloam.draw.pile_plot import pile_sheet
from sourloam.service.files import write_whole
from sourloam.service.pile import AskedPile, judge_pile

DAYS = click.IntRange(5, 365)


@click.command("pile")
@click.option("--at-hand", multiple=True, metavar='"AMOUNT MATERIAL"', help='What lies ready: "200 L dry leaves".')
@click.option("--as-is", "is_as_it_is", is_flag=True, help="All of that goes in, as it is written.")
@click.option("--no-product", "has_product", is_flag=True, default=True, flag_value=False, help="Without a batch.")
@click.option("--volume", metavar="VOLUME", help='The room that there is, such as "1 m3".')
@click.option("--insulated", "is_walled", is_flag=True, help="It has walls of foam or straw.")
@click.option("--days", type=DAYS, default=60, show_default=True, metavar="COUNT", help="How long to follow it.")
@click.option("--turn-every", type=click.IntRange(1, 30), metavar="DAYS", help="Turn it so often, for five weeks.")
@click.option("--first-turn", type=click.IntRange(1, 30), metavar="DAY", help="With that: on which day it begins.")
@click.option("--reading", "readings", multiple=True, metavar='"DAY ZONE WARMTH"', help='Read off: "3 core 57 C".')
@click.option("--turned", metavar="DAYS", help='On which days it was turned: "3, 6, 9".')
@click.option("--plot", type=click.Path(path_type=Path), metavar="FILE", help="Draw its warmth as an SVG file.")
@of_a_product
def command(*, why: str | None, as_json: bool, plot: Path | None, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Put a batch into a pile: what goes in beside it, how warm it gets, when to turn.

    For example: sourloam pile --product "10 kg" --at-hand "300 L dry leaves"
    --at-hand "50 L grass clippings".

    Exit code 0: it goes in. 1: not yet, or not. 2: something that was written
    cannot be used, all of it named.
    """
    asked = asked_product(given)
    sys.exit(guarded(lambda: _run(AskedPile(asked, **given), why, as_json=as_json, plot=plot), as_json=as_json))


def _run(asked: AskedPile, why: str | None, *, as_json: bool, plot: Path | None) -> Exit:
    piled = judge_pile(asked, compiled)
    if plot is not None:
        drawn = pile_sheet(piled.answer, piled.view, piled.readings)
        write_whole(plot, drawn.encode(), otherwise="Name a folder that can be written to.")
        click.echo(f"Written: {plot}", err=True)
    return answered(piled.view, why, as_json=as_json)
