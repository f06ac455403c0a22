"""A field of the site is declared once, on its frozen dataclass, and read by one reader.

    volume_l: Annotated[float, amount("volume", "1 L", "250 L", default="20 L", help="...")]

The check, the commented example, the manual page, and later the option and the
form field are made from that one declaration. What a value may look like is
said by its `Kind` (`base/kinds.py`).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields
from difflib import get_close_matches
from typing import Any, Final, Protocol, TypeVar, get_type_hints

from sourloam.base.errors import Problem, offer

LONGEST_FOUND: Final = 300  # characters of a message; what was written may be much longer
REQUIRED: Final = "REQUIRED"  # a default that stands for "must be written"
Path = tuple[str | int, ...]


class Fault(Exception):
    """A value that cannot be used: what was found, and what to write instead."""

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found, remedy)
        self.found, self.remedy = found, remedy


@dataclass(frozen=True)
class Asking:
    """What a kind must know of the file beside the value."""

    handful_kg: float | None = None


class Kind(Protocol):
    """How a value is written, and how it is checked."""

    @property
    def wanted(self) -> str:
        """Say what is wanted, for the manual."""

    def read(self, raw: object, asking: Asking) -> object:
        """Return the value, or raise `Fault`."""

    def write(self, value: object) -> str:
        """Return the value as it stands in the file."""


@dataclass(frozen=True)
class Key:
    """One key of a table: its name, its kind, its default, and why it is asked."""

    name: str
    kind: Kind
    help: str
    default: object = REQUIRED
    assume: str = ""  # said in the plan where the default was taken, with {value}

    @property
    def is_required(self) -> bool:
        """Whether a file without it is faulty."""
        return self.default is REQUIRED


@dataclass(frozen=True)
class Table:
    """A repeated table inside a table; marks a field that holds a tuple of another declared dataclass."""

    name: str
    of: type
    help: str


@dataclass(frozen=True)
class Assumption:
    """A default that was taken, and what it is about."""

    subject: str
    says: str


@dataclass
class Reading:
    """What is gathered while a file is read: faults, defaults that were taken, and where lines are."""

    lines: Mapping[Path, int] = field(default_factory=dict)
    asking: Asking = Asking()
    problems: list[Problem] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)

    def fault(self, where: str, found: str, remedy: str, path: Path) -> None:
        """Note a fault at `path`."""
        line = next((self.lines[path[:end]] for end in range(len(path), 0, -1) if path[:end] in self.lines), None)
        told = found if len(found) <= LONGEST_FOUND else f"{found[: LONGEST_FOUND - 3]}..."
        self.problems.append(Problem(where, told, remedy, line, ".".join(str(part) for part in path)))


Record = TypeVar("Record")


def declared(kind: type) -> tuple[tuple[str, Key | Table], ...]:
    """Return the declared fields of a dataclass: attribute name and declaration, in order."""
    hints = get_type_hints(kind, include_extras=True)
    found: list[tuple[str, Key | Table]] = []
    for each in fields(kind):
        marks = [mark for mark in getattr(hints[each.name], "__metadata__", ()) if isinstance(mark, Key | Table)]
        found.extend((each.name, mark) for mark in marks)
    return tuple(found)


def read_record(
    kind: type[Record], raw: Mapping[str, Any], *, where: str, path: Path, reading: Reading
) -> Record | None:
    """Turn one table into a `kind`; on any fault note it and return nothing."""
    before = len(reading.problems)
    keys = declared(kind)
    _refuse_unknown(raw, tuple(each.name for _, each in keys), where=where, path=path, reading=reading)
    values = {
        attribute: _read_nested(mark, raw.get(mark.name, []), where=where, path=path, reading=reading)
        if isinstance(mark, Table)
        else _read_key(mark, raw, where=where, path=path, reading=reading)
        for attribute, mark in keys
    }
    if len(reading.problems) > before:
        return None
    return kind(**values)


def _read_key(key: Key, raw: Mapping[str, Any], *, where: str, path: Path, reading: Reading) -> object:
    here = (*path, key.name)
    if key.name not in raw:
        if key.is_required:
            reading.fault(where, f"{key.name} is missing;", f"write {key.name} = {key.kind.wanted}.", path)
            return None
        if key.assume:
            reading.assumptions.append(Assumption(where, key.assume))
        return None if key.default is None else key.kind.read(key.default, reading.asking)
    try:
        return key.kind.read(raw[key.name], reading.asking)
    except Fault as fault:
        reading.fault(where, f"{key.name} = {fault.found}", fault.remedy, here)
        return None


def _read_nested(table: Table, raw: object, *, where: str, path: Path, reading: Reading) -> tuple[object, ...]:
    if not isinstance(raw, list) or not all(isinstance(each, dict) for each in raw):
        header = ".".join(each for each in (*path, table.name) if isinstance(each, str))
        reading.fault(where, f"{table.name} is not a repeated table;", f"write [[{header}]].", (*path, table.name))
        return ()
    rows = [
        read_record(
            table.of, each, where=f"{where}, {table.name} {index + 1}", path=(*path, table.name, index), reading=reading
        )
        for index, each in enumerate(raw)
    ]
    return tuple(filter(None, rows))


def _refuse_unknown(
    raw: Mapping[str, Any], known: tuple[str, ...], *, where: str, path: Path, reading: Reading
) -> None:
    for name in raw:
        if name not in known:
            near = tuple(get_close_matches(name, known, n=2, cutoff=0.6))
            remedy = offer(near).strip() or f"Known here: {', '.join(known)}."
            reading.fault(where, f"{name} is not a key.", remedy, (*path, name))


def written_record(record: object) -> Iterator[tuple[Key | Table, str | tuple[object, ...]]]:
    """Give each declared field of a record with its value as it stands in a file; an absent one is left out."""
    for attribute, mark in declared(type(record)):
        value = getattr(record, attribute)
        if isinstance(mark, Table):
            yield mark, value
        elif value is not None:
            yield mark, mark.kind.write(value)
