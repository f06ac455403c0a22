"""Asks plain questions at a terminal, one at a time, on the error stream: the output holds the answer alone."""

import textwrap
from collections.abc import Callable, Mapping
from typing import Final

import click

from sourloam.base.errors import printable
from sourloam.base.fields import Fault
from sourloam.site.answers import Answers
from sourloam.site.draft import Region
from sourloam.sitefile.questions import MOST, Question, questions, reply

WIDTH: Final = 78
BACK: Final = ("back", "b")


def ask(answers: Answers, regions: Mapping[str, Region], *, read: Callable[[], str] | None = None) -> Answers:
    """Ask what the answers leave open, and return them filled; "back" takes the last one back."""
    listen = read or _typed
    given = frozenset(name for name in vars(answers) if name != "typed" and getattr(answers, name) is not None)
    open_ = tuple(each for each in questions(regions) if not given.intersection(each.attributes))
    _say(f'At most {MOST} questions. Enter means: I don\'t know. "back" goes one back, Ctrl-C stops.')
    before: list[tuple[int, Answers]] = []
    at = 0
    while at < len(open_):
        if not open_[at].is_asked(answers):
            at += 1
            continue
        put(open_[at], len(before) + 1)
        after = _heard(answers, open_[at], regions, listen)
        if after is not None:
            before.append((at, answers))
            at, answers = at + 1, after
        elif before:
            at, answers = before.pop()
    return answers


def _heard(
    answers: Answers, question: Question, regions: Mapping[str, Region], listen: Callable[[], str]
) -> Answers | None:
    """Return the answers after the first reply that can be read; nothing where the last one is taken back."""
    while True:
        text = listen()
        if text.strip().lower() in BACK:
            return None
        try:
            return reply(answers, question, text, regions)
        except Fault as fault:
            _say(printable(f"{fault.found} {fault.remedy}".rstrip()), indent="  ")


def put(question: Question, number: int) -> None:
    """Write a question with its answers; "I don't know" stands last."""
    _say("")
    _say(f"{number}. {question.words}")
    if question.hint:
        _say(question.hint, indent="   ")
    for count, (_, label) in enumerate(question.labels, start=1):
        _say(f"{count:>2}  {label}", indent="   ", hang="       ")
    last = f"{len(question.labels) + 1:>2}  " if question.labels else ""
    _say(f"{last}I don't know ({question.unknown})", indent="   ", hang="       ")


def _say(text: str, *, indent: str = "", hang: str | None = None) -> None:
    lines = textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent if hang is None else hang)
    click.echo("\n".join(lines), err=True)


def _typed() -> str:
    try:
        return str(click.prompt("  >", prompt_suffix=" ", default="", show_default=False, err=True))
    except click.Abort:
        raise KeyboardInterrupt from None
