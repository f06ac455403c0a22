"""Lines that a terminal can show whole: what goes on in the next one hangs under its beginning."""

import textwrap
from collections.abc import Iterator, Sequence
from typing import Final

WIDTH: Final = 78  # columns


def listed(title: str, lines: Sequence[str]) -> Iterator[str]:
    """Give lines under a title, if there is one; nothing where there are none."""
    if not lines:
        return
    if title:
        yield title
    for each in lines:
        yield from wrapped("  - ", each)


def wrapped(first: str, text: str, *, hang: int | None = None) -> Iterator[str]:
    """Give a text in lines; those after the first hang under it, or `hang` columns beyond its indent."""
    rest = " " * (len(first) if hang is None else len(first) + hang)
    yield from textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=rest) or [first.rstrip()]
