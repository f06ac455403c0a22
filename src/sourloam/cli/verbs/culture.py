"""`sourloam culture`: the inoculum chain, from rice water to dry bran, from any link to any other."""

import sys
from datetime import date
from pathlib import Path
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show import reason_text
from sourloam.cli.show_culture import culture_text
from sourloam.service.culture import work_culture
from sourloam.service.culture_reading import AskedCulture
from sourloam.views.as_json import reason_object
from sourloam.views.culture import CultureView
from sourloam.views.culture_json import culture_object

LEAST_MEMBERS, MOST_MEMBERS = 100, 20_000


@click.command("culture")
@click.option("--bran", metavar="AMOUNT", help='Finished, dry bran that you want, such as "8 kg".')
@click.option(
    "--carrier",
    "carriers",
    multiple=True,
    metavar='"AMOUNT NAME"',
    help="What carries it, and how much; repeat to blend.",
)
@click.option("--serum", metavar="AMOUNT", help='Serum that you have, such as "350 ml".')
@click.option("--heel", metavar="AMOUNT", help='Live bran that you have, made or bought, such as "200 g".')
@click.option("--sugar", metavar='"AMOUNT NAME"', help='Sugar that you have, such as "500 g molasses".')
@click.option("--milk", metavar='"AMOUNT NAME"', help='Milk that you have, such as "2 L UHT milk".')
@click.option("--rice-water", "rice", metavar="AMOUNT", help="Soured rice water that you have.")
@click.option("--site", type=click.Path(path_type=Path), metavar="SITE", help="Bran for what comes in at a site.")
@click.option("--scraps", metavar="AMOUNT", help='Bran for so many scraps, such as "6 kg/week" or "60 L/week".')
@click.option("--weeks", type=click.IntRange(1, 520), metavar="COUNT", help="For how many weeks; 12 if left out.")
@click.option("--by", type=options.Day(), metavar="DATE", help="The day on which the bran must be dry.")
@click.option("--today", type=options.Day(), metavar="DATE", help="Reckon from this day.")
@click.option("--at", metavar="TEMPERATURE", help='How warm the kitchen is, such as "17 C".')
@click.option("--air", metavar="HUMIDITY", help='How humid the room is in which it dries, such as "55 %".')
@click.option("--outdoors", metavar='"TEMPERATURE HUMIDITY"', help='Or the air outdoors, such as "5 C 80 %".')
@click.option("--layer", metavar="DEPTH", help='How deep it is spread to dry, such as "2 cm".')
@click.option("--vessel", metavar="HEIGHT", help='With --carrier newspaper: how high the vessel is, such as "36 cm".')
@click.option("--moisture", metavar="SHARE", help="Moisture that is aimed at, wet basis.")
@click.option("--carrier-moisture", metavar="SHARE", help="Moisture of the carrier as it is.")
@click.option("--recipe", metavar="SERUM:SUGAR:WATER", help='Your recipe by volume, such as "1:1:20".')
@click.option(
    "--start", metavar="START", help="Begin from: rice, rice-sugar, milk, serum, brine, heel, culture, bought."
)
@click.option("--without", multiple=True, metavar="THING", help="What there is none of: milk.")
@click.option("--no-bran", "has_bran", is_flag=True, default=True, flag_value=False, help="There is no bran today.")
@click.option("--poured", metavar="AMOUNT", help="Liquid that was poured on a carrier: how wet is it?")
@click.option("--squeeze", metavar="OUTCOME", help="What a squeezed handful did: drips, holds or crumbles.")
@click.option("--alive", metavar="MATTER", help='Is it alive: bran, "wet bran", serum, "sugared serum", culture.')
@click.option("--age", metavar="TIME", help='How old it is, such as "11 months".')
@click.option("--kept", metavar="PLACE", help='Where it stood: shed, fridge, kitchen ..., or "12 C".')
@click.option("--dried", metavar="SHARE", help='How dry that bran was made, such as "8 %".')
@click.option("--jar", metavar="OUTCOME", help="What its jar of milk did: curd, none or both.")
@click.option("--price", "prices", multiple=True, metavar='"THING PRICE"', help='Such as "bran 9 /kg"; repeat it.')
@click.option("--uses", metavar="MATTER", help="Other uses of bran or serum.")
@click.option("--dilute", metavar="MIXTURE", help='How you thin serum, such as "1:64" or "1 tsp per 4 L".')
@click.option("--ph", multiple=True, metavar="DAY:PH", help='Readings of a culture being woken, such as "6: 3.9".')
@click.option("--units", type=click.Choice(("metric", "us")), help="In which units to speak.")
@click.option(
    "--members",
    type=click.IntRange(LEAST_MEMBERS, MOST_MEMBERS),
    default=1000,
    show_default=True,
    metavar="COUNT",
    help="In how many cases it is tried.",
)
@click.option("--all", "is_full", is_flag=True, help="Show every number and every difference.")
@click.option("--out", type=click.Path(path_type=Path), metavar="FOLDER", help="Write culture.html, the bench sheet.")
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: serum, moisture, days ...")
@options.book_beside
@options.as_json
def command(
    *,
    why: str | None,
    is_full: bool,
    out: Path | None,
    today: date | None,
    as_json: bool,
    **asked: Any,  # noqa: ANN401 - click gives what it was declared
) -> None:
    """Make bran, and never be without a starter: every amount, every date, what is still alive.

    For example --bran "8 kg" --by 2027-03-01 --at "17 C"; or what you have:
    --milk "2 L" --carrier "10 kg wheat bran"; or --alive bran --age "11 months".

    Exit code 0: it can be done. 1: too late, too wet, too weak, not ready. 2: an
    amount or a name cannot be read, all of them named.
    """
    question = AskedCulture(**asked, today=today)
    sys.exit(guarded(lambda: _run(question, why, out, is_full=is_full, as_json=as_json), as_json=as_json))


def _run(asked: AskedCulture, why: str | None, out: Path | None, *, is_full: bool, as_json: bool) -> Exit:
    view = work_culture(asked, today=options.day(asked.today))
    if why is not None:
        reason = view.reasons[options.figure_named(why, tuple(view.reasons))]
        click.echo(options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.speech))
        return Exit.DONE
    click.echo(options.json_text(culture_object(view)) if as_json else culture_text(view, is_full=is_full))
    if out is not None:
        _write(view, out, as_json=as_json)
    return Exit.DONE if view.is_yes else Exit.NO


def _write(view: CultureView, folder: Path, *, as_json: bool) -> None:
    from sourloam.paper.culture_page import culture_page
    from sourloam.service.files import write_whole

    path = write_whole(
        folder / "culture.html", culture_page(view).encode(), otherwise="Name another folder with --out."
    )
    click.echo(f"Written: {path}", err=as_json)
