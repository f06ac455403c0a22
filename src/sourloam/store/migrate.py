"""From an older form of a logbook to this one, step by step; a copy is made before the first."""

import sqlite3
from collections.abc import Callable, Mapping
from itertools import count
from pathlib import Path
from types import MappingProxyType
from typing import Final

import sqlalchemy as sa
from alembic.migration import MigrationContext
from alembic.operations import Operations

from sourloam.base.errors import Surroundings
from sourloam.store.engine import file_of, form_of, lock, shown
from sourloam.store.tables import BOOK, FORM

Steps = Mapping[int, Callable[[Operations], None]]
STEPS: Final[Steps] = MappingProxyType({})  # by the form that each leads to; there has been one form only so far


def migrate(engine: sa.Engine, address: str, form: int, *, to: int = FORM, steps: Steps = STEPS) -> None:
    """Bring a book of an older form to a newer one; each step and the note that it ran are kept together.

    Raises
    ------
    Surroundings
        If no copy can be made of it first; then nothing is changed.
    """
    path = file_of(address)
    if (form_of(engine) or 0) >= to:  # somebody else was quicker
        return
    if path is not None:
        copied(path, _free(path, form))
    for number in range(form + 1, to + 1):
        with engine.execution_options(writes=True).begin() as connection:
            lock(connection, "book")
            held = connection.execute(sa.select(BOOK.c.value).where(BOOK.c.key == "form")).scalar()
            if int(held or 0) >= number:  # somebody else was quicker
                continue
            steps[number](Operations(MigrationContext.configure(connection)))
            connection.execute(sa.update(BOOK).where(BOOK.c.key == "form").values(value=str(number)))


def _free(path: Path, form: int) -> Path:
    """Return a name for the copy that no earlier copy has."""
    names = (path.with_name(f"{path.name}.form-{form}{f'-{number}' if number else ''}") for number in count())
    return next(each for each in names if not each.exists())


def copied(path: Path, to: Path) -> Path:
    """Copy a book whole while others may write to it, and check the copy.

    Raises
    ------
    Surroundings
        If it cannot be written, or is not sound.
    """
    part = to.with_name(f".{to.name}.part")
    try:
        part.unlink(missing_ok=True)
        source, target = sqlite3.connect(path), sqlite3.connect(part)
        try:
            source.backup(target)
            sound = target.execute("PRAGMA integrity_check").fetchone()[0]
        finally:
            source.close()
            target.close()
        if sound != "ok":
            raise Surroundings(f"The copy of {shown(str(path))} is not sound: {sound}.", "Nothing was changed.")
        part.replace(to)
    except (OSError, sqlite3.Error) as error:
        if isinstance(error, Surroundings):
            raise
        raise Surroundings(f"No copy of {path} can be made: {error}.", "Nothing was changed; make room.") from error
    return to
