"""`sourloam bed`: what a bed does with a batch: how much, how deep, when it may be planted, what it feeds."""

import sys
from pathlib import Path
from typing import Any

import click

from sourloam.base.errors import BadInput, Problem
from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.place_options import asked_product, in_full, of_a_product
from sourloam.cli.show_place import answered
from sourloam.draw.bed_plot import bed_sheet
from sourloam.service.bed import AskedBed, bed_marks, judge_bed, season_of
from sourloam.service.files import write_whole

TEXTURES = ("sand", "sandy-loam", "loam", "clay", "peat")
SOILS = ("moist", "dry", "wet", "waterlogged", "frozen")


@click.command("bed")
@click.option("--area", metavar="AREA", help='How large the bed is, such as "4 m2".')
@click.option("--crop", metavar="CROP", help="What comes next, or grows there.")
@click.option("--texture", type=click.Choice(TEXTURES), help="What its soil is.")
@click.option("--soil", type=click.Choice(SOILS), help="How it is today.")
@click.option("--soil-temp", metavar="TEMPERATURE", help="A reading a hand deep: it corrects the forecast.")
@click.option("--ph", type=float, metavar="PH", help="A reading of its pH.")
@click.option("--fizz", is_flag=True, help="It fizzes with vinegar: it holds free lime.")
@click.option("--given", metavar="AMOUNT", help='Nitrogen that it got this year, such as "4 g/m2".')
@click.option("--depth", metavar="DEPTH", help="How deep you dig.")
@click.option("--cover", metavar="DEPTH", help="How much soil goes above it.")
@click.option("--dug", type=options.Day(), metavar="DATE", help="It lies in the ground since then: may I plant?")
@click.option("--seedlings", metavar="TEST", help='A seedling test: those up in it and in plain soil, "8/10".')
@click.option("--tree", metavar="DISTANCE", help="How far the stem of a tree is.")
@click.option("--well", metavar="DISTANCE", help="How far a well or spring is.")
@click.option("--stream", metavar="DISTANCE", help="How far a stream, ditch or pond is.")
@click.option("--slope", metavar="SHARE", help='How steep it is, such as "10 %".')
@click.option("--animals-dig/--no-animals-dig", default=None, help="Rats, dogs, foxes or badgers dig there.")
@click.option("--food/--no-food", "is_food", default=None, help="Whether food grows there.")
@click.option("--local-wait", metavar="TIME", help="The wait before a harvest that your local rule asks for.")
@click.option("--plot", type=click.Path(path_type=Path), metavar="FILE.svg", help="Draw the bed through the season.")
@in_full
@of_a_product
def command(*, plot: Path | None, why: str | None, is_full: bool, as_json: bool, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """What a bed does with a batch: how much, how deep, when to plant, what it feeds.

    BATCH is a batch file, or VESSEL/N with --site; else --product "10 kg" of a
    usual one. Of a site without --place the bed that should have it is chosen.

    Exit code 0: it goes in. 1: no, or not yet. 2: what was written cannot be
    used, every fault named.
    """
    asked = AskedBed(asked_product(given), **given)
    sys.exit(guarded(lambda: _run(asked, why, plot=plot, is_full=is_full, as_json=as_json), as_json=as_json))


def _run(asked: AskedBed, why: str | None, *, plot: Path | None, is_full: bool, as_json: bool) -> Exit:
    if plot is not None and plot.suffix.lower() != ".svg":
        raise BadInput("--plot", (Problem("", f'"{plot.name}" does not end in .svg;', "name an SVG file."),))
    found = judge_bed(asked, compiled)
    if plot is not None:
        drawn = bed_sheet(found.view, season_of(found), bed_marks(found))
        write_whole(plot, drawn.encode(), otherwise="Name another file with --plot.")
        click.echo(f"Written: {plot}", err=True)
    return answered(found.view, why, as_json=as_json, is_full=is_full)
