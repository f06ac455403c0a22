"""Use case: a table of past records into the logbook, its mapping shown first; what cannot be is set aside.

Each row that is set aside has its reason beside it. Taken in again, nothing is kept twice: the id of an entry follows
from its row.
"""

import csv
import hashlib
import io
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.exchange.cells import back, safe
from sourloam.exchange.past_table import Column, day_of, mapping_of, phrase_of
from sourloam.logbook.entry import Entry
from sourloam.logbook.phrase import read_phrase
from sourloam.logbook.state import State
from sourloam.service.book import NOON, Book, Known, fixed, now_utc, zone_of
from sourloam.service.bulk import Make, Row, take_in
from sourloam.service.files import write_whole
from sourloam.service.record import words_of
from sourloam.service.so_far import state_of
from sourloam.service.tables import is_table
from sourloam.views.past import PastView

LARGEST_BYTES: Final = 100_000_000
REASON: Final = "why not"
SHOWN: Final = 3  # rows that are shown before any is kept
MOST_COLUMNS: Final = 100


def look(path: Path, said: Mapping[str, str]) -> PastView:
    """Return what each column is taken for, and how the first rows read; nothing is kept.

    Raises
    ------
    BadInput
        If the table cannot be read, or it is not told what a column is.
    """
    header, rows = read_table(path)
    columns = mapping_of(header, said)
    first = tuple((_cell(each, columns, "date"), phrase_of(each, columns)) for each in rows[:SHOWN])
    return PastView(path.name, columns, len(rows), first)


def keep_past(book: Book, path: Path, said: Mapping[str, str], *, who: str = "", is_all: bool = True) -> PastView:
    """Keep the rows of a table as entries; those that cannot be are written beside it, with the reason.

    With `is_all`, one such row keeps all out.

    Raises
    ------
    BadInput
        If the table cannot be read, or it is not told what a column is.
    Surroundings
        If what was set aside cannot be written.
    """
    seen = look(path, said)
    header, rows = read_table(path)
    columns = mapping_of(header, said)
    known = Known()
    site = state_of(book, known).must()[0]
    zone = zone_of(site)
    refused: list[tuple[int, str]] = []
    made: list[tuple[date, Row]] = []

    def maker(phrase: str, on: date, by: str) -> Make:
        def make(state: State) -> Entry:
            told = read_phrase(phrase, words_of(state, state.must()[0], known))
            at, mark = fixed(datetime.combine(on, NOON, zone)), "; ".join(told.taken)
            return Entry("", at, now_utc(), told.value, by, "table", phrase, site.facts.time_zone, mark)

        return make

    for number, (row, id_) in enumerate(zip(rows, _ids(rows, header), strict=True), start=2):
        try:
            on = day_of(_cell(row, columns, "date"))
        except ValueError as bad:
            refused.append((number, str(bad)))
            continue
        by = _cell(row, columns, "by") or who
        made.append((on, Row(number, id_, maker(phrase_of(row, columns), on, by))))
    ordered = [each for _, each in sorted(made, key=lambda one: (one[0], one[1].number))]

    def refuse(row: Row, why: str) -> None:
        refused.append((row.number, why))

    new, stood = take_in(book, known, ordered, refuse, keeps=lambda: not (is_all and refused))
    told = tuple(sorted(refused))
    aside = str(_aside(path, header, rows, told)) if told else ""
    return PastView(path.name, seen.columns, len(rows), seen.first, True, new, stood, told, aside)


def read_table(path: Path) -> tuple[list[str], list[dict[str, str]]]:
    """Return the header and the rows of a table.

    Raises
    ------
    BadInput
        If it is too large, no UTF-8 text, or no table.
    Surroundings
        If it cannot be read.
    """
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise BadInput(path.name, (Problem("", "it is larger than any such table;", "part it."),))
        text = path.read_text("utf-8-sig")
    except UnicodeDecodeError:
        raise BadInput(path.name, (Problem("", "it is not UTF-8 text;", "save it as CSV, UTF-8."),)) from None
    except OSError as error:
        raise Surroundings(f"{path} cannot be read: {error.strerror}.", "Check the name.") from error
    try:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
        header = [each.strip() for each in next(reader, [])]
        rows = [each for each in reader if any(cell.strip() for cell in each)]
    except csv.Error as bad:
        raise BadInput(path.name, (Problem("", f"it is no table ({bad});", "save it as CSV anew."),)) from None
    if not header or len(header) > MOST_COLUMNS or len(set(header)) != len(header) or is_table(header):
        remedy = "its first row names the columns, each once."
        raise BadInput(path.name, (Problem("", "it has no header that can be used;", remedy),))
    kept = [name for name in header if name != REASON]
    whole = [{name: back(cell) for name, cell in zip(header, row, strict=False)} for row in rows]
    return kept, [{name: row.get(name, "") for name in kept} for row in whole]


def _delimiter(text: str) -> str:
    head = text.partition("\n")[0]
    return max(",;\t", key=head.count)


def _cell(row: Mapping[str, str], columns: Sequence[Column], field: str) -> str:
    return next((row[each.name].strip() for each in columns if each.field == field), "")


def _ids(rows: Sequence[Mapping[str, str]], header: Sequence[str]) -> Iterator[str]:
    """Give an id for each row that follows from what it says; rows that say the same are told apart by their order."""
    count: Counter[str] = Counter()
    for row in rows:
        said = "\x1f".join(f"{name}={' '.join(row[name].split())}" for name in header)
        digest = hashlib.sha256(said.encode()).hexdigest()[:16]
        count[digest] += 1
        yield f"table-{digest}-{count[digest]}"


def _aside(
    path: Path, header: Sequence[str], rows: Sequence[Mapping[str, str]], refused: Sequence[tuple[int, str]]
) -> Path:
    """Write the rows that were refused beside the table, each with the reason, so that they can be mended."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([*header, REASON])
    for number, why in refused:
        row = rows[number - 2]
        writer.writerow([*(safe(row[name]) for name in header), safe(why)])
    to = path.with_name(f"{path.stem}.refused.csv")
    return write_whole(to, out.getvalue().encode(), otherwise="Copy the table to a folder of your own first.")
