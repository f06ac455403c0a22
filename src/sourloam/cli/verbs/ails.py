"""`sourloam ails PLACE SIGN`: something is wrong with a pile, a worm bin, a tub or plants."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_ails import ails_text
from sourloam.service.ails import AskedAils, what_ails
from sourloam.views.ails_json import ails_object

PLACES = click.Choice(("pile", "worms", "tub", "plants"))


@click.command("ails")
@click.argument("place", type=PLACES)
@click.argument("sign", required=False)
@click.option("--seen", "there", multiple=True, metavar="THING", help="What is seen besides: dry, wet, small ...")
@click.option("--not-seen", "absent", multiple=True, metavar="THING", help="What was looked for, and is not so.")
@click.option("--at-hand", multiple=True, metavar='"AMOUNT MATERIAL"', help="What a pile was made of.")
@click.option("--volume", metavar="VOLUME", help="How much of a pile there is, loose.")
@click.option("--area", metavar="AREA", help="Surface of a worm bed.")
@click.option("--units", type=click.Choice(("metric", "us")), default="metric", help="In which units to speak.")
@options.as_json
def command(*, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Find out what is wrong: a pile that is cold, has ammonia or a smell ...

    PLACE and SIGN: pile cold, pile ammonia, pile smell, worms sour, worms leaving,
    worms dying, tub slow, plants yellow, plants burnt.

    Exit code 0: what it probably is. 2: something that was written cannot be used.
    """
    sys.exit(guarded(lambda: _run(AskedAils(**asked), as_json=as_json), as_json=as_json))


def _run(asked: AskedAils, *, as_json: bool) -> Exit:
    view = what_ails(asked)
    click.echo(options.json_text(ails_object(view)) if as_json else ails_text(view))
    return Exit.DONE
