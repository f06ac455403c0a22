"""A small table that a person wrote: rows by column, each with its line."""

import csv
from collections.abc import Iterator
from pathlib import Path

from sourloam.base.errors import BadInput, Problem


def read_rows(path: Path, wanted: tuple[str, ...], *, says: str) -> Iterator[tuple[int, dict[str, str]]]:
    """Give the rows of a CSV file with the columns that are `wanted`, parted by commas or semicolons, with their lines.

    An empty cell is an empty text. `says` is what to write on the first line where a column is missing.

    Raises
    ------
    BadInput
        If the file cannot be read, or lacks a column.
    """
    try:
        lines = path.read_text("utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError) as error:
        why = getattr(error, "strerror", None) or "it is not UTF-8 text"
        raise BadInput(path.name, (Problem("", f"it cannot be read ({why});", "check the name."),)) from None
    rows = csv.DictReader(lines, delimiter=";" if lines and ";" in lines[0] else ",")
    columns = [each.strip().casefold() for each in rows.fieldnames or ()]
    if missing := [each for each in wanted if each not in columns]:
        raise BadInput(path.name, (Problem("", f"there is no column {' and no column '.join(missing)};", says, 1),))
    rows.fieldnames = columns
    yield from ((rows.line_num, {key: cell or "" for key, cell in row.items() if key}) for row in rows)
