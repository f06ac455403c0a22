"""Reads an answer to a question of a trouble, as a tired person types it."""

from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Asking, Fault
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.evidence.signs import load_signs
from sourloam.site.batch_kinds import ROOM
from sourloam.views.trouble import QUESTIONS, Choice, Question

MOST_D: Final = 730
MOST_L: Final = 20.0  # the vessel that is taken
WARMEST_BARE_C: Final = 40.0  # a bare number up to here is meant in °C; a room of 41 °F is rare, of 41 °C too
UNKNOWN: Final = frozenset(
    (
        *("", "?", "-", "i cannot tell", "cannot tell", "can't tell", "i don't know", "i dont know", "don't know"),
        *("dont know", "dunno", "no idea", "not sure", "unsure", "idk", "unknown", "skip", "no clue"),
    )
)
SPANS: Final = {
    "fortnight": "2 weeks",
    "a fortnight": "2 weeks",
    "today": "0 days",
    "yesterday": "1 day",
    "last week": "1 week",
}


def read_answer(question: Question, text: str) -> str:
    """Return an answer in the name that it goes by: a choice by number, name or words; days; a warmth; an amount.

    Raises
    ------
    BadInput
        If it cannot be read.
    """
    bare = " ".join(text.split()).casefold().rstrip(".!")
    if bare in UNKNOWN:
        return ""
    if question.choices:
        return _choice(question, bare)
    return {"days": _days, "liquid": _litres, "warmth": _warmth}[question.name](bare)


def sign_of(name: str, answer: str) -> str:
    """Return the sign that an answer stands for, in the table; none where it stands for none."""
    if name == "fizz":
        return {"yes": "low", "no": "high"}.get(answer, "")
    chosen = next((each for each in QUESTIONS[name].choices if each.name == answer), None)
    if chosen is not None:
        return chosen.sign
    found = load_signs().by_id.get(answer)
    return found.id if found is not None and found.kind == KINDS.get(name) else ""


KINDS: Final = {"smell": "smell", "growth": "growth", "wet": "lid", "texture": "texture"}


def _choice(question: Question, bare: str) -> str:
    choices = question.choices
    if bare.isdecimal() and 1 <= int(bare) <= len(choices) + 1:
        return choices[int(bare) - 1].name if int(bare) <= len(choices) else ""
    for each in choices:
        if bare in (each.name, each.words.casefold()):
            return each.name
    found = _by_sign(question, bare) or _by_words(choices, bare)
    if found:
        return found
    names = ", ".join(each.name for each in choices)
    remedy = f"take one of: {names}. Or its number; Enter if you cannot tell."
    raise BadInput(f"--{question.name}", (Problem("", f'"{bare}" is none of the answers;', remedy),))


def _by_sign(question: Question, bare: str) -> str:
    """Return the choice, or else the sign of the table, that goes by some words."""
    kind = KINDS.get(question.name)
    sign = load_signs().find(kind, bare) if kind else None
    if sign is None:
        return ""
    return next((each.name for each in question.choices if each.sign == sign.id), sign.id)


def _by_words(choices: tuple[Choice, ...], bare: str) -> str:
    held = [
        (len(word), each.name) for each in choices for word in (each.name, *each.also) if f" {word} " in f" {bare} "
    ]
    return max(held, key=lambda pair: pair[0])[1] if held else ""


def _days(bare: str) -> str:
    bare = bare.removesuffix(" ago").removeprefix("about ")
    span = SPANS.get(bare, bare)
    try:
        days = float(span)
    except ValueError:
        try:
            days = read_quantity(span, Dimension.TIME).value
        except BadQuantity:
            raise _bad("days", f'"{bare}" is no number of days;', 'write one such as 9, or "two weeks".') from None
    if not 0.0 <= days <= MOST_D:
        raise _bad("days", f"{days:g} days cannot be followed;", f"write a number from 0 to {MOST_D}.")
    return str(round(days))


def _litres(bare: str) -> str:
    if bare in ("none", "no", "nothing", "0", "nil", "dry"):
        return "none"
    try:
        litres = read_quantity(bare, Dimension.VOLUME).value
    except BadQuantity as bad:
        raise _bad("liquid", bad.found, 'write it such as "300 ml", "1 pint" or "none".') from None
    if not 0.0 <= litres <= MOST_L:
        raise _bad("liquid", f"{litres:g} L came from no vessel;", "write all that has come since it was begun.")
    return f"{litres:.3g} L"


def _warmth(bare: str) -> str:
    if bare in ("room", "room temperature", "indoors", "inside", "normal"):
        return ""
    text = bare
    try:
        if float(bare) <= WARMEST_BARE_C:
            text = f"{bare} C"
    except ValueError:
        pass
    try:
        return f"{float(str(ROOM.read(text, Asking()))):g} C"
    except Fault as fault:
        hint = "A cool cellar is about 12 C, a room 18 C, a warm kitchen 22 C."
        raise _bad("warmth", fault.found, f"{fault.remedy} {hint}") from None


def _bad(name: str, found: str, remedy: str) -> BadInput:
    return BadInput(f"--{name}", (Problem("", found, remedy),))
