"""The lines of a logbook: appended and read; there is no update and no delete."""

import json
from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from typing import Any, Final, NamedTuple, overload

import sqlalchemy as sa

from sourloam.store import kept
from sourloam.store.chain import START, Line, link
from sourloam.store.engine import Where, at, lock, said, where_shown
from sourloam.store.tables import BOOK, ENTRY

END: Final = "end of "  # with the id of a site: the number and hash of its last line, so that a cut end shows
CHUNK: Final = 1000  # lines that are written at once
COLUMNS: Final = (ENTRY.c.site, ENTRY.c.sequence, ENTRY.c.id, ENTRY.c.text, ENTRY.c.hash)


class Kept(NamedTuple):
    """What came of an attempt to keep entries: those lines of it that stand in the book, and whether they are new."""

    lines: tuple[Line, ...]
    is_new: bool


class Changed(Exception):
    """A line that comes in is not as it was where it comes from."""

    def __init__(self, sequence: int) -> None:
        super().__init__(sequence)
        self.sequence = sequence


class Turn(Sequence[Line]):
    """A writer's turn: every other writer of the site is held off, and the lines so far are read if they are wanted."""

    def __init__(self, connection: sa.Connection, site: str) -> None:
        self.connection, self.site = connection, site
        self.last = kept.last(connection, site)  # number and hash of the last line
        self.change: kept.Change | None = None  # what is to be kept beside the new lines
        self.expected: dict[int, str] = {}
        self._read: tuple[Line, ...] | None = None

    @property
    def lines(self) -> tuple[Line, ...]:
        """Return the lines so far."""
        if self._read is None:
            self._read = tuple(_lines(self.connection, self.site))
        return self._read

    def expect(self, sequence: int, hash_: str) -> None:
        """Expect a new line to have a hash, where one is told: it stood so in the book that it comes from."""
        if hash_:
            self.expected[sequence] = hash_

    @overload
    def __getitem__(self, at: int) -> Line: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Line]: ...
    def __getitem__(self, at: int | slice) -> Line | Sequence[Line]:
        return self.lines[at]

    def __len__(self) -> int:
        return 0 if self.last is None else len(self.lines)


Decide = Callable[[Turn], Sequence[tuple[str, str]]]  # the lines so far -> id and text of new ones


def sites(where: Where) -> tuple[str, ...]:
    """Return the sites of a book."""
    with at(where) as engine, engine.connect() as connection:
        return tuple(connection.execute(sa.select(ENTRY.c.site).distinct().order_by(ENTRY.c.site)).scalars())


def lines(where: Where, site: str) -> tuple[Line, ...]:
    """Return the lines of a site in their order."""
    with at(where) as engine, engine.connect() as connection:
        return tuple(_lines(connection, site))


def each_line(where: Where, site: str) -> Iterator[Line]:
    """Give the lines of a site in their order, without holding all of them at once."""
    with at(where) as engine, engine.connect() as connection:
        yield from _lines(connection.execution_options(yield_per=1000), site)


def lines_of(connection: sa.Connection, site: str) -> Iterator[Line]:
    """Give the lines of a site by a connection that is open."""
    return _lines(connection, site)


def end(where: Where, site: str) -> tuple[int, str] | None:
    """Return number and hash of the last line that was ever kept, as noted beside the lines."""
    with at(where) as engine, engine.connect() as connection:
        value = connection.execute(sa.select(BOOK.c.value).where(BOOK.c.key == f"{END}{site}")).scalar()
    if value is None:
        return None
    number, _, hash_ = value.partition(" ")
    return int(number), hash_


def append(where: Where, site: str, ids: Sequence[str], decide: Decide) -> Kept:
    """Append what `decide` makes of the lines so far, all or nothing, with every other writer held off.

    Where the first of `ids` stands in the book already, nothing is decided and those lines are returned.
    """
    with at(where) as engine, said(where_shown(where)):
        with engine.execution_options(writes=True).begin() as connection:
            lock(connection, site)
            again = tuple(_known(connection, site, ids))
            if again:
                return Kept(again, is_new=False)
            turn = Turn(connection, site)
            new = linked(site, turn.last, decide(turn))
            insert(connection, site, new)
            if turn.change is not None and new:
                kept.write(connection, site, (new[-1].sequence, new[-1].hash), turn.change)
        return Kept(new, is_new=True)


def append_stream(where: Where, site: str, made: Callable[[Turn], Iterator[tuple[str, str]]]) -> int:
    """Append what `made` gives, one after the other, all or nothing; no more than some lines are held at once.

    Returns how many lines are new.
    """
    with at(where) as engine, said(where_shown(where)):
        with engine.execution_options(writes=True).begin() as connection:
            lock(connection, site)
            turn = Turn(connection, site)
            last, count, rows = turn.last, 0, made(turn)
            while chunk := tuple(islice(rows, CHUNK)):
                new = linked(site, last, chunk)
                _as_expected(new, turn.expected)
                insert(connection, site, new)
                last, count = (new[-1].sequence, new[-1].hash), count + len(new)
            if turn.change is not None and last is not None and count:
                kept.write(connection, site, last, turn.change)
        return count


def _as_expected(new: Sequence[Line], expected: dict[int, str]) -> None:
    for line in new:
        if expected.pop(line.sequence, line.hash) != line.hash:
            raise Changed(line.sequence)


def has_ids(connection: sa.Connection, site: str, ids: Sequence[str]) -> frozenset[str]:
    """Return those of some ids that stand in the book already."""
    found: set[str] = set()
    for start in range(0, len(ids), CHUNK // 2):
        chosen = sa.select(ENTRY.c.id).where(ENTRY.c.site == site, ENTRY.c.id.in_(ids[start : start + CHUNK // 2]))
        found.update(connection.execute(chosen).scalars())
    return frozenset(found)


def keep(where: Where, site: str, line: tuple[int, str], change: kept.Change) -> None:
    """Write what holds after a line that is the last one still; somebody else's newer line is left to him."""
    with at(where) as engine, engine.execution_options(writes=True).begin() as connection:
        lock(connection, site)
        if kept.last(connection, site) == line:
            kept.write(connection, site, line, change)


def text_of(plain: dict[str, Any]) -> str:
    """Return the text that an entry is kept as."""
    return json.dumps(plain, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))


def linked(site: str, last: tuple[int, str] | None, asked: Sequence[tuple[str, str]]) -> tuple[Line, ...]:
    """Return new lines after the last one."""
    number, before = last or (0, START)
    new = []
    for count, (id_, text) in enumerate(asked, start=1):
        before = link(before, site, text)
        new.append(Line(site, number + count, id_, text, before))
    return tuple(new)


def insert(connection: sa.Connection, site: str, new: Sequence[Line]) -> None:
    """Insert lines, and note where the book now ends."""
    if not new:
        return
    connection.execute(sa.insert(ENTRY), [each._asdict() for each in new])
    key, value = f"{END}{site}", f"{new[-1].sequence} {new[-1].hash}"
    if connection.execute(sa.update(BOOK).where(BOOK.c.key == key).values(value=value)).rowcount == 0:
        connection.execute(sa.insert(BOOK).values(key=key, value=value))


def _known(connection: sa.Connection, site: str, ids: Sequence[str]) -> Iterator[Line]:
    if not ids or _first(connection, site, ids[0]) is None:
        return
    wanted = set(ids)
    rows = _lines(connection, site, ids[0] if len(ids) == 1 else None)
    yield from (each for each in rows if each.id in wanted)


def _first(connection: sa.Connection, site: str, id_: str) -> int | None:
    chosen = sa.select(ENTRY.c.sequence).where(ENTRY.c.site == site, ENTRY.c.id == id_)
    found: int | None = connection.execute(chosen).scalar()
    return found


def _lines(connection: sa.Connection, site: str, id_: str | None = None) -> Iterator[Line]:
    chosen = sa.select(*COLUMNS).where(ENTRY.c.site == site).order_by(ENTRY.c.sequence)
    rows = connection.execute(chosen if id_ is None else chosen.where(ENTRY.c.id == id_))
    return (Line(*each) for each in rows)
