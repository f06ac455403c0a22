"""First run: one question a page, and after the last one the plan."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.fields import Fault
from sourloam.service.begin import begin, regions
from sourloam.service.book import now_utc
from sourloam.service.record import By, keep_site_text
from sourloam.site.answers import Answers
from sourloam.sitefile.first import write_draft
from sourloam.sitefile.questions import questions, reply
from sourloam.web.forms import taking
from sourloam.web.furniture import back_to, desk_of, page

NAME = Path("my-yard.toml")
PREFIX = "a"  # before the number of a question in the address


def show(request: Request) -> Response:
    """Ask the next question; after the last one, what is taken as given, and the button that begins."""
    if desk_of(request).book is not None:
        return back_to("/")
    answers, at, fault = _answered(request.query_params)
    asked = questions(regions())
    given = {name: text for name, text in request.query_params.items() if _number(name) is not None}
    if at is None:
        draft = begin(answers, NAME, now_utc().date())
        return page(request, "begin.html", here="first", given=given, notes=draft.notes, site_drawn=draft.site)
    return page(
        request,
        "first.html",
        here="first",
        status=422 if fault else 200,
        question=asked[at],
        key=f"{PREFIX}{at}",
        step=1 + sum(_number(name) is not None and _number(name) != at for name in given),
        given={name: text for name, text in given.items() if name != f"{PREFIX}{at}"},
        fault=fault,
    )


@taking
def start(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep the site of the answers, and show its plan."""
    desk = desk_of(request)
    if desk.book is not None:
        return back_to("/")
    answers, _, _ = _answered(fields)
    name = fields.get("name", "").strip()[:80]
    file = Path(f"{name}.toml") if name else NAME
    draft = begin(_named(answers, name), file, now_utc().date())
    keep_site_text(write_draft(draft), file.name, desk.address, By(face="web"))
    return back_to("/year")


def _named(answers: Answers, name: str) -> Answers:
    return replace(answers, name=name) if name else answers


def _answered(sent: Mapping[str, str]) -> tuple[Answers, int | None, Fault | None]:
    """Return the answers so far, the number of the question that comes next, and why the last one cannot be read."""
    answers = Answers()
    for at, question in enumerate(questions(regions())):
        if not question.is_asked(answers):
            continue
        key = f"{PREFIX}{at}"
        if key not in sent:
            return answers, at, None
        try:
            answers = reply(answers, question, sent[key], regions())
        except Fault as fault:
            return answers, at, fault
    return answers, None, None


def _number(name: str) -> int | None:
    return int(name[1:]) if name[:1] == PREFIX and name[1:].isdecimal() else None
