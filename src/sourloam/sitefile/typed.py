"""What a person types in answer to a question, or behind an option, as the raw value that a kind of field reads."""

import re
from typing import Final

from sourloam.base.fields import Fault, Kind
from sourloam.base.kinds import Amount, Choice, Choices, Flag, Whole
from sourloam.base.literals import shown

YES: Final = ("yes", "y", "true", "on")
NO: Final = ("no", "n", "false", "off")
NONE: Final = ("0", "no", "none", "nothing")
_PEOPLE: Final = re.compile(r"(-?\d+)\s*(people|persons?|of us|children|pupils)?", re.IGNORECASE)


def raw_of(kind: Kind, text: str) -> object:
    """Return the value that `kind` is to read; words that it cannot take are left for it to refuse.

    Raises
    ------
    Fault
        If the text is neither yes nor no where one of them is wanted.
    """
    words = text.strip()
    if isinstance(kind, Flag):
        return _flag(words)
    if isinstance(kind, Whole):
        number = _PEOPLE.fullmatch(words)
        return int(number[1]) if number else words
    if isinstance(kind, Choice):
        return _option(words, kind.options)
    if isinstance(kind, Choices):
        return _options(words, kind.options)
    if isinstance(kind, Amount) and words.lower() in NONE and kind.low.partition(" ")[0] == "0":
        return kind.low
    return words


def _flag(words: str) -> bool:
    if words.lower() in YES:
        return True
    if words.lower() in NO:
        return False
    raise Fault(f"{shown(words)} is neither yes nor no;", "write yes or no.")


def _options(words: str, options: tuple[str, ...]) -> list[str]:
    """Return several choices: numbers or names, parted by commas, or by spaces where none holds one."""
    if words.lower() in NONE:
        return []
    parts = words.split(",") if "," in words else re.split(r"\s+and\s+|\s+", words)
    return [_option(part, options) for part in parts if part.strip()]


def _option(words: str, options: tuple[str, ...]) -> str:
    """Return a choice: its number, its name, or the only name that begins so or that begins what was written."""
    name = re.sub(r"[\s_]+", "-", words.strip().lower())
    if name.isdecimal() and 1 <= int(name) <= len(options):
        return options[int(name) - 1]
    if name in options or not name:
        return name
    near = [each for each in options if each.startswith(name) or (len(each) >= 3 and name.startswith(each))]
    return near[0] if len(near) == 1 else words.strip()
