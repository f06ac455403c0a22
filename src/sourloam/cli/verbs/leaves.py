"""`sourloam leaves AMOUNT`: leaf mould, and green matter saved up for a pile."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import guarded
from sourloam.cli.show_place import answered
from sourloam.service.leaves import AskedLeaves, keep_leaves


@click.command("leaves")
@click.argument("amount", metavar='"AMOUNT MATERIAL"')
@click.option("--shredded", "is_shredded", is_flag=True, help="They are shredded, and are shredded again.")
@click.option("--dry", "is_dry", is_flag=True, help="They lie dry.")
@click.option(
    "--months", type=click.FloatRange(1, 60), default=12.0, show_default=True, metavar="COUNT", help="To then."
)
@click.option("--each-week", "is_weekly", is_flag=True, help="So much comes in each week: save it up for a pile.")
@click.option("--vessel", default="60 L", show_default=True, metavar="VOLUME", help="In what it is kept, soured.")
@click.option("--units", type=click.Choice(("metric", "us")), default="metric", help="In which units to speak.")
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources.")
@options.as_json
def command(*, why: str | None, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Leaves that become leaf mould; or green matter that is saved up for a pile.

    For example: sourloam leaves "200 L oak leaves" --shredded, or
    sourloam leaves "60 L grass clippings" --each-week.

    Exit code 0: by spring, or how to save it. 1: not by spring. 2: something
    that was written cannot be used.
    """
    sys.exit(guarded(lambda: answered(keep_leaves(AskedLeaves(**asked)), why, as_json=as_json), as_json=as_json))
