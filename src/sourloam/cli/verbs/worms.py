"""`sourloam worms`: a batch is fed to compost worms."""

import sys
from pathlib import Path
from typing import Any

import click

from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.place_options import asked_product, of_a_product
from sourloam.cli.show_place import answered
from sourloam.draw.worms_plot import worms_sheet
from sourloam.service.files import write_whole
from sourloam.service.worms import AskedWorms, feed_worms


@click.command("worms")
@click.option("--worms", metavar="MASS", help='How much the worms weigh, such as "500 g".')
@click.option("--area", metavar="AREA", help='Surface of the bed, such as "50 cm x 50 cm".')
@click.option("--at", metavar="TEMPERATURE", help='How warm the bed is, such as "18 C".')
@click.option("--accustomed/--new", "is_accustomed", default=None, help="Whether they already live on such scraps.")
@click.option("--aired", "aired_d", type=click.FloatRange(0, 60), default=0.0, metavar="DAYS", help="Days in the air.")
@click.option("--conditioned", "is_conditioned", is_flag=True, help="A week 1:1 with paper and castings.")
@click.option(
    "--shell",
    type=click.Choice(("ground", "coarse", "lime", "none")),
    default="ground",
    show_default=True,
    help="What there is against the acid.",
)
@click.option("--ph", type=click.FloatRange(2, 11), metavar="PH", help="pH of the bed, if you read it.")
@click.option(
    "--uneaten", "is_eaten", is_flag=True, default=True, flag_value=False, help="The last feed lies there still."
)
@click.option("--plot", type=click.Path(path_type=Path), metavar="FILE", help="Draw the limits as an SVG file.")
@of_a_product
def command(*, why: str | None, as_json: bool, plot: Path | None, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Feed a batch to worms: how much now, with how much shell, when again.

    For example: sourloam worms --product "10 kg" --worms "500 g" --at "16 C".

    Exit code 0: they get some. 1: not yet, or no more. 2: something that was
    written cannot be used, all of it named.
    """
    asked = asked_product(given)
    sys.exit(guarded(lambda: _run(AskedWorms(asked, **given), why, as_json=as_json, plot=plot), as_json=as_json))


def _run(asked: AskedWorms, why: str | None, *, as_json: bool, plot: Path | None) -> Exit:
    view = feed_worms(asked, compiled)
    if plot is not None:
        write_whole(plot, worms_sheet(view).encode(), otherwise="Name a folder that can be written to.")
        click.echo(f"Written: {plot}", err=True)
    return answered(view, why, as_json=as_json)
