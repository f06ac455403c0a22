"""Ask: a question without a site; the answer has an address of its own and prints well."""

from datetime import date

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput, Problem
from sourloam.service.book import now_utc
from sourloam.web.answers import Answer
from sourloam.web.asks import ASKS
from sourloam.web.furniture import desk_of, page


def show(request: Request) -> Response:
    """Show what can be asked."""
    return page(request, "asks.html", here="ask", asks=tuple(ASKS.values()))


def one(request: Request) -> Response:
    """Show one question; with its answer, where something was sent."""
    ask = ASKS.get(request.path_params["name"])
    if ask is None:
        raise HTTPException(404)
    sent = ask.known(request.query_params)
    answer: Answer | None = None
    problems: tuple[Problem, ...] = ()
    if sent:
        try:
            answer = ask.answer(sent, _today(request))
        except BadInput as bad:
            problems = tuple(bad.problems)
    status = 422 if problems else 200
    return page(request, "ask.html", here="ask", status=status, ask=ask, sent=sent, answer=answer, problems=problems)


def _today(request: Request) -> date:
    desk = desk_of(request)
    return desk.day if desk.book is not None else now_utc().date()
