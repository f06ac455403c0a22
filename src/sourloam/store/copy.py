"""A whole copy of a logbook file, made while others may write to it."""

import sqlite3
from pathlib import Path

from sourloam.base.errors import Surroundings
from sourloam.store.engine import shown


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
