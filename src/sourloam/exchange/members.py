"""The members of an archive that somebody hands over: checked by name, number and size before any is read."""

import zipfile
from collections.abc import Sequence
from pathlib import PurePosixPath
from typing import Final

from sourloam.base.errors import BadInput, Problem

MOST_MEMBERS: Final = 1_000
LARGEST_BYTES: Final = 500_000_000  # of one member, unpacked
MOST_TIMES: Final = 400  # that a member may be larger than it is packed; text packs twenty times


def checked(archive: zipfile.ZipFile, name: str) -> Sequence[zipfile.ZipInfo]:
    """Return the members of an archive.

    Raises
    ------
    BadInput
        If one of them is not a plain file of a plain name, is too large, or there are too many.
    """
    members = archive.infolist()
    if len(members) > MOST_MEMBERS:
        raise BadInput(name, (Problem("", f"it holds {len(members)} files;", "name a copy that backup made."),))
    faults = [(repr(each.filename)[:80], _fault(each)) for each in members]
    problems = [Problem(where, fault, "Nothing was taken.") for where, fault in faults if fault]
    names = [each.filename for each in members]
    if len(set(names)) != len(names):
        problems.append(Problem("", "two of its files have one name;", "Nothing was taken."))
    if problems:
        raise BadInput(name, tuple(problems[:20]))
    return members


def _fault(member: zipfile.ZipInfo) -> str:
    path = PurePosixPath(member.filename)
    is_plain = len(path.parts) == 1 and path.name == member.filename and ".." not in path.parts
    if not is_plain or "\\" in member.filename or ":" in member.filename:
        return "it would lie outside its folder;"
    if member.is_dir() or (member.external_attr >> 16) & 0o170000 not in (0, 0o100000):
        return "it is no plain file;"
    if member.flag_bits & 1:
        return "it is locked with a password;"
    if member.file_size > LARGEST_BYTES or member.file_size > MOST_TIMES * max(member.compress_size, 1_000):
        return f"it is {member.file_size} bytes unpacked;"
    return ""
