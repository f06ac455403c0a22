"""From an older form of a logbook to this one, step by step; a copy is made before the first."""

from collections.abc import Callable, Mapping
from itertools import count
from pathlib import Path
from types import MappingProxyType
from typing import Final

import sqlalchemy as sa
from alembic.migration import MigrationContext
from alembic.operations import Operations

from sourloam.store.copy import copied
from sourloam.store.engine import file_of, form_of, lock
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
