"""What the lines of a site add up to, as texts beside them: read where it holds for the last line, written with it."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Final, NamedTuple

import sqlalchemy as sa

from sourloam.store.engine import Where, at, lock
from sourloam.store.tables import BOOK, ENTRY, HEAD, KEPT, KEPT_FORM, PART

FORM: Final = "kept form"
Part = tuple[str, str]  # kind and id
MANY: Final = 400  # parts that one statement names


class Head(NamedTuple):
    """What changes with nearly every line, and for which last line it holds."""

    sequence: int
    hash: str
    made_by: str
    text: str


class Change(NamedTuple):
    """What is written anew: the head, some parts or all of them, and which are gone."""

    made_by: str
    head: str
    parts: Mapping[Part, str]
    gone: tuple[Part, ...] = ()
    is_whole: bool = False


def last(connection: sa.Connection, site: str) -> tuple[int, str] | None:
    """Return number and hash of the last line of a site."""
    chosen = sa.select(ENTRY.c.sequence, ENTRY.c.hash).where(ENTRY.c.site == site)
    row = connection.execute(chosen.order_by(ENTRY.c.sequence.desc()).limit(1)).first()
    return None if row is None else (row[0], row[1])


def head(connection: sa.Connection, site: str, made_by: str) -> Head | None:
    """Return the head that holds for the last line of a site, or nothing."""
    if not is_there(connection):
        return None
    row = connection.execute(sa.select(*HEAD.c).where(HEAD.c.site == site)).first()
    if row is None:
        return None
    found = Head(*row[1:])
    holds = found.made_by == made_by and last(connection, site) == (found.sequence, found.hash)
    return found if holds else None


def holds(connection: sa.Connection, site: str, made_by: str, line: tuple[int, str]) -> bool:
    """Whether what is kept holds for a line."""
    if not is_there(connection):
        return False
    chosen = sa.select(HEAD.c.sequence, HEAD.c.hash, HEAD.c.made_by).where(HEAD.c.site == site)
    row = connection.execute(chosen).first()
    return row is not None and tuple(row) == (*line, made_by)


def parts(
    connection: sa.Connection, site: str, *, kinds: tuple[str, ...] = (), also: tuple[Part, ...] = ()
) -> Iterator[tuple[str, str, str]]:
    """Give kind, id and text of parts: all of some kinds and some by name; without either, all there are."""
    chosen = sa.select(PART.c.kind, PART.c.id, PART.c.text).where(PART.c.site == site)
    if kinds or also:
        named = [sa.and_(PART.c.kind == kind, PART.c.id == id_) for kind, id_ in also]
        chosen = chosen.where(sa.or_(PART.c.kind.in_(kinds), *named))
    for row in connection.execute(chosen):
        yield row[0], row[1], row[2]


@contextmanager
def looking(where: Where) -> Iterator[sa.Connection]:
    """Give a connection that sees one moment of the book."""
    with at(where) as engine:
        one = engine.execution_options(isolation_level="REPEATABLE READ") if engine.name == "postgresql" else engine
        with one.connect() as connection:
            yield connection


def write(connection: sa.Connection, site: str, line: tuple[int, str], change: Change) -> None:
    """Write what holds after a line, within the transaction that keeps it."""
    made(connection)
    held = {"sequence": line[0], "hash": line[1], "made_by": change.made_by, "text": change.head}
    if connection.execute(sa.update(HEAD).where(HEAD.c.site == site).values(**held)).rowcount == 0:
        connection.execute(sa.insert(HEAD).values(site=site, **held))
    names = [*change.parts, *change.gone]
    if change.is_whole:
        connection.execute(sa.delete(PART).where(PART.c.site == site))
    else:
        for start in range(0, len(names), MANY):
            _drop(connection, site, names[start : start + MANY])
    if change.parts:
        rows = [{"site": site, "kind": kind, "id": id_, "text": text} for (kind, id_), text in change.parts.items()]
        connection.execute(sa.insert(PART), rows)


def put(connection: sa.Connection, site: str, parts_: Mapping[Part, str]) -> None:
    """Put parts down while the head is still to come; without it they count for nothing."""
    made(connection)
    rows = [{"site": site, "kind": kind, "id": id_, "text": text} for (kind, id_), text in parts_.items()]
    if rows:
        connection.execute(sa.insert(PART), rows)


def forget(where: Where, site: str) -> None:
    """Drop what is kept of a site; it is made anew when it is next wanted."""
    with at(where) as engine, engine.execution_options(writes=True).begin() as connection:
        lock(connection, site)
        if is_there(connection):
            connection.execute(sa.delete(HEAD).where(HEAD.c.site == site))
            connection.execute(sa.delete(PART).where(PART.c.site == site))


def is_there(connection: sa.Connection) -> bool:
    """Whether the book holds kept tables of the form that is known here."""
    return connection.execute(sa.select(BOOK.c.value).where(BOOK.c.key == FORM)).scalar() == KEPT_FORM


def made(connection: sa.Connection) -> None:
    """Make the kept tables, or make them anew where another release made them."""
    if is_there(connection):
        return
    lock(connection, "book")
    if is_there(connection):  # somebody else was quicker
        return
    KEPT.drop_all(connection)
    KEPT.create_all(connection)
    connection.execute(sa.delete(BOOK).where(BOOK.c.key == FORM))
    connection.execute(sa.insert(BOOK).values(key=FORM, value=KEPT_FORM))


def _drop(connection: sa.Connection, site: str, names: list[Part]) -> None:
    if names:
        each = [sa.and_(PART.c.kind == kind, PART.c.id == id_) for kind, id_ in names]
        connection.execute(sa.delete(PART).where(PART.c.site == site, sa.or_(*each)))
