"""A table of past records, as somebody kept it: which column says what, and each row as it would be typed."""

import re
from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType
from typing import Final, NamedTuple

from sourloam.base.errors import BadInput, Problem

# What a column can be, and the words by which it is known.
FIELDS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "date": ("date", "day", "when", "on"),
        "words": ("words", "entry", "typed", "what happened", "log"),
        "vessel": ("vessel", "bucket", "drum", "bin", "tub"),
        "event": ("event", "action", "what was done", "act"),
        "material": ("material", "scraps", "what", "contents", "kind"),
        "amount": ("amount", "weight", "mass", "kg", "quantity"),
        "bran": ("bran", "starter", "dose"),
        "place": ("place", "went to", "to", "bed", "where"),
        "ph": ("ph",),
        "note": ("note", "notes", "remark", "remarks", "comment", "comments"),
        "by": ("by", "who", "name"),
    }
)
UNIT: Final = re.compile(r"[(\[](?P<unit>kg|g|l|ml|lb|oz)[)\]]|[ _](?P<tail>kg|g|l|ml|lb|oz)$", re.IGNORECASE)
BARE: Final = re.compile(r"\d+(?:[.,]\d+)?")
ISO: Final = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
DOTTED: Final = re.compile(r"(\d{1,2})\.(\d{1,2})\.(\d{4})")


class Column(NamedTuple):
    """A column of the table and what it is taken for."""

    name: str
    field: str  # "" where it is left out
    unit: str = ""  # of bare numbers in it


def mapping_of(header: Iterable[str], said: Mapping[str, str]) -> tuple[Column, ...]:
    """Return what each column is taken for: what was said of it, or what its name tells.

    Raises
    ------
    BadInput
        If a column that was named is not there, a field is none, or no column tells the day.
    """
    names = [each.strip() for each in header]
    there = f"they are: {', '.join(names)}."
    problems = [Problem(each, "is no column of the table;", there) for each in said if each not in names]
    problems += [
        Problem(each, f'"{field}" is nothing that a column can be;', f"one of: {', '.join(FIELDS)}, or nothing.")
        for each, field in said.items()
        if field and field not in FIELDS
    ]
    columns: list[Column] = []
    for name in names:
        field = said.get(name, _guessed(name) if name not in said else "")
        if field and name not in said and field in [each.field for each in columns] + list(said.values()):
            field = ""
        columns.append(Column(name, field, _unit(name, field)))
    have = {each.field for each in columns}
    if "date" not in have:
        problems.append(Problem("", "no column tells the day;", "say which: --map COLUMN=date."))
    if not have & {"words", "vessel", "note"}:
        problems.append(Problem("", "no column tells what happened;", "say which: --map COLUMN=words, or vessel."))
    if problems:
        raise BadInput("--map", tuple(problems))
    return tuple(columns)


def day_of(text: str) -> date:
    """Return the day that a cell tells.

    Raises
    ------
    ValueError
        If it is none, or could be two.
    """
    told = text.strip()
    if match := ISO.match(told):
        return date(*map(int, match.groups()))
    if match := DOTTED.fullmatch(told):
        day, month, year = map(int, match.groups())
        return date(year, month, day)
    raise ValueError(f'"{told[:40]}" is no day that is surely one; write it as 2027-03-01.')


def phrase_of(row: Mapping[str, str], columns: Iterable[Column]) -> str:
    """Return a row as a keeper would type it."""
    cells = {each.field: _with_unit(row.get(each.name) or "", each.unit) for each in columns if each.field}
    if cells.get("words"):
        return cells["words"]
    vessel = cells.get("vessel", "")
    if not vessel:
        return f"note {cells['note']}" if cells.get("note") else ""
    told = [vessel]
    if cells.get("event"):
        told.append(cells["event"])
    amount = " ".join(filter(None, (cells.get("amount", ""), cells.get("material", ""))))
    if amount:
        told.append(amount)
    if cells.get("ph"):
        told.append(f"ph {cells['ph']}")
    if cells.get("place"):
        told.append(f"to {cells['place']}")
    whole = " ".join(told)
    bran = cells.get("bran", "")
    return f"{whole}, {bran if 'bran' in bran or 'hand' in bran else f'{bran} bran'}" if bran else whole


def _guessed(name: str) -> str:
    plain = UNIT.sub("", name).strip().casefold().replace("_", " ")
    return next((field for field, words in FIELDS.items() if plain in words), "")


def _unit(name: str, field: str) -> str:
    match = UNIT.search(name)
    if match:
        return str(match["unit"] or match["tail"])
    return "kg" if field in ("amount", "bran") and name.casefold() == "kg" else ""


def _with_unit(cell: str, unit: str) -> str:
    told = " ".join(cell.split())
    return f"{told} {unit}" if unit and BARE.fullmatch(told) else told
