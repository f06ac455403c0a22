"""Use case: the logbook as a table that a spreadsheet opens, with a description of its columns; and back again."""

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem
from sourloam.exchange.cells import back, safe
from sourloam.logbook.entries import KINDS
from sourloam.service.book import Book
from sourloam.service.files import write_whole
from sourloam.store import log
from sourloam.store.chain import Line

# Columns, with their types as the Table Schema of Frictionless Data names them.
COLUMNS: Final[Mapping[str, tuple[str, str]]] = {
    "sequence": ("integer", "The number of the line."),
    "id": ("string", "Its id, given by whoever wrote it."),
    "kind": ("string", "What kind of entry it is."),
    "version": ("integer", "The version of that kind."),
    "happened": ("datetime", "When it happened, by the clock of the site, with its offset from UTC."),
    "zone": ("string", "The time zone of the site."),
    "written": ("datetime", "When it was written down, UTC."),
    "by": ("string", "Who wrote it down."),
    "face": ("string", "Where: on the command line, in the web app, by a probe."),
    "typed": ("string", "What was typed."),
    "mark": ("string", "What is doubtful about it."),
    "value": ("object", "What it says, in kg, L, °C; as JSON."),
    "hash": ("string", "The chain over the lines: SHA-256 of the hash before, the site and the line as it is stored."),
}
LONGEST_HEADER: Final = 10_000
TEXTS: Final = ("id", "kind", "zone", "by", "face", "typed", "mark", "value")
NUMBERS: Final = ("sequence", "version")


def write_tables(book: Book, to: Path) -> tuple[Path, Path]:
    """Write the lines of a site as `to` (CSV) and beside it its description; return both files.

    A cell that begins like a formula is marked with an apostrophe, so that no spreadsheet works it out.

    Raises
    ------
    Surroundings
        If a file cannot be written.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for line in log.each_line(book.where, book.site):
        writer.writerow(_cells(line))
    otherwise = "Name another file with --to."
    table = write_whole(to, out.getvalue().encode(), otherwise=otherwise)
    held = json.dumps(description(book.site, to.name), ensure_ascii=False, indent=2)
    beside = to.with_name(f"{to.stem}.datapackage.json")
    return table, write_whole(beside, f"{held}\n".encode(), otherwise=otherwise)


def description(site: str, file: str) -> dict[str, Any]:
    """Return the description of a table: a data package with a Table Schema."""
    fields: list[dict[str, Any]] = [
        {"name": name, "type": type_, "description": says} for name, (type_, says) in COLUMNS.items()
    ]
    for each in fields:
        if each["name"] in ("sequence", "id", "kind", "happened", "value", "hash"):
            each["constraints"] = {"required": True}
        if each["name"] == "kind":
            each["constraints"] |= {"enum": list(KINDS)}
        if each["type"] == "datetime":
            each["format"] = "any"
    schema = {"fields": fields, "primaryKey": ["sequence"], "missingValues": [""]}
    dialect = {"delimiter": ",", "lineTerminator": "\r\n", "quoteChar": '"', "doubleQuote": True, "header": True}
    resource = {
        "name": f"{site}-logbook",
        "path": file,
        "profile": "tabular-data-resource",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": dialect,
        "schema": schema,
    }
    return {"name": f"{site}-logbook", "profile": "tabular-data-package", "resources": [resource]}


def is_table(header: Iterable[str]) -> bool:
    """Whether a table is one that was exported here."""
    return tuple(header) == tuple(COLUMNS)


def lines_of_table(rows: Iterable[Mapping[str, str]], name: str) -> Iterator[tuple[str, str]]:
    """Give hash and text of each row of an exported table: the text is as it was first stored.

    Raises
    ------
    BadInput
        If a row was changed.
    """
    for number, row in enumerate(rows, start=2):
        try:
            held: dict[str, Any] = {each: row[each] for each in COLUMNS if each != "hash"}
            held |= {each: back(row[each]) for each in TEXTS}
            held |= {each: int(row[each]) for each in NUMBERS}
            held["value"] = json.loads(held["value"])
            yield row["hash"], log.text_of(held)
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            raise BadInput(name, (Problem("", "this row is no entry;", "export it again.", number),)) from None


def _cells(line: Line) -> list[str]:
    held = json.loads(line.text)
    held["value"] = json.dumps(held["value"], ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    cells = {each: str(held[each]) for each in COLUMNS if each != "hash"} | {"hash": line.hash}
    return [safe(cells[each]) if each in TEXTS else cells[each] for each in COLUMNS]


def is_exported(path: Path) -> bool:
    """Whether a file is a table that was exported here."""
    try:
        with path.open(encoding="utf-8", newline="", errors="replace") as file:
            return is_table(next(csv.reader([file.readline(LONGEST_HEADER)]), []))
    except (OSError, csv.Error):
        return False
