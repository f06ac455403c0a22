"""Cells of a table that a spreadsheet opens: what it would take for a formula is written so that it stays text."""

from typing import Final

FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n")
MARK: Final = "'"


def safe(cell: str) -> str:
    """Return a cell that no spreadsheet works out: one that begins like a formula is marked as text."""
    return f"{MARK}{cell}" if cell.startswith((*FORMULA, MARK)) else cell


def back(cell: str) -> str:
    """Return what a cell said before it was marked."""
    return cell[1:] if cell.startswith(MARK) and cell[1:2] in (*FORMULA, MARK) else cell
