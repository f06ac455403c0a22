"""SQLite or PostgreSQL, from one address; a file whose form this release does not know is refused in words."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path
from typing import Any, Final
from urllib.parse import quote, urlsplit

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError

from sourloam.base.errors import Surroundings
from sourloam.store.tables import BOOK, FORM, METADATA

WAIT_S: Final = 20  # how long a writer waits for another
Engine = sa.Engine
Where = str | sa.Engine  # an address, or a book that is held open
SERVERS: Final = ("postgresql", "postgres", "postgresql+psycopg")


def is_server(address: str) -> bool:
    """Whether an address is that of a server, and not of a file."""
    return urlsplit(address).scheme in SERVERS


def file_of(address: str) -> Path | None:
    """Return the file of an address, or nothing for a server."""
    return None if is_server(address) else Path(address)


@contextmanager
def opened(address: str, *, is_held: bool = False) -> Iterator[sa.Engine]:
    """Open a logbook, made if there is none, of the form that this release writes; closed again at the end.

    One that is held open for many uses keeps its connections.

    Raises
    ------
    Surroundings
        If it cannot be opened, or a newer release wrote it.
    """
    with said(address):
        pool = sa.pool.QueuePool if is_held else sa.pool.NullPool
        engine = _server(address, pool) if is_server(address) else _file(Path(address), pool)
        try:
            _right_form(engine, address)
            yield engine
        finally:
            engine.dispose()


@contextmanager
def at(where: Where) -> Iterator[sa.Engine]:
    """Give the book of an address for as long as it is used, or one that is held open as it is."""
    if isinstance(where, str):
        with opened(where) as engine:
            yield engine
    else:
        with said(where_shown(where)):
            yield where


@contextmanager
def said(address: str) -> Iterator[None]:
    """Say in words what a database complains of."""
    try:
        yield
    except DBAPIError as error:
        raise _in_words(address, error) from error


def _file(path: Path, pool: type[sa.Pool]) -> sa.Engine:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Surroundings(f"{path.parent} cannot be made: {error.strerror}.", "Choose another with --book.") from error
    may_write = not path.exists() or os.access(path, os.W_OK)
    engine = sa.create_engine(
        f"sqlite:///{path}" if may_write else _to_read(path), connect_args={"timeout": WAIT_S}, poolclass=pool
    )
    sa.event.listen(engine, "connect", _as_needed if may_write else _as_it_is)
    sa.event.listen(engine, "begin", _take_turn)
    return engine


def _to_read(path: Path) -> str:
    """Return the address of a file that may only be read; where nobody is writing to it, it is taken as it lies."""
    is_still = not path.with_name(f"{path.name}-wal").exists()
    return f"sqlite:///file:{quote(str(path))}?mode=ro{'&immutable=1' if is_still else ''}&uri=true"


def _as_it_is(connection: Any, _record: object) -> None:  # noqa: ANN401 - whatever driver it is
    connection.isolation_level = None


def _as_needed(connection: Any, _record: object) -> None:  # noqa: ANN401 - whatever driver it is
    """Make writes durable before they are acknowledged, and let the writer decide when it begins."""
    connection.isolation_level = None
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")


def _take_turn(connection: sa.Connection) -> None:
    """Take the lock at once where something will be written, so that two writers never read the same end."""
    writes = connection.get_execution_options().get("writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _server(address: str, pool: type[sa.Pool]) -> sa.Engine:
    rest = address.partition("://")[2]
    try:
        return sa.create_engine(f"postgresql+psycopg://{rest}", poolclass=pool)
    except ImportError as missing:
        raise Surroundings(
            "The part that speaks to PostgreSQL is missing.", "pip install sourloam[postgres]"
        ) from missing


def form_of(engine: sa.Engine) -> int | None:
    """Return the number of the form of a logbook, or nothing for an empty one."""
    if not sa.inspect(engine).has_table("book"):
        return None
    with engine.connect() as connection:
        value = connection.execute(sa.select(BOOK.c.value).where(BOOK.c.key == "form")).scalar()
    return None if value is None else int(value)


def _right_form(engine: sa.Engine, address: str) -> None:
    form = form_of(engine)
    if form == FORM:
        return
    if form is not None and form > FORM:
        raise Surroundings(
            f"{shown(address)} was written by a newer release of Sourloam (form {form}, this one knows {FORM}).",
            "Nothing was changed. Use the newer release, or a copy from before it.",
        )
    if form is None:
        _made(engine)
        return
    import_module("sourloam.store.migrate").migrate(engine, address, form)  # its tools are large, and seldom needed


def _made(engine: sa.Engine) -> None:
    with engine.execution_options(writes=True).begin() as connection:
        lock(connection, "book")
        METADATA.create_all(connection)
        held = connection.execute(sa.select(BOOK.c.value).where(BOOK.c.key == "form")).scalar()
        if held is None:
            connection.execute(sa.insert(BOOK).values(key="form", value=str(FORM)))


def lock(connection: sa.Connection, site: str) -> None:
    """Hold every other writer of a site off until this transaction ends; a file is locked as a whole."""
    if connection.dialect.name == "postgresql":
        connection.execute(sa.select(sa.func.pg_advisory_xact_lock(sa.func.hashtext(f"sourloam/{site}"))))


def shown(address: str) -> str:
    """Return an address without a password."""
    if not is_server(address):
        return address
    parts = urlsplit(address)
    return f"{parts.scheme}://{parts.hostname or ''}{parts.path}"


def where_shown(where: Where) -> str:
    """Return where a book lies, without a password."""
    return where if isinstance(where, str) else where.url.render_as_string(hide_password=True)


def _in_words(address: str, error: DBAPIError) -> Surroundings:
    words = " ".join(str(error.orig).split())
    plain = words.casefold()
    where = shown(address)
    if "locked" in plain:
        return Surroundings(f"{where} is being written by something else.", "Nothing was kept; try again in a moment.")
    if "readonly" in plain or "read-only" in plain:
        return Surroundings(
            f"{where} may not be written.", "Nothing was kept; see who may write the file and its folder."
        )
    if "full" in plain:
        return Surroundings(f"There is no room left where {where} lies.", "Nothing was kept; make room and try again.")
    if "not a database" in plain or "malformed" in plain:
        return Surroundings(
            f"{where} is not a logbook, or is damaged.", "Name another with --book, or take a copy back."
        )
    return Surroundings(f"{where} cannot be used: {words}.", "Nothing was kept.")
