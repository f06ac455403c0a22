"""`sourloam charcoal`: charcoal beside a batch."""

import sys
from typing import Any

import click

from sourloam.cli.compiled import compiled
from sourloam.cli.exits import guarded
from sourloam.cli.place_options import asked_product, of_a_product
from sourloam.cli.show_place import answered
from sourloam.service.charcoal import AskedCharcoal, add_charcoal

KINDS = ("wood", "hot-wood", "manure", "barbecue", "ash")


@click.command("charcoal")
@click.option("--kind", type=click.Choice(KINDS), default="wood", show_default=True, help="Of what it is.")
@click.option("--pile", "is_for_pile", is_flag=True, help="It goes into a pile, with the batch.")
@of_a_product
def command(*, why: str | None, as_json: bool, **given: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Charcoal beside a batch: how much, what it takes up, what to mind.

    Exit code 0: how much. 1: not of that kind. 2: something that was written
    cannot be used, all of it named.
    """
    asked = asked_product(given)
    sys.exit(
        guarded(
            lambda: answered(add_charcoal(AskedCharcoal(asked, **given), compiled), why, as_json=as_json),
            as_json=as_json,
        )
    )
