"""Packaged tables as rows of text."""

import csv
from importlib.resources import files


def rows_of(table: str) -> list[dict[str, str]]:
    """Return the rows of `data/TABLE.csv` by column."""
    text = (files("sourloam.evidence") / "data" / f"{table}.csv").read_text("utf-8")
    return list(csv.DictReader(text.splitlines()))


def words_in(cell: str) -> tuple[str, ...]:
    """Return the parts of a cell that holds several, parted by semicolons."""
    return tuple(each.strip() for each in cell.split(";") if each.strip())
