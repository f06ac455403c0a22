"""Make the logbook of the demo site: its file, and six weeks of it as its keepers wrote them down.

Usage: .venv/bin/python tools/demo_book.py BOOK
"""

import sys
from datetime import UTC, date, datetime
from pathlib import Path

from sourloam.service.book import NOON, Book
from sourloam.service.record import By, import_site, log_phrase

EXAMPLES = Path(__file__).parents[1] / "examples"


def days() -> list[tuple[date, str]]:
    """Return the days and what was typed on them."""
    lines = (EXAMPLES / "quillet_yard_days.txt").read_text("utf-8").splitlines()
    split = (each.partition(" ") for each in lines if each.strip() and not each.startswith("#"))
    return [(date.fromisoformat(day), words) for day, _, words in split]


def make(book: str) -> date:
    """Write the book, and return its last day."""
    written = days()
    first = written[0][0]
    begun = By("North house", on=first, now=datetime.combine(first, NOON, UTC))
    import_site(EXAMPLES / "quillet_yard.toml", book, begun)
    for on, words in written:
        log_phrase(Book.of(book), words, By("North house", on=on, now=datetime.combine(on, NOON, UTC)))
    return written[-1][0]


if __name__ == "__main__":
    target = Path(sys.argv[1])
    if not target.exists():
        target.parent.mkdir(parents=True, exist_ok=True)
        make(str(target))
    print(days()[-1][0].isoformat())
