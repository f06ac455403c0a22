"""What a table of past records would become, or became."""

from dataclasses import dataclass
from typing import Any, Final

PAST: Final = "sourloam.past/1"


@dataclass(frozen=True)
class PastView:
    """What a table would become, or became."""

    file: str
    columns: tuple[tuple[str, str, str], ...]  # name, what it is taken for, unit of bare numbers
    rows: int
    first: tuple[tuple[str, str], ...]  # day and words of the first rows, as they are read
    is_kept: bool = False
    new: int = 0
    known: int = 0  # stood in the book already
    refused: tuple[tuple[int, str], ...] = ()  # number of the row, and why
    aside: str = ""  # the file with the refused rows


def past_object(view: PastView) -> dict[str, Any]:
    """Return it as a plain object."""
    return {
        "schema": PAST,
        "file": view.file,
        "columns": [{"name": name, "field": field or None, "unit": unit or None} for name, field, unit in view.columns],
        "rows": view.rows,
        "first": [{"date": on, "words": words} for on, words in view.first],
        "kept": view.is_kept,
        "new": view.new,
        "known": view.known,
        "refused": [{"row": number, "why": why} for number, why in view.refused],
        "aside": view.aside or None,
    }
