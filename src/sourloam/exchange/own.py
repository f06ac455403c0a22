"""A keeper's own materials as a table: the columns are the keys of [[material]] in a site file."""

from pathlib import Path

from sourloam.base.errors import BadInput
from sourloam.base.fields import Reading, declared, read_record
from sourloam.exchange.rows import read_rows
from sourloam.site.own import OwnMaterial


def read_own(path: Path) -> tuple[OwnMaterial, ...]:
    """Return the materials of a CSV file; an empty cell is not known.

    Raises
    ------
    BadInput
        If the file or a row cannot be read; all faults are named with their line.
    """
    names = ", ".join(key.name for _, key in declared(OwnMaterial))
    reading, found = Reading(), []
    for line, row in read_rows(path, ("id",), says=f"the columns are {names}."):
        here = ("material", line)
        reading.lines = {here: line}
        where = f'material "{row["id"][:40]}"'
        held = {key: cell for key, cell in row.items() if cell}
        read = read_record(OwnMaterial, held, where=where, path=here, reading=reading)
        if read is not None and sum(read.stated.shares.values()) > 1.0:
            reading.fault(where, "what is stated comes to more than the whole;", "measure again.", here)
        found.append(read)
    if reading.problems:
        raise BadInput(path.name, tuple(reading.problems))
    return tuple(each for each in found if each is not None)
