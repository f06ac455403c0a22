"""`sourloam new [FILE]`: a first site file from plain questions, and the plan at once."""

import json
import sys
import textwrap
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any, Final

import click

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Fault, Key
from sourloam.base.kinds import Choice, Choices, Flag
from sourloam.cli import options
from sourloam.cli.ask import ask
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.lines import WIDTH
from sourloam.cli.show import plan_text
from sourloam.service.begin import begin, keep_site, refuse_taken, regions
from sourloam.service.plan import plan_site
from sourloam.site.answers import Answers
from sourloam.site.draft import Draft
from sourloam.sitefile.questions import answered, keys
from sourloam.views.as_json import plan_object
from sourloam.views.plan import PlanView

SCHEMA: Final = "sourloam.new/1"
FILE: Final = Path("site.toml")


def _with_answers(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command one option for each answer."""
    for attribute, key in reversed(tuple(keys().items())):
        command = _option(attribute, key)(command)
    return command


def _option(attribute: str, key: Key) -> Callable[[Callable[..., None]], Callable[..., None]]:
    name = key.name.replace("_", "-")
    if isinstance(key.kind, Flag):
        return click.option(f"--{name}/--no-{name}", attribute, default=None, help=key.help)
    values = key.kind.options if isinstance(key.kind, Choice | Choices) else ()
    words = f"{key.help} ({', '.join(values)})" if values else key.help
    return click.option(f"--{name}", attribute, metavar="ANSWER", help=words)


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path), default=FILE)
@_with_answers
@click.option("--yes", is_flag=True, help="Ask nothing: where no option says, take the default.")
@click.option("--overwrite", is_flag=True, help="Write over a file that is there already.")
@options.out
@options.today
@options.as_json
def command(
    file: Path, *, yes: bool, overwrite: bool, out: Path | None, today: date | None, as_json: bool, **given: object
) -> None:
    """Begin: at most a dozen plain questions, a site file from the answers, and the plan.

    FILE is site.toml if left out. Exit code as of plan. 0: enough. 1: it stalls. 2: an answer or
    the file will not do.
    """

    def run() -> Exit:
        refuse_taken(file, overwrite=overwrite)
        answers = _answers(given, asks=not yes)
        draft = begin(answers, file, options.day(today))
        keep_site(draft, file, overwrite=overwrite)
        return _plan(draft, file, out, today, as_json=as_json)

    sys.exit(guarded(run, as_json=as_json))


def _answers(given: Mapping[str, object], *, asks: bool) -> Answers:
    """Return what the options say, and what is asked beyond that."""
    known = regions()
    answers = _said(given, known)
    if not asks:
        return answers
    if not options.has_terminal():
        found = "there is no terminal on which to ask;"
        remedy = 'say --yes to take the defaults, with options such as --people 2 --bucket "18 L".'
        raise BadInput("new", (Problem("", found, remedy),))
    return ask(answers, known)


def _said(given: Mapping[str, object], known: Mapping[str, Any]) -> Answers:
    answers, problems = Answers(), []
    for attribute, text in given.items():
        if text is None:
            continue
        try:
            answers = answered(answers, attribute, str(text), known)
        except Fault as fault:
            problems.append(Problem(f"--{keys()[attribute].name.replace('_', '-')}", fault.found, fault.remedy))
    if problems:
        raise BadInput("new", tuple(problems))
    return answers


def _plan(draft: Draft, file: Path, out: Path | None, today: date | None, *, as_json: bool) -> Exit:
    """Plan the new file, as the verb `plan` does, keep it where that is wanted, and print it."""
    try:
        view = plan_site(file)
        written: tuple[Path, ...] = ()
        if out is not None:
            from sourloam.paper.keep import keep_plan

            written = keep_plan(view, out, stamp=options.stamp(today))
    except KeyboardInterrupt:
        click.echo(f"Stopped. Your answers are in {file}: sourloam plan {file}", err=True)
        return Exit.STOPPED
    click.echo(_json(draft, file, view) if as_json else _text(draft, file, view))
    for path in written:
        click.echo(f"Written: {path}", err=as_json)
    if out is None:
        click.echo(f"For a page to look at and a calendar: sourloam plan {file} --out plan", err=as_json)
    return Exit.DONE if view.enough else Exit.NO


def _json(draft: Draft, file: Path, view: PlanView) -> str:
    notes = [{"of": of, "key": key, "says": says} for (of, key), says in draft.notes.items()]
    held = {"schema": SCHEMA, "file": str(file), "taken": notes, "plan": plan_object(view)}
    return json.dumps(held, ensure_ascii=False, allow_nan=False)


def _text(draft: Draft, file: Path, view: PlanView) -> str:
    """Return what was taken instead of an answer, since the plan rests on it; the plan; and where the site stands."""
    lines = ["Taken, where you did not say; a week on the scale is worth more than any of it", *_notes(draft), ""]
    stands = f"Your site stands in {file}. Every key is explained there; change it and plan again."
    return "\n".join([*(lines if draft.notes else []), plan_text(view), "", stands])


def _notes(draft: Draft) -> Iterator[str]:
    for (of, key), says in draft.notes.items():
        yield from textwrap.wrap(f"{of}, {key}: {says}", WIDTH, initial_indent="  - ", subsequent_indent="    ")
