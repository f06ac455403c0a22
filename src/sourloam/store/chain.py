"""The chain over the lines of a book: each hash covers the one before it and the text as it was stored."""

import hashlib
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

START: Final = "0" * 64


class Line(NamedTuple):
    """One stored line."""

    site: str
    sequence: int
    id: str
    text: str
    hash: str


def link(before: str, site: str, text: str) -> str:
    """Return the hash of a line after another."""
    return hashlib.sha256(f"{before}\n{site}\n{text}".encode()).hexdigest()


def broken(lines: Iterable[Line]) -> Iterator[tuple[int, str]]:
    """Give the number of each line of one site that is not as it was stored, and what is wrong with it."""
    before, wanted = START, 1
    for line in lines:
        if line.sequence != wanted:
            missing = (
                f"line {wanted} is" if line.sequence == wanted + 1 else f"lines {wanted} to {line.sequence - 1} are"
            )
            yield wanted, f"{missing} missing"
        elif link(before, line.site, line.text) != line.hash:
            yield line.sequence, f"line {line.sequence} is not as it was first written"
        before, wanted = line.hash, line.sequence + 1
