"""Finds a site file, reads it, and turns it into a site or into all of its faults at once."""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Assumption
from sourloam.site.site import Site
from sourloam.sitefile.validate import Known, validate

LARGEST_BYTES: Final = 1_000_000  # a site file is a page or two; more is a mistake, so it is not even read


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


def read_text(path: Path) -> str:
    """Return the text of a site file, or refuse what can be none.

    Raises
    ------
    BadInput
        If there is no such file, or it is a directory, empty, too large or not UTF-8.
    """
    if path.is_dir():
        raise _refused(path.name, "this is a folder;", "name the site file in it, for example yard.toml.")
    if not path.exists():
        near = sorted(each.name for each in path.parent.glob("*.toml"))[:3] if path.parent.is_dir() else []
        remedy = (
            f"In that folder: {', '.join(near)}."
            if near
            else "Check the name, or write one: see examples/quillet_yard.toml."
        )
        raise _refused(path.name, "there is no such file.", remedy)
    if path.stat().st_size > LARGEST_BYTES:
        size_mb = path.stat().st_size / 1e6
        raise _refused(path.name, f"it is {size_mb:.1f} MB large;", "a site file is a page or two, 1 MB at most.")
    try:
        text = path.read_text("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refused(path.name, f"byte {error.start + 1} is not UTF-8;", "save it as UTF-8 text.") from None
    except OSError as error:
        raise _refused(path.name, f"it cannot be opened ({error.strerror});", "check who may read it.") from None
    if not text.strip():
        raise _refused(
            path.name, "it is empty;", "begin with format = 1 and a [site] table; see examples/quillet_yard.toml."
        )
    return text


def parse_site(text: str, name: str, known: Known) -> SiteFile:
    """Turn the text of a site file into a site.

    Raises
    ------
    BadInput
        If it is no TOML, or holds faults.
    """
    site, assumptions = validate(_tables(text, name), text, name, known)
    return SiteFile(site, assumptions)


def _tables(text: str, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        words = str(error)
        line = int(words.rpartition("at line ")[2].partition(",")[0]) if "at line " in words else None
        what = words.partition(" (at")[0]
        remedy = 'Quantities stand in quotes, tables in brackets: volume = "18 L" under [[vessel]].'
        raise BadInput(name, (Problem("", f"this is not TOML: {what[:1].lower()}{what[1:]}.", remedy, line),)) from None


def _refused(name: str, found: str, remedy: str) -> BadInput:
    return BadInput(name, (Problem("", found, remedy),))
