"""`sourloam plan SITE`: the year's plan."""

import sys
from datetime import date
from pathlib import Path

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.options import figure_named
from sourloam.cli.show import plan_text, reason_text
from sourloam.service.plan import plan_site
from sourloam.views.as_json import plan_object, reason_object


@click.command("plan")
@click.argument("site", type=click.Path(path_type=Path))
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: bran, leachate, stall ...")
@options.book_beside
@options.out
@options.today
@options.as_json
def command(site: Path, *, why: str | None, out: Path | None, today: date | None, as_json: bool) -> None:
    """Plan the year of a site: is it enough, what to do when, and why.

    SITE is a site file, or the id of a site in the logbook: then the plan begins with what is so now.

    Exit code 0: enough. 1: it stalls. 2: the site file has faults, all of them named.
    """
    sys.exit(guarded(lambda: _run(site, why, out, today, as_json=as_json), as_json=as_json))


def _run(site: Path, why: str | None, out: Path | None, today: date | None, *, as_json: bool) -> Exit:
    view = plan_site(site, today=today)
    if why is not None:
        reason = view.reasons[figure_named(why, tuple(view.reasons))]
        text = options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech)
        click.echo(text)
        return Exit.DONE
    written: tuple[Path, ...] = ()
    if out is not None:
        from sourloam.paper.keep import keep_plan

        written = keep_plan(view, out, stamp=options.stamp(today))
    click.echo(options.json_text(plan_object(view)) if as_json else plan_text(view))
    for path in written:
        click.echo(f"Written: {path}", err=as_json)
    return Exit.DONE if view.enough else Exit.NO
