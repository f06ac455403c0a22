"""`sourloam leachate`: the liquid that is drawn off: how strong, what to thin it to, where it may go."""

import sys
from typing import Any

import click

from sourloam.cli.compiled import compiled
from sourloam.cli.exits import guarded
from sourloam.cli.place_options import asked_product, in_full, of_a_product
from sourloam.cli.show_place import answered
from sourloam.service.leachate import AskedLeachate, judge_leachate

FOR = ("seedlings", "pots", "bed", "fruiting", "trees", "fallow", "pile", "drain", "pond")


@click.command("leachate")
@click.option("--liquid", metavar="VOLUME", help='How much there is, such as "500 ml".')
@click.option("--for", "for_what", type=click.Choice(FOR), default="bed", show_default=True, help="Where it goes.")
@click.option("--crop", metavar="CROP", help="What grows there.")
@click.option("--area", metavar="AREA", help="How large the ground is.")
@click.option("--drawn", metavar="TIME", help='How long ago it was drawn off, such as "6 hours".')
@click.option("--day", metavar="TIME", help='How long after the first layer, such as "5 days".')
@click.option("--dilute", metavar="1:PARTS", help='How you mean to thin it, or "undiluted": is that enough?')
@click.option("--ec", type=float, metavar="DS_PER_M", help="Its conductivity, if you measured it.")
@click.option("--water-ec", type=float, metavar="DS_PER_M", help="That of your water.")
@click.option("--target-ec", type=float, metavar="DS_PER_M", help="That of the feed that you aim at.")
@click.option("--soil", type=click.Choice(("moist", "frozen", "waterlogged")), help="How the ground is today.")
@in_full
@of_a_product
def command(*, why: str | None, is_full: bool, as_json: bool, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Say how strong the liquid is, what to thin it to, and where it may go.

    It is never drunk. BATCH is a batch file, or VESSEL/N with --site; else
    --product "10 kg" of a usual one, or --liquid "500 ml".

    Exit code 0: it may go there, or somebody is to be asked. 1: no, or not yet.
    2: what was written cannot be used, every fault named.
    """
    asked = asked_product(given)
    sys.exit(
        guarded(
            lambda: answered(
                judge_leachate(AskedLeachate(asked, **given), compiled), why, as_json=as_json, is_full=is_full
            ),
            as_json=as_json,
        )
    )
