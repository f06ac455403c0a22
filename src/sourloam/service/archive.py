"""Use cases: a copy of a whole logbook in one file, and a logbook from such a copy, on either database."""

import io
import json
import re
import zipfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.exchange.members import checked
from sourloam.logbook.entry import entry_of
from sourloam.service.book import default_address, now_utc, sites
from sourloam.store import log
from sourloam.store.chain import START, link

FORMAT: Final = 1
MANIFEST: Final = "manifest.json"
LARGEST_BYTES: Final = 500_000_000  # of the archive itself
LONGEST_LINE: Final = 4_000_000
SITE: Final = re.compile(r"[a-z][a-z0-9-]{0,39}")
EXPECTED: Final = "name a copy that backup made."


def backup(address: str | None, to: Path) -> dict[str, int]:
    """Write every line of every site into one archive, whole or not at all; return how many lines each site has.

    Raises
    ------
    BadInput
        If there is nothing to copy, or the file is there already.
    Surroundings
        If it cannot be written.
    """
    where = address or default_address()
    known = sites(where)
    if not known:
        raise BadInput("logbook", (Problem("", "it holds no site yet;", "there is nothing to copy."),))
    if to.exists():
        raise BadInput(str(to), (Problem("", "it is there already;", "name another file: a copy replaces none."),))
    part = to.with_name(f".{to.name}.part")
    try:
        with zipfile.ZipFile(part, "w", zipfile.ZIP_DEFLATED) as archive:
            told = {site: _write(archive, where, site) for site in known}
            archive.writestr(MANIFEST, json.dumps({"format": FORMAT, "made": now_utc().isoformat(), "sites": told}))
        _sound(part)
        part.replace(to)
    except OSError as error:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise Surroundings(f"{to} cannot be written: {error.strerror or error}.", "Nothing was changed.") from error
    return {site: each["lines"] for site, each in told.items()}


def restore(file: Path, address: str | None) -> dict[str, int]:
    """Take the sites of a copy into a book; one that stands there with the same lines stays as it is.

    Returns how many lines of each site are new.

    Raises
    ------
    BadInput
        If the file is no such copy, was changed, or a site stands in the book with other lines; then that site is
        left alone.
    Surroundings
        If it cannot be read.
    """
    where = address or default_address()
    try:
        if file.stat().st_size > LARGEST_BYTES:
            raise BadInput(file.name, (Problem("", "it is larger than any logbook;", EXPECTED),))
        with zipfile.ZipFile(file) as archive:
            checked(archive, file.name)
            told = _manifest(archive, file.name)
            for site, each in told.items():  # all are checked before one is taken
                _check(archive, file.name, site, each)
            return {site: _take(archive, file.name, where, site) for site in told}
    except (zipfile.BadZipFile, EOFError, NotImplementedError) as error:
        raise BadInput(file.name, (Problem("", f"it is no whole archive ({error});", EXPECTED),)) from None
    except OSError as error:
        if isinstance(error, Surroundings):
            raise
        raise Surroundings(f"{file} cannot be read: {error.strerror or error}.", "Check the name.") from error


def _write(archive: zipfile.ZipFile, where: str, site: str) -> dict[str, Any]:
    count, last = 0, START
    with archive.open(f"{site}.jsonl", "w", force_zip64=True) as member:
        for line in log.each_line(where, site):
            member.write(line.text.encode() + b"\n")
            count, last = count + 1, line.hash
    return {"lines": count, "hash": last}


def _sound(part: Path) -> None:
    """Read the copy back before it counts as one."""
    with zipfile.ZipFile(part) as archive:
        bad = archive.testzip()
    if bad is not None:
        raise Surroundings(f"The copy of {bad} is not sound.", "Nothing was kept; try again.")


def _manifest(archive: zipfile.ZipFile, name: str) -> dict[str, Any]:
    told: dict[str, Any] = {}
    try:
        held = json.loads(archive.read(MANIFEST))
        told = held["sites"]
        rows = (SITE.fullmatch(site) and {"lines", "hash"} <= each.keys() for site, each in told.items())
        is_ours = held["format"] == FORMAT and all(rows)
    except (KeyError, ValueError, TypeError, AttributeError, RecursionError):
        is_ours = False
    if not is_ours:
        raise BadInput(name, (Problem("", "it is no copy of a logbook;", EXPECTED),))
    return told


def _check(archive: zipfile.ZipFile, name: str, site: str, told: dict[str, Any]) -> None:
    """Hold the lines of a site to the chain that was noted when the copy was made."""
    count, last = 0, START
    for text in _texts(archive, name, site):
        try:
            entry_of(json.loads(text))
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            raise BadInput(name, (Problem(site, f"line {count + 1} is no entry;", "take another copy."),)) from None
        count, last = count + 1, link(last, site, text)
    if (count, last) != (told["lines"], told["hash"]):
        raise BadInput(name, (Problem(site, "its lines are not those that were copied;", "take another copy."),))


def _take(archive: zipfile.ZipFile, name: str, where: str, site: str) -> int:
    def made(turn: log.Turn) -> Iterator[tuple[str, str]]:
        texts = _texts(archive, name, site)
        if turn.last is not None:
            if tuple(texts) != tuple(each.text for each in turn):
                remedy = "take it into another book: --book FILE."
                raise BadInput(name, (Problem("", f'the book holds "{site}" already, with other lines;', remedy),))
            return
        for text in texts:
            yield json.loads(text)["id"], text

    return log.append_stream(where, site, made)


def _texts(archive: zipfile.ZipFile, name: str, site: str) -> Iterator[str]:
    try:
        member = archive.open(f"{site}.jsonl")
    except KeyError:
        raise BadInput(name, (Problem(site, "its lines are missing;", "take another copy."),)) from None
    with member, io.TextIOWrapper(member, "utf-8", newline="\n") as lines:
        try:
            while line := lines.readline(LONGEST_LINE):
                yield line.rstrip("\n")
        except UnicodeDecodeError:
            raise BadInput(name, (Problem(site, "its lines are not UTF-8 text;", "take another copy."),)) from None
