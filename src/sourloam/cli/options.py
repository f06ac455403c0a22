"""Options that several verbs share."""

import json
import os
import re
import sys
from datetime import UTC, date, datetime, time
from difflib import get_close_matches
from pathlib import Path
from typing import Final

import click

from sourloam.base.errors import BadInput, Problem, offer

BOOK: Final = "SOURLOAM_BOOK"  # the variable that names the book where no option does
BELOW_NOTHING: Final = re.compile(r"-[\d.,]")


class Day(click.ParamType[date]):
    """A civil date."""

    name = "date"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read it."""
        if isinstance(value, date) and not isinstance(value, datetime):
            return value
        try:
            return date.fromisoformat(str(value))
        except ValueError:
            self.fail(f'"{value}" is not a date; write one such as 2027-03-01.', param, ctx)


class Amounts(click.Command):
    """A command of amounts: one below nothing is read as an amount and refused as one, unless an option takes it."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the words of the command."""
        valued = {
            name for each in self.params if isinstance(each, click.Option) and not each.is_flag for name in each.opts
        }
        is_below = [
            bool(BELOW_NOTHING.match(each)) and before not in valued
            for before, each in zip(["", *args], args, strict=False)
        ]
        below = [each for each, is_it in zip(args, is_below, strict=True) if is_it]
        rest = [each for each, is_it in zip(args, is_below, strict=True) if not is_it]
        return super().parse_args(ctx, [*rest, "--", *below] if below else args)


as_json = click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
today = click.option("--today", type=Day(), metavar="DATE", help="Plan from this day, instead of the site's first one.")

book = click.option(
    "--book",
    metavar="FILE|URL",
    help="Which logbook: a file, or postgresql://...; your own folder for data if left out.",
)


def _names_book(_ctx: click.Context, _param: click.Parameter, value: str | None) -> None:
    """Name the book for this process as the environment would: whatever reads a SITE then finds it there."""
    if value is not None:
        os.environ[BOOK] = value


book_beside = click.option(
    "--book",
    metavar="FILE|URL",
    is_eager=True,
    expose_value=False,
    callback=_names_book,
    help="In which logbook a SITE or BATCH that is no file is looked for.",
)
of_site = click.option("--site", metavar="ID", help="Which site of the logbook, where it holds several.")
by = click.option("--by", "who", metavar="NAME", default="", help="Who writes it down.")
on_day = click.option("--on", type=Day(), metavar="DATE", help="The day on which it happened, if it was not today.")

out = click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="FOLDER",
    help="Write plan.html (a page), plan.ics (a calendar) and plan.json into this folder.",
)


def stamp(on: date | None) -> datetime:
    """Return the moment of working out: the clock's, or the first of a day that was given."""
    return datetime.now(UTC) if on is None else datetime.combine(on, time(), UTC)


def day(on: date | None) -> date:
    """Return the day that was given, or today by the machine's own calendar."""
    return on or datetime.now().astimezone().date()


def figure_named(wanted: str, names: tuple[str, ...]) -> str:
    """Return the figure whose name is `wanted`, or begins with it and is the only one."""
    if not names:
        raise BadInput("--why", (Problem("", "this answer has no figures;", "ask without --why what is in the way."),))
    asked = wanted.replace("-", "_").lower()
    matches = [each for each in names if each == asked] or [each for each in names if each.startswith(asked)]
    if len(matches) == 1:
        return matches[0]
    found = f'"{wanted}" could be {" or ".join(matches)}.' if matches else f'"{wanted}" is not a figure of this answer.'
    near = offer(tuple(get_close_matches(asked, names, n=2))).strip() or f"There are: {', '.join(names)}."
    raise BadInput("--why", (Problem("", found, "Write more of its name." if matches else near),))


def has_terminal() -> bool:
    """Whether somebody is there to be asked."""
    return sys.stdin.isatty()


def json_text(held: object) -> str:
    """Return one JSON object as text."""
    return json.dumps(held, ensure_ascii=False, allow_nan=False)
