"""`sourloam hens COUNT`: what a flock would have room for, and what is left for the vessels."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import guarded
from sourloam.cli.show_place import answered
from sourloam.service.hens import AskedHens, share_with_hens


@click.command("hens")
@click.argument("count", type=int, metavar="COUNT")
@click.option("--ration", metavar="MASS", help='What one hen eats in a day, such as "130 g".')
@click.option("--share", metavar="SHARE", help='Which part of that may be scraps, such as "15 %".')
@click.option("--scraps", metavar="AMOUNT", help='What the kitchen gives, such as "4 kg/week".')
@click.option("--units", type=click.Choice(("metric", "us")), default="metric", help="In which units to speak.")
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources.")
@options.as_json
def command(*, why: str | None, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """How much of the scraps a flock would have room for; whom to ask first.

    Exit code 0: how much, and whom to ask. 2: something that was written
    cannot be used, all of it named.
    """
    sys.exit(guarded(lambda: answered(share_with_hens(AskedHens(**asked)), why, as_json=as_json), as_json=as_json))
