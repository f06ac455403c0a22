"""Use cases: the lines of a logbook as a file, and such a file as a logbook; a copy of the whole."""

import csv
import json
from collections.abc import Iterator
from itertools import zip_longest
from pathlib import Path
from typing import Final, TextIO

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.logbook.entries import Corrected, SiteSet, Withdrawn
from sourloam.logbook.entry import Entry, check, entry_of
from sourloam.logbook.fold import EMPTY, counted
from sourloam.logbook.kept import BATCH, batch_plain, whole
from sourloam.logbook.state import State
from sourloam.service.book import Book, Known, default_address
from sourloam.service.bulk import Ended
from sourloam.service.so_far import as_text
from sourloam.service.tables import lines_of_table
from sourloam.sitefile.read import parse_site
from sourloam.store import kept, log

LARGEST_BYTES: Final = 500_000_000
LONGEST_LINE: Final = 4_000_000  # characters; the text of the largest site is a quarter of that
AT_ONCE: Final = 200  # batches that are put down at once
CSV: Final = ".csv"


def export_lines(book: Book) -> tuple[str, ...]:
    """Return the lines of a site as they were first stored."""
    return tuple(each.text for each in log.lines(book.where, book.site))


def import_lines(path: Path, address: str | None) -> tuple[Book, int]:
    """Take the lines of an export into a book that does not hold that site: the same text, the same chain.

    Each line is read, and held to what is so then, as it is written; they are never all held at once. Returns the
    book and how many lines are new.

    Raises
    ------
    BadInput
        If a line is no entry, or the site is in the book already with other lines; then nothing is kept.
    """
    known = Known()
    _, text = next(_texts(path), ("", ""))
    first = _entry(text, path.name, 1).value if text else None
    if not isinstance(first, SiteSet):
        raise BadInput(path.name, (Problem("", "its first line sets no site;", "export the whole logbook."),))
    book = Book(address or default_address(), parse_site(first.text, path.name, known.names).site.facts.id)

    def made(turn: log.Turn) -> Iterator[tuple[str, str]]:
        if turn.last is not None:
            _same(turn, path, book)
            return
        folding = Folding(known, turn)
        for number, (hash_, each) in enumerate(_texts(path), start=1):
            entry = _entry(each, path.name, number)
            folding.add(entry)
            turn.expect(number, hash_)
            yield entry.id, each
        turn.change = folding.change()

    known.seen.pop((book.address, book.site), None)
    try:
        return book, log.append_stream(book.where, book.site, made)
    except log.Changed as changed:
        found = "it is not as it was exported;"
        raise BadInput(path.name, (Problem("", found, "export it again.", changed.sequence),)) from None


class Folding:
    """What entries add up to while they come in; where one changes what was, all is added up when it is next wanted.

    Batches that are over are put down as they come, so that they are not all held until the end.
    """

    def __init__(self, known: Known, turn: log.Turn) -> None:
        self._known, self._turn, self._ended = known, turn, Ended()
        self._state: State | None = EMPTY

    def add(self, entry: Entry) -> None:
        """Add one entry more."""
        state = self._state
        if state is None:
            return
        is_late = state.last is not None and entry.at < state.last.at
        if is_late or isinstance(entry.value, Withdrawn | Corrected):
            self._state = None
            return
        after = counted(state, entry, self._known.knows)
        self._state = after if after.situation is None else self._ended.without_ended(after)
        if len(self._ended.records) >= AT_ONCE:
            self._put_down()

    def change(self) -> kept.Change | None:
        """Return what is to be kept beside the lines, where it is known."""
        state = self._state
        if state is None or state.situation is None:
            return None
        self._put_down()
        return as_text(self._known, whole(state)._replace(is_whole=False))

    def _put_down(self) -> None:
        records = {(BATCH, id_): each for id_, each in self._ended.records.items()}
        parts = {part: json.dumps(batch_plain(each), ensure_ascii=False) for part, each in records.items()}
        kept.put(self._turn.connection, self._turn.site, parts)
        self._ended.records.clear()


def _same(turn: log.Turn, path: Path, book: Book) -> None:
    texts = (each for _, each in _texts(path))
    if all(line is not None and line.text == text for line, text in zip_longest(turn, texts)):
        return
    remedy = "take it into another book: --book FILE."
    raise BadInput(path.name, (Problem("", f'the book holds "{book.site}" already, with other lines;', remedy),))


def _texts(path: Path) -> Iterator[tuple[str, str]]:
    """Give the hash, where the file holds it, and the text of each line of an export: JSON lines, or a table."""
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise BadInput(path.name, (Problem("", "it is larger than any logbook;", "name the file of an export."),))
        with path.open(encoding="utf-8", newline="") as file:
            yield from _of_table(file, path.name) if path.suffix == CSV else _of_lines(file, path.name)
    except UnicodeDecodeError:
        raise BadInput(path.name, (Problem("", "it is not UTF-8 text;", "name the file of an export."),)) from None
    except csv.Error as bad:
        raise BadInput(path.name, (Problem("", f"it is no table ({bad});", "export it again."),)) from None
    except OSError as error:
        if isinstance(error, Surroundings):
            raise
        raise Surroundings(f"{path} cannot be read: {error.strerror}.", "Check the name.") from error


def _of_lines(file: TextIO, name: str) -> Iterator[tuple[str, str]]:
    while line := file.readline(LONGEST_LINE):
        if len(line) == LONGEST_LINE:
            raise BadInput(
                name, (Problem("", "a line of it is longer than any entry;", "name the file of an export."),)
            )
        if text := line.rstrip("\r\n"):
            yield "", text


def _of_table(file: TextIO, name: str) -> Iterator[tuple[str, str]]:
    reader = csv.DictReader(file, strict=True)
    return ((hash_, text) for hash_, text in lines_of_table(reader, name))


def _entry(text: str, name: str, number: int) -> Entry:
    """Return the entry of a line, held to its declared fields."""
    try:
        entry = entry_of(json.loads(text))
        if not isinstance(entry.value, Corrected):
            check(entry.value)
    except BadInput as bad:
        raise BadInput(
            name, tuple(Problem(each.where, each.found, each.remedy, number) for each in bad.problems)
        ) from None
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        raise BadInput(name, (Problem("", "this is no entry of a logbook;", "export it again.", number),)) from None
    if entry.sequence != number:
        raise BadInput(name, (Problem("", f"it is line {entry.sequence} of its logbook;", "export it whole.", number),))
    return entry
