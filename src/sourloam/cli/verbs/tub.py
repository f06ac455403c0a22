"""`sourloam tub`: a batch in a tub of soil: how much soil, how many days, how many tubs."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import guarded
from sourloam.cli.place_options import asked_product, in_full, of_a_product
from sourloam.cli.show_place import answered
from sourloam.service.tub import AskedTub, judge_tub

ROOMS = ("kitchen", "indoors", "cellar", "shed", "outdoors")


@click.command("tub")
@click.option("--volume", metavar="VOLUME", help='What the tub holds, such as "60 L".')
@click.option("--stands", type=click.Choice(ROOMS), help="Where it stands.")
@click.option("--temp", metavar="TEMPERATURE", help="How warm it is in there: a reading, or what you expect.")
@click.option("--every", metavar="TIME", help='How often a batch comes, such as "2 weeks".')
@click.option("--ratio", type=float, metavar="PARTS", help="Parts of soil to one, such as 2.")
@click.option("--cycles", type=int, default=1, show_default=True, metavar="COUNT", help="Batches in this same soil.")
@click.option("--filled", type=options.Day(), metavar="DATE", help="It lies in there since then: is it soil?")
@in_full
@of_a_product
def command(*, why: str | None, is_full: bool, as_json: bool, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Finish a batch in a tub of soil, where there is no garden or the ground is frozen.

    BATCH is a batch file, or VESSEL/N with --site; else --product "10 kg" of a
    usual one.

    Exit code 0: it goes in. 1: no, or not yet. 2: what was written cannot be
    used, every fault named.
    """
    asked = asked_product(given)
    sys.exit(
        guarded(
            lambda: answered(judge_tub(AskedTub(asked, **given), compiled), why, as_json=as_json, is_full=is_full),
            as_json=as_json,
        )
    )
