"""What was seen in vessels of a site that were followed to their end, as a keeper writes it: counted on to the table.

"smell rancid in 3 of 4 putrid": of four vessels that turned out putrid, three had smelled rancid.
"""

import re
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from sourloam.base.fields import Asking, Fault
from sourloam.base.literals import listed, quoted, shown
from sourloam.science.readings.signs import Column

LIKE: Final = "smell rancid in 3 of 4 putrid"
MOST: Final = 60
LINE: Final = re.compile(
    r"(?P<kind>smell|growth|lid|leachate|texture|larvae)\s+(?P<words>.+?)\s+in\s+(?P<seen>\d{1,5})\s+of\s+(?P<of>\d{1,5})"
    r"\s+(?P<column>[a-z]+)",
    re.IGNORECASE,
)
COLUMNS: Final = MappingProxyType(
    {
        "sound": Column.SOUND,
        "sharp": Column.SHARP,
        "yeasty": Column.SHARP,
        "putrid": Column.ROTTEN,
        "rotten": Column.ROTTEN,
        "mouldy": Column.MOULDY,
        "stuck": Column.STILL,
        "drowned": Column.DROWNED,
    }
)


@dataclass(frozen=True)
class Tally:
    """A sign, by its kind and the words for it, seen in so many of so many vessels of one outcome."""

    kind: str
    words: str
    seen: int
    of: int
    column: Column
    typed: str = ""


@dataclass(frozen=True)
class Tallies:
    """The kind of value of such lines, as a list."""

    @property
    def wanted(self) -> str:
        """Say what is wanted."""
        return f"[{quoted(LIKE)}]"

    def read(self, raw: object, _asking: Asking) -> tuple[Tally, ...]:
        """Return the lines, read. Raises Fault where one of them cannot be."""
        if not isinstance(raw, list | tuple) or any(not isinstance(each, str) for each in raw):
            raise Fault(f"{shown(raw)} is not a list of texts;", f"write {self.wanted}.")
        if len(raw) > MOST:
            raise Fault(f"it holds {len(raw)} texts;", f"{MOST} will do.")
        return tuple(_tally(str(each)) for each in raw)

    def write(self, value: object) -> str:
        """Return them as they stand in the file."""
        return listed(quoted(each.typed) for each in value) if isinstance(value, tuple) else "[]"


def _tally(text: str) -> Tally:
    match = LINE.fullmatch(" ".join(text.split()))
    if match is None:
        raise Fault(f"{quoted(text)} cannot be read;", f'write it such as "{LIKE}".')
    column = COLUMNS.get(match["column"].casefold())
    if column is None:
        raise Fault(f'"{match["column"]}" is nothing that a vessel turns out;', f"take one of: {', '.join(COLUMNS)}.")
    seen, of = int(match["seen"]), int(match["of"])
    if seen > of or of == 0:
        raise Fault(f"{seen} of {of} cannot be;", f'write it such as "{LIKE}".')
    return Tally(match["kind"].casefold(), match["words"], seen, of, column, text)
