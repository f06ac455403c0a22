"""The lines of a logbook: appended and read; there is no update and no delete."""

import json
from collections.abc import Callable, Sequence
from typing import Any, Final, NamedTuple

import sqlalchemy as sa

from sourloam.store.chain import START, Line, link
from sourloam.store.engine import lock, opened, said
from sourloam.store.tables import BOOK, ENTRY

END: Final = "end of "  # with the id of a site: the number and hash of its last line, so that a cut end shows


class Kept(NamedTuple):
    """What came of an attempt to keep entries: those lines of it that stand in the book, and whether they are new."""

    lines: tuple[Line, ...]
    is_new: bool


Decide = Callable[[Sequence[Line]], Sequence[tuple[str, str]]]  # the lines so far -> id and text of new ones


def sites(address: str) -> tuple[str, ...]:
    """Return the sites of a book."""
    with opened(address) as engine, engine.connect() as connection:
        return tuple(connection.execute(sa.select(ENTRY.c.site).distinct().order_by(ENTRY.c.site)).scalars())


def lines(address: str, site: str) -> tuple[Line, ...]:
    """Return the lines of a site in their order."""
    with opened(address) as engine, engine.connect() as connection:
        return _lines(connection, site)


def end(address: str, site: str) -> tuple[int, str] | None:
    """Return number and hash of the last line that was ever kept, as noted beside the lines."""
    with opened(address) as engine, engine.connect() as connection:
        return _end(connection, site)


def append(address: str, site: str, ids: Sequence[str], decide: Decide) -> Kept:
    """Append what `decide` makes of the lines so far, all or nothing, with every other writer held off.

    Where the first of `ids` stands in the book already, nothing is decided and those lines are returned.
    """
    with opened(address) as engine, said(address):
        with engine.execution_options(writes=True).begin() as connection:
            lock(connection, site)
            known = _lines(connection, site)
            again = tuple(each for each in known if each.id in ids)
            if again:
                return Kept(again, is_new=False)
            new = _linked(site, known, decide(known))
            _insert(connection, site, new)
        return Kept(new, is_new=True)


def text_of(plain: dict[str, Any]) -> str:
    """Return the text that an entry is kept as."""
    return json.dumps(plain, ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":"))


def _linked(site: str, known: Sequence[Line], asked: Sequence[tuple[str, str]]) -> tuple[Line, ...]:
    number, before = (known[-1].sequence, known[-1].hash) if known else (0, START)
    new = []
    for count, (id_, text) in enumerate(asked, start=1):
        before = link(before, site, text)
        new.append(Line(site, number + count, id_, text, before))
    return tuple(new)


def _insert(connection: sa.Connection, site: str, new: Sequence[Line]) -> None:
    if not new:
        return
    connection.execute(sa.insert(ENTRY), [each._asdict() for each in new])
    key, value = f"{END}{site}", f"{new[-1].sequence} {new[-1].hash}"
    if connection.execute(sa.update(BOOK).where(BOOK.c.key == key).values(value=value)).rowcount == 0:
        connection.execute(sa.insert(BOOK).values(key=key, value=value))


def _lines(connection: sa.Connection, site: str) -> tuple[Line, ...]:
    columns = (ENTRY.c.site, ENTRY.c.sequence, ENTRY.c.id, ENTRY.c.text, ENTRY.c.hash)
    rows = connection.execute(sa.select(*columns).where(ENTRY.c.site == site).order_by(ENTRY.c.sequence))
    return tuple(Line(*each) for each in rows)


def _end(connection: sa.Connection, site: str) -> tuple[int, str] | None:
    value = connection.execute(sa.select(BOOK.c.value).where(BOOK.c.key == f"{END}{site}")).scalar()
    if value is None:
        return None
    number, _, hash_ = value.partition(" ")
    return int(number), hash_
