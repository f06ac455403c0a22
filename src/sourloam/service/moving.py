"""Use cases: the lines of a logbook as a file, and such a file as a logbook; a copy of the whole."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.logbook.entries import SiteSet
from sourloam.logbook.entry import Entry, entry_of
from sourloam.service.book import Book, Known, default_address
from sourloam.sitefile.read import parse_site
from sourloam.store import log

LARGEST_BYTES: Final = 500_000_000


def export_lines(book: Book) -> tuple[str, ...]:
    """Return the lines of a site as they were first stored."""
    return tuple(each.text for each in log.lines(book.where, book.site))


def import_lines(path: Path, address: str | None) -> tuple[Book, int]:
    """Take the lines of an export into a book that does not hold that site: the same text, the same chain.

    Returns the book and how many lines are new.

    Raises
    ------
    BadInput
        If a line is no entry, or the site is in the book already with other lines; then nothing is kept.
    """
    texts = _texts(path)
    read = _entries(texts, path.name)
    first = read[0].value
    if not isinstance(first, SiteSet):
        raise BadInput(path.name, (Problem("", "its first line sets no site;", "export the whole logbook."),))
    book = Book(address or default_address(), parse_site(first.text, path.name, Known().names).site.facts.id)
    wanted = [(each.id, text) for each, text in zip(read, texts, strict=True)]

    def decide(lines: log.Turn) -> list[tuple[str, str]]:
        if lines:
            remedy = "take it into another book: --book FILE."
            raise BadInput(
                path.name, (Problem("", f'the book holds "{book.site}" already, with other lines;', remedy),)
            )
        return wanted

    kept = log.append(book.where, book.site, [each for each, _ in wanted], decide)
    if not kept.is_new and [each.text for each in kept.lines] != texts:
        remedy = "take it into another book: --book FILE."
        raise BadInput(path.name, (Problem("", f'the book holds "{book.site}" already, with other lines;', remedy),))
    return book, len(texts) if kept.is_new else 0


def _texts(path: Path) -> list[str]:
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise BadInput(path.name, (Problem("", "it is larger than any logbook;", "name the file of an export."),))
        texts = [each for each in path.read_text("utf-8").split("\n") if each.strip()]
    except UnicodeDecodeError:
        raise BadInput(path.name, (Problem("", "it is not UTF-8 text;", "name the file of an export."),)) from None
    except OSError as error:
        raise Surroundings(f"{path} cannot be read: {error.strerror}.", "Check the name.") from error
    if not texts:
        raise BadInput(path.name, (Problem("", "it is empty;", "name the file of an export."),))
    return texts


def _entries(texts: Sequence[str], name: str) -> list[Entry]:
    """Return the entries of all lines, or say of each that cannot be read what is wrong with it."""
    found: list[Entry] = []
    problems: list[Problem] = []
    for number, text in enumerate(texts, start=1):
        try:
            entry = entry_of(json.loads(text))
        except BadInput as bad:
            problems.extend(Problem(each.where, each.found, each.remedy, number) for each in bad.problems)
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            problems.append(Problem("", "this is no entry of a logbook;", "export it again.", number))
        else:
            found.append(entry)
            if entry.sequence != number:
                problems.append(Problem("", f"it is line {entry.sequence} of its logbook;", "export it whole.", number))
    if problems:
        raise BadInput(name, tuple(problems[:20]))
    return found
