"""`sourloam mix AMOUNT ...`: judge a load before the lid goes on."""

import sys
from pathlib import Path
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show import reason_text
from sourloam.cli.show_mix import mix_text
from sourloam.service.mix import Asked, judge_mix
from sourloam.views.as_json import reason_object
from sourloam.views.mix_json import mix_object

LEAST_MEMBERS, MOST_MEMBERS = 100, 20_000


@click.command("mix", cls=options.Amounts)
@click.argument("amounts", nargs=-1, metavar='"AMOUNT MATERIAL"...')
@click.option("--csv", "table", type=click.Path(path_type=Path), metavar="FILE", help="Amounts: amount,material.")
@click.option("--materials", "own", type=click.Path(path_type=Path), metavar="FILE", help="Materials of your own, CSV.")
@click.option("--site", type=click.Path(path_type=Path), metavar="SITE", help="A week of what comes in at a site.")
@click.option("--stream", metavar="ID", help="Of that site only this stream.")
@click.option("--vessel", metavar="VOLUME", help='Of what size the vessel is, such as "20 L".')
@click.option("--drain/--no-drain", "has_drain", default=None, help="Whether liquid can run off below.")
@click.option("--at-hand", multiple=True, metavar="MATERIAL", help="Something dry that can soak up liquid; repeat it.")
@click.option(
    "--caddy-days", "caddy_d", type=click.FloatRange(0, 14), default=0.0, metavar="DAYS", help="How long it lay there."
)
@click.option("--over", metavar="TIME", help='In what time it comes in, such as "2 weeks".')
@click.option("--loads", type=click.IntRange(1, 1000), metavar="COUNT", help="In how many loadings, in that time.")
@click.option("--layer", metavar="DEPTH", help='How deep a layer is, such as "3 cm".')
@click.option("--bed", metavar="DEPTH", help="How deep the dry bed of a vessel without a drain is.")
@click.option("--smells", is_flag=True, help="It begins to smell bad.")
@click.option("--no-bran", "has_bran", is_flag=True, default=True, flag_value=False, help="There is no bran.")
@click.option("--dilute", metavar="1:PARTS", help="How you thin the liquid: 1 part to so many of water.")
@click.option("--strict", "is_strict", is_flag=True, help="Leave out what the stricter lists of councils bar.")
@click.option("--units", type=click.Choice(("metric", "us")), help="In which units to speak.")
@click.option(
    "--members",
    type=click.IntRange(LEAST_MEMBERS, MOST_MEMBERS),
    default=1000,
    show_default=True,
    metavar="COUNT",
    help="In how many cases it is tried.",
)
@click.option("--all", "is_full", is_flag=True, help="Show the numbers behind the numbers too.")
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: bran, critical_ph ...")
@options.book_beside
@options.as_json
def command(*, why: str | None, is_full: bool, as_json: bool, **asked: Any) -> None:  # noqa: ANN401 - click gives what it was declared
    """Judge a load before the lid goes on: will it sour, and what to add if not.

    For example "2 kg vegetable peelings" "1 cup cooked rice" "3 eggshells".

    Exit code 0: it goes in as it is. 1: something should be changed. 2: an
    amount or a name cannot be read, all of them named.
    """
    sys.exit(guarded(lambda: _run(Asked(**asked), why, is_full=is_full, as_json=as_json), as_json=as_json))


def _run(asked: Asked, why: str | None, *, is_full: bool, as_json: bool) -> Exit:
    view = judge_mix(asked)
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        told = options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech)
        click.echo(told)
        return Exit.DONE
    click.echo(options.json_text(mix_object(view)) if as_json else mix_text(view, is_full=is_full))
    return Exit.DONE if view.is_sound else Exit.NO
