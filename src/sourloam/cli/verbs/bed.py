"""`sourloam bed`: what a bed does with a batch: how much, how deep, when it may be planted, what it feeds."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.place_options import asked_product, of_a_product
from sourloam.cli.show_place import answered
from sourloam.service.bed import AskedBed, judge_bed

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
@of_a_product
def command(*, why: str | None, is_full: bool, as_json: bool, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """What a bed does with a batch: how much, how deep, when to plant, what it feeds.

    BATCH is a batch file, or VESSEL/N with --site; else --product "10 kg" of a
    usual one. Of a site without --place the bed that should have it is chosen.

    Exit code 0: it goes in. 1: no, or not yet. 2: what was written cannot be
    used, every fault named.
    """
    asked = asked_product(given)
    sys.exit(guarded(lambda: _run(AskedBed(asked, **given), why, is_full=is_full, as_json=as_json), as_json=as_json))


def _run(asked: AskedBed, why: str | None, *, is_full: bool, as_json: bool) -> Exit:
    found = judge_bed(asked, compiled)
    return answered(found.view, why, as_json=as_json, is_full=is_full)
