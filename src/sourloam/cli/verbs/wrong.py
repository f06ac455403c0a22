"""`sourloam wrong`: something is wrong, and at most five plain questions say what, and what to do."""

import sys
import textwrap
from collections.abc import Iterator
from typing import Any

import click

from sourloam.base.errors import BadInput, Problem, printable
from sourloam.cli import options
from sourloam.cli.compiled import compiled
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.following import tell
from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show import reason_text
from sourloam.cli.show_watch import watch_text
from sourloam.service.watch import MEMBERS
from sourloam.service.wrong import Answered, answer_of, next_question
from sourloam.service.wrong_answers import read_answer
from sourloam.views.as_json import reason_object
from sourloam.views.trouble import MOST, QUESTIONS, Question, TroubleView
from sourloam.views.trouble_json import trouble_object


def _names(name: str) -> str:
    return ", ".join(each.name for each in QUESTIONS[name].choices)


@click.command("wrong")
@click.option("--trouble", metavar="ANSWER", help=f"What is wrong ({_names('trouble')})")
@click.option("--smell", metavar="ANSWER", help=f"What it smells of ({_names('smell')})")
@click.option("--where", metavar="ANSWER", help=f"Where it smells of that ({_names('where')})")
@click.option("--growth", metavar="ANSWER", help=f"What grows on top ({_names('growth')})")
@click.option("--wet", metavar="ANSWER", help=f"How wet it is ({_names('wet')})")
@click.option("--fizz", metavar="ANSWER", help="Whether baking soda fizzes on it (yes, no)")
@click.option("--texture", metavar="ANSWER", help=f"How the scraps feel ({_names('texture')})")
@click.option("--fed", metavar="ANSWER", help=f"What went in, or did not ({_names('fed')})")
@click.option("--insects", metavar="ANSWER", help=f"What flies or crawls ({_names('insects')})")
@click.option("--liquid", metavar="VOLUME", help='How much liquid has come in all: "300 ml", "none".')
@click.option("--days", metavar="COUNT", help="How many days ago it was filled and shut, or dug in.")
@click.option("--warmth", metavar="TEMPERATURE", help='How warm it is where it stands, or the soil: "16 C", "60 F".')
@click.option("--yes", is_flag=True, help="Ask nothing: go by the options alone.")
@click.option("--units", type=click.Choice(("metric", "us")), help="In which units to speak.")
@click.option("--members", type=click.IntRange(100, 5000), default=MEMBERS, show_default=True, metavar="COUNT",
              help="In how many cases it is followed.")  # fmt: skip
@click.option("--why", metavar="FIGURE", help="Open one figure down to its sources: chance_putrid, rest_d ...")
@options.as_json
def command(
    *,
    yes: bool,
    units: str | None,
    members: int,
    why: str | None,
    as_json: bool,
    **given: Any,  # noqa: ANN401
) -> None:
    """Say what is wrong: at most five questions, the most telling first.

    No site, no batch and no instrument is needed. What an option says is not
    asked.

    Exit code 0: it is well, or nothing is to be done at once. 1: it is not. 2:
    an answer cannot be used.
    """

    def run() -> Exit:
        answered = _given(given, Answered({}, units, members))
        if not yes:
            answered = _asked(answered)
        return _told(answer_of(answered, compiler=compiled, says=tell), why, as_json=as_json)

    sys.exit(guarded(run, as_json=as_json))


def _given(given: dict[str, str | None], answered: Answered) -> Answered:
    """Return the answers of the options; all that cannot be read are named."""
    problems: list[Problem] = []
    for name, text in given.items():
        if text is None:
            continue
        try:
            answered = answered.said(name, read_answer(QUESTIONS[name], text))
        except BadInput as bad:
            problems += [Problem(bad.name, each.found, each.remedy) for each in bad.problems]
    if problems:
        raise BadInput("wrong", tuple(problems))
    return answered if "trouble" in answered.given else _by_signs(answered)


def _by_signs(answered: Answered) -> Answered:
    """Return the answers with a trouble, where other answers say enough to need none."""
    return answered.said("trouble", "") if answered.given else answered


def _asked(answered: Answered) -> Answered:
    """Ask what is open, one question after the other; "back" takes the last one back, Ctrl-D ends the questions."""
    if not options.has_terminal():
        found, remedy = (
            "there is no terminal on which to ask;",
            "say --yes, with options such as --smell rancid --days 9.",
        )
        raise BadInput("wrong", (Problem("", found, remedy),))
    if next_question(answered) is not None:
        _say(
            'Enter means: I cannot tell. "back" goes one back, Ctrl-D answers with what was said so far, Ctrl-C stops.'
        )
    before: list[Answered] = []
    while (question := next_question(answered)) is not None:
        _put(question, len(answered.given) + 1)
        try:
            after = _heard(question, answered)
        except EOFError:
            if not any(answered.given.values()):
                raise KeyboardInterrupt from None
            break
        if after is not None:
            before.append(answered)
        answered = after or (before.pop() if before else answered)
    return answered


def _heard(question: Question, answered: Answered) -> Answered | None:
    """Return the answers with the first reply that can be read; nothing where the last one is taken back."""
    while True:
        text = _typed()
        if text.strip().casefold() in ("back", "b"):
            return None
        try:
            return answered.said(question.name, read_answer(question, text))
        except BadInput as bad:
            _say(printable(f"{bad.problems[0].found} {bad.problems[0].remedy}"), "  ")


def _put(question: Question, number: int) -> None:
    _say("")
    _say(f"Question {number} of at most {MOST}. {question.words}")
    _say(question.how, "   ")
    for count, each in enumerate(question.choices, start=1):
        _say(f"{count}  {each.words}", "   ")
    last = f"{len(question.choices) + 1}  I cannot tell" if question.choices else "Enter: I cannot tell"
    _say(f"{last} ({question.unknown})", "   ")


def _say(text: str, indent: str = "") -> None:
    click.echo("\n".join(textwrap.wrap(text, WIDTH, initial_indent=indent, subsequent_indent=indent)), err=True)


def _typed() -> str:
    """Return a line as it was typed. Raises EOFError where somebody ended it."""
    click.echo("  > ", nl=False, err=True)
    line = sys.stdin.readline()
    if not line:
        click.echo("", err=True)
        raise EOFError
    return line


def _told(view: TroubleView, why: str | None, *, as_json: bool) -> Exit:
    if why is not None:
        reason = view.watch.reasons[options.figure_named(why, tuple(view.watch.reasons))]
        click.echo(
            options.json_text(reason_object(reason)) if as_json else reason_text(reason, view.watch.batch.speech)
        )
        return Exit.DONE
    if as_json:
        click.echo(options.json_text(trouble_object(view)))
    elif view.is_short:
        click.echo("\n".join(_short(view)))
    else:
        click.echo(watch_text(view.watch))
    return Exit.DONE if view.is_well else Exit.NO


def _short(view: TroubleView) -> Iterator[str]:
    yield from textwrap.wrap(view.says, WIDTH)
    yield ""
    yield "Do this now"
    for number, each in enumerate(view.do, start=1):
        yield from wrapped(f"  {number}. ", f"{each.do}: {each.because}.")
    for title, lines in (("Look at this next", view.look_next), ("Worry if", view.worry_if), ("To know", view.hints)):
        if lines:
            yield ""
            yield from listed(title, lines)
    yield ""
    yield from listed("Taken as given", view.watch.assumptions)
