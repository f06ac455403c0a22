"""A keeper's own materials as a table: the columns are the keys of [[material]] in a site file."""

import csv
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Reading, declared, read_record
from sourloam.site.own import OwnMaterial

FIRST_ROW: Final = 2  # the first line holds the names of the columns


def read_own(path: Path) -> tuple[OwnMaterial, ...]:
    """Return the materials of a CSV file; an empty cell is not known.

    Raises
    ------
    BadInput
        If the file or a row cannot be read; all faults are named with their line.
    """
    try:
        lines = path.read_text("utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError) as error:
        why = getattr(error, "strerror", None) or "it is not UTF-8 text"
        raise BadInput(path.name, (Problem("", f"it cannot be read ({why});", "check the name."),)) from None
    rows = csv.DictReader(lines, delimiter=";" if lines and ";" in lines[0] else ",")
    if "id" not in (rows.fieldnames or ()):
        names = ", ".join(key.name for _, key in declared(OwnMaterial))
        raise BadInput(path.name, (Problem("", "there is no column id;", f"the columns are {names}.", 1),))
    reading = Reading({("material", number): number + FIRST_ROW for number in range(len(lines))})
    found = []
    for number, row in enumerate(rows):
        held = {key: cell for key, cell in row.items() if key and cell}
        where = f'material "{held.get("id", "")[:40]}"'
        found.append(read_record(OwnMaterial, held, where=where, path=("material", number), reading=reading))
        if found[-1] is not None and sum(found[-1].stated.shares.values()) > 1.0:
            reading.fault(where, "what is stated comes to more than the whole;", "measure again.", ("material", number))
    if reading.problems:
        raise BadInput(path.name, tuple(reading.problems))
    return tuple(each for each in found if each is not None)
