"""On which line each key of a TOML text stands: no parser that keeps positions is small enough to take in.

It walks the text by statements, knows headers, repeated headers and keys, and
steps over values. It never decides what a value means or whether the text is
sound: `tomllib` does that, and has done so before this is called.
"""

import re
import tomllib
from collections import Counter
from typing import Final

from sourloam.base.fields import Path

DEEPEST: Final = 8  # parts of a key; nothing that is declared lies deeper
_PART: Final = r"""(?:[A-Za-z0-9_-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*')"""
_NAME: Final = rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*"
_PARTS: Final = re.compile(_PART)
_BETWEEN: Final = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_HEADER: Final = re.compile(rf"\[(?P<many>\[)?[ \t]*(?P<name>{_NAME})[^\n]*")
_KEY: Final = re.compile(rf"(?P<name>{_NAME})[ \t]*=")
_REST: Final = re.compile(r"[^\n]*")
_TOKEN: Final = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}'
    r"|'''.*?'{3,5}"
    r'|"(?:\\.|[^"\\\n])*"'
    r"|'[^'\n]*'"
    r"|#[^\n]*"
    r"|[^\"'#\[\]{}\n]+"
    r"|.",
    re.DOTALL,
)


def line_map(text: str) -> dict[Path, int]:
    """Return the line, counted from 1, of each table and key by its path; repeated tables count from 0."""
    found: dict[Path, int] = {}
    counts: Counter[Path] = Counter()
    table: Path = ()
    at, line = 0, 1
    while at < len(text):
        start = _end(_BETWEEN, text, at)
        line += text.count("\n", at, start)
        if header := _HEADER.match(text, start):
            table = _opened(_parts(header["name"]), counts, found, line=line, is_repeated=bool(header["many"]))
            at = header.end()
        elif key := _KEY.match(text, start):
            _note((*table, *_parts(key["name"])), found, line)
            at = _after_value(text, key.end())
        else:
            at = _end(_REST, text, start) + 1
        line += text.count("\n", start, at)
    return found


def _opened(
    parts: tuple[str, ...], counts: Counter[Path], found: dict[Path, int], *, line: int, is_repeated: bool
) -> Path:
    """Return the path of the table that a header opens, each repeated table before it by its latest number."""
    path: Path = ()
    for depth, part in enumerate(parts, start=1):
        path = (*path, part)
        found.setdefault(path, line)
        if is_repeated and depth == len(parts):
            counts[path] += 1
        if counts[path]:
            path = (*path, counts[path] - 1)
            found.setdefault(path, line)
    return path


def _note(path: Path, found: dict[Path, int], line: int) -> None:
    """Note a key, and with a dotted one the tables that it makes on its way."""
    for end in range(1, len(path) + 1):
        found.setdefault(path[:end], line)


def _parts(name: str) -> tuple[str, ...]:
    return tuple(_plain(part) for part in _PARTS.findall(name)[:DEEPEST])


def _plain(part: str) -> str:
    """Return a part of a key without its quotes."""
    if part.startswith("'"):
        return part[1:-1]
    if "\\" not in part:
        return part.strip('"')
    try:
        return str(tomllib.loads(f"key = {part}")["key"])
    except tomllib.TOMLDecodeError:
        return part


def _after_value(text: str, at: int) -> int:
    """Return where the value that begins at `at` has ended: at the end of a line outside all brackets."""
    depth = 0
    while at < len(text) and not (depth <= 0 and text[at] == "\n"):
        if text[at] in "[{":
            depth += 1
        elif text[at] in "]}":
            depth -= 1
        at = _end(_TOKEN, text, at)
    return at


def _end(pattern: re.Pattern[str], text: str, at: int) -> int:
    match = pattern.match(text, at)
    return match.end() if match else at + 1
