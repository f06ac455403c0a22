"""Finds a site file, reads it, and turns it into a site or into all of its faults at once."""

import re
import tomllib
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem, offer
from sourloam.base.fields import Assumption
from sourloam.site.site import Site
from sourloam.sitefile.validate import Known, validate

LARGEST_BYTES: Final = 1_000_000  # a site file is a page or two; more is a mistake, so it is not even read
_AT_LINE: Final = re.compile(r"\(at line (?P<line>[0-9]+), column [0-9]+\)$")


@dataclass(frozen=True)
class Sort:
    """A sort of file, for what is said of one that cannot be read."""

    called: str
    begins: str
    example: str


SITE: Final = Sort("site file", "begin with format = 1 and a [site] table", "examples/quillet_yard.toml")


@dataclass(frozen=True)
class SiteFile:
    """A site with what was assumed where its file said nothing."""

    site: Site
    assumptions: tuple[Assumption, ...]


def read_site(path: Path, known: Known) -> SiteFile:
    """Read the site file at `path`.

    Raises
    ------
    BadInput
        If the file cannot be read or holds faults; all of them are named.
    """
    return parse_site(read_text(path), path.name, known)


def read_text(path: Path, sort: Sort = SITE) -> str:
    """Return the text of a file that a person wrote, or refuse what can be none.

    Raises
    ------
    BadInput
        If there is no such file, or it is a directory, empty, too large or not UTF-8.
    """
    name = path.name or str(path)
    try:
        held = _bytes(path, name, sort)
    except BadInput:
        raise
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or str(error)
        raise _refused(name, f"it cannot be opened ({why});", "check the name, and who may read it.") from None
    try:
        text = held.decode("utf-8")
    except UnicodeDecodeError as error:
        raise _refused(name, f"byte {error.start + 1} is not UTF-8;", "save it as UTF-8 text.") from None
    text = text.removeprefix("\N{ZERO WIDTH NO-BREAK SPACE}").replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        raise _refused(name, "it is empty;", f"{sort.begins}; see {sort.example}.")
    return text


def _bytes(path: Path, name: str, sort: Sort) -> bytes:
    """Return what the file holds; more than such a file can hold is never read."""
    if path.is_dir():
        raise _refused(name, "this is a folder;", f"name the {sort.called} in it, for example yard.toml.")
    if not path.exists():
        raise _refused(name, "there is no such file.", _instead(path, sort))
    size = path.stat().st_size
    if size <= LARGEST_BYTES:
        with path.open("rb") as stream:
            held = stream.read(LARGEST_BYTES + 1)  # a pipe or a device does not say its size
        if len(held) <= LARGEST_BYTES:
            return held
    size_mb = max(size, LARGEST_BYTES + 1) / 1e6
    raise _refused(name, f"it is {size_mb:.1f} MB large;", f"a {sort.called} is a page or two, 1 MB at most.")


def _instead(path: Path, sort: Sort) -> str:
    """Offer the files that stand where one was looked for, those with a like name first."""
    here = sorted(each.name for each in path.parent.glob("*.toml")) if path.parent.is_dir() else []
    near = get_close_matches(path.stem, [Path(name).stem for name in here], n=3)
    if near:
        return offer(tuple(f"{each}.toml" for each in near)).strip()
    if here:
        return f"In that folder: {', '.join(here[:3])}."
    return f"Check the name, or write one: see {sort.example}."


def parse_site(text: str, name: str, known: Known) -> SiteFile:
    """Turn the text of a site file into a site.

    Raises
    ------
    BadInput
        If it is no TOML, or holds faults.
    """
    try:
        site, assumptions = validate(tables_of(text, name), text, name, known)
    except RecursionError:
        raise _refused(name, "its values lie too deep in one another;", "write them as the example does.") from None
    return SiteFile(site, assumptions)


def tables_of(text: str, name: str) -> dict[str, Any]:
    """Return the tables of a text, or say on which line it is no TOML.

    Raises
    ------
    BadInput
        If it is none.
    """
    try:
        return tomllib.loads(text)
    except ValueError as error:  # of which the error of tomllib is a kind; a number of 5000 digits is another
        words = str(error)
        at = _AT_LINE.search(words)
        what = words.partition(" (at")[0]
        remedy = 'Quantities stand in quotes, tables in brackets: volume = "18 L" under [[vessel]].'
        line = int(at["line"]) if at else None
        found = f"this is not TOML: {what[:1].lower()}{what[1:]}."
        raise BadInput(name, (Problem("", found, remedy, line),)) from None


def _refused(name: str, found: str, remedy: str) -> BadInput:
    return BadInput(name, (Problem("", found, remedy),))
