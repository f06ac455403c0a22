"""Values as they stand in a file: for writing one, and for a message that shows what was written."""

from collections.abc import Iterable, Mapping
from typing import Final

LONGEST_SHOWN: Final = 60


def quoted(text: str) -> str:
    """Return a basic string: what cannot be printed is written by its number."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    plain = "".join(each if each.isprintable() else f"\\U{ord(each):08x}" for each in escaped)
    return f'"{plain}"'


def listed(items: Iterable[str]) -> str:
    """Return a list of values that are written already."""
    return f"[{', '.join(items)}]"


def literal(raw: object) -> str:
    """Return a value as it stands in a file."""
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, str):
        return quoted(raw)
    if isinstance(raw, list | tuple):
        return listed(literal(each) for each in raw)
    if isinstance(raw, Mapping):
        rows = ", ".join(f"{name} = {literal(each)}" for name, each in raw.items())
        return f"{{ {rows} }}" if rows else "{}"
    return str(raw)


def shown(raw: object) -> str:
    """Return a value as it stands in a file, cut to what a message can hold."""
    text = literal(raw)
    return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 3]}..."
