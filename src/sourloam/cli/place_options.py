"""The options that the verbs of all places share: which product, where, when, and how to answer."""

from collections.abc import Callable
from datetime import date
from functools import reduce
from pathlib import Path
from typing import Any, Final

import click

from sourloam.cli import options
from sourloam.service.product import STATES, AskedProduct

LEAST_MEMBERS, MOST_MEMBERS = 100, 20_000
_SHARED: Final = (
    click.argument("batch", required=False, metavar="[BATCH]"),
    click.option("--product", metavar="AMOUNT", help='So much of a usual batch, such as "10 kg" or "12 L".'),
    click.option("--site", type=click.Path(path_type=Path), metavar="SITE", help="Site file; BATCH is VESSEL/N of it."),
    click.option("--place", metavar="ID", help="Which place of that site."),
    click.option("--on", type=options.Day(), metavar="DATE", help="When it goes out; the day it is due, or today."),
    click.option("--state", type=click.Choice(STATES), help="How it stands, if you know better."),
    click.option("--animal/--no-animal", default=None, help="Whether meat, fish, egg or dairy went in."),
    click.option("--anyway", "is_anyway", is_flag=True, help="Do it although it is not ready: what will happen."),
    click.option("--units", type=click.Choice(("metric", "us")), help="In which units to speak."),
    click.option(
        "--members",
        type=click.IntRange(LEAST_MEMBERS, MOST_MEMBERS),
        default=500,
        show_default=True,
        metavar="COUNT",
        help="In how many cases it is tried.",
    ),
    click.option("--why", metavar="FIGURE", help="Open one figure down to its sources."),
    options.book_beside,
    options.as_json,
)
in_full = click.option("--all", "is_full", is_flag=True, help="Show the numbers behind the numbers too.")
PRODUCT: Final = ("batch", "product", "site", "place", "on", "state", "animal", "is_anyway", "units", "members")


def of_a_product(command: Callable[..., None]) -> Callable[..., None]:
    """Give a verb the argument BATCH and the options that all places share."""
    return reduce(lambda held, each: each(held), reversed(_SHARED), command)


def asked_product(given: dict[str, Any], today: date | None = None) -> AskedProduct:
    """Take what all places share out of the words of a command; the rest stays in `given`."""
    return AskedProduct(today=options.day(today), **{name: given.pop(name) for name in PRODUCT})
