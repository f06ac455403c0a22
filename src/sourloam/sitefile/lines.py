"""On which line each key of a TOML text stands: no parser that keeps positions is small enough to take in.

It walks the text by lines, knows headers, repeated headers and keys, and steps
over values that go on for several lines. It never decides what a value means;
`tomllib` does that.
"""

import re
from collections import Counter
from typing import Final

from sourloam.base.fields import Path

_HEADER: Final = re.compile(r"^\s*\[(?P<many>\[)?\s*(?P<name>[^\[\]]+?)\s*\](?(many)\])\s*(#.*)?$")
_KEY: Final = re.compile(r"^\s*(?P<name>[A-Za-z0-9_\-\"'. ]+?)\s*=(?P<value>.*)$")
_STRINGS: Final = re.compile(
    r'"""(?:\\.|[^\\])*?(?:"""|\Z)|\'\'\'.*?(?:\'\'\'|\Z)|"(?:\\.|[^"\\\n])*"?|\'[^\'\n]*\'?|#[^\n]*', re.DOTALL
)


def line_map(text: str) -> dict[Path, int]:
    """Return the line, counted from 1, of each header and key by its path; repeated tables count from 0."""
    found: dict[Path, int] = {}
    counts: Counter[Path] = Counter()
    table: Path = ()
    skip_until = 0
    lines = text.splitlines()
    for number, line in enumerate(lines, start=1):
        if number <= skip_until:
            continue
        if header := _HEADER.match(line):
            table = _table_path(header["name"], counts, is_repeated=bool(header["many"]))
            found.setdefault(table, number)
        elif key := _KEY.match(line):
            found.setdefault((*table, *_parts(key["name"])), number)
            skip_until = number + _goes_on(key["value"], lines[number:])
    return found


def _table_path(name: str, counts: Counter[Path], *, is_repeated: bool) -> Path:
    """Return the path of a header, each repeated table before it by its latest number."""
    path: Path = ()
    parts = _parts(name)
    for depth, part in enumerate(parts):
        here = (*path, part)
        if is_repeated and depth == len(parts) - 1:
            counts[here] += 1
        path = (*here, counts[here] - 1) if counts[here] else here
    return path


def _parts(name: str) -> tuple[str, ...]:
    return tuple(part.strip().strip("\"'") for part in name.split("."))


def _goes_on(value: str, rest: list[str]) -> int:
    """Return how many further lines a value takes."""
    text = value
    for taken, line in enumerate(rest):
        if not _is_open(text):
            return taken
        text = f"{text}\n{line}"
    return len(rest)


def _is_open(text: str) -> bool:
    for quote in ('"""', "'''"):
        if text.lstrip().startswith(quote) and text.count(quote) < 2:
            return True
    bare = _STRINGS.sub("", text)
    return bare.count("[") + bare.count("{") > bare.count("]") + bare.count("}")
