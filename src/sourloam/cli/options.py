"""Options that several verbs share."""

from datetime import date, datetime

import click


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


as_json = click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
today = click.option("--today", type=Day(), metavar="DATE", help="Plan from this day, instead of the site's first one.")
