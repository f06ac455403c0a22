"""`sourloam place BATCH --site SITE`: all fates of a batch side by side."""

import sys
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.place_options import asked_product, of_a_product
from sourloam.cli.show import reason_text
from sourloam.cli.show_fates import fates_text
from sourloam.service.bed import AskedBed
from sourloam.service.place import AskedPlace, sort_batch
from sourloam.service.tub import AskedTub
from sourloam.views.as_json import reason_object
from sourloam.views.fates import VALUES, FatesView, fates_object, figure_key
from sourloam.views.reason import Reason

SOILS = ("moist", "dry", "wet", "waterlogged", "frozen")


@click.command("place")
@click.option("--values", type=click.Choice(VALUES), default="soil", show_default=True, help="What you value most.")
@click.option("--soil", type=click.Choice(SOILS), help="How the ground is today.")
@click.option("--soil-temp", metavar="TEMPERATURE", help="A reading in the ground: it corrects the forecast.")
@click.option("--tub-temp", metavar="TEMPERATURE", help="A reading in the tub.")
@click.option("--ph", type=float, metavar="PH", help="A reading of the soil.")
@click.option("--seedlings", metavar="TEST", help='A seedling test of --place, "8/10".')
@of_a_product
def command(
    *,
    values: str,
    why: str | None,
    as_json: bool,
    tub_temp: str | None,
    **given: Any,  # noqa: ANN401 - click gives what it was declared
) -> None:
    """Sort a batch: what each place of a site can take today, and what comes of it.

    BATCH is a batch file, or VESSEL/N of the site's plan; else --product "10 kg"
    of a usual one. --why PLACE.FIGURE opens a figure of one place.

    Exit code 0: it has a place, or somebody is to be asked. 1: none today. 2:
    what was written cannot be used, every fault named.
    """
    product = asked_product(given)
    asked = AskedPlace(product, AskedBed(product, **given), AskedTub(product, temp=tub_temp), values)
    sys.exit(guarded(lambda: _run(asked, why, as_json=as_json), as_json=as_json))


def _opened(view: FatesView, why: str) -> Reason:
    """Return one figure opened: PLACE.FIGURE, or a figure of the best place that has any."""
    place, dot, _ = why.replace("-", "_").partition(".")
    first = next((each.place for each in view.fates if each.reasons), "")
    wanted = why if dot else figure_key(first, why)
    own = figure_key(place if dot else first, "")
    names = tuple(each for each in view.reasons if each.startswith(own)) or tuple(view.reasons)
    return view.reasons[options.figure_named(wanted, names)]


def _run(asked: AskedPlace, why: str | None, *, as_json: bool) -> Exit:
    view = sort_batch(asked, compiled)
    if why is not None:
        reason = _opened(view, why)
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech))
        return Exit.DONE
    click.echo(options.json_text(fates_object(view)) if as_json else fates_text(view))
    return Exit.DONE if view.has_place else Exit.NO
