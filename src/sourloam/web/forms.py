"""What a browser sent, as text under names; a form is taken only with the token of this browser."""

from collections.abc import Callable, Mapping
from functools import wraps
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from sourloam.service.record import By
from sourloam.web import guard
from sourloam.web.furniture import desk_of

LONGEST_ID = 40


def taking(handler: Callable[[Request, Mapping[str, str]], Response]) -> Callable[[Request], Any]:
    """Make a handler of a form of one that takes its fields; the token is looked at before."""

    @wraps(handler)
    async def taken(request: Request) -> Response:
        form = await request.form(max_files=0, max_fields=200)
        fields = {name: value for name, value in form.multi_items() if isinstance(value, str)}
        sent = request.headers.get(guard.HEADER) or fields.get(guard.FIELD, "")
        if not guard.is_own(request, sent):
            raise HTTPException(403)
        answer = await run_in_threadpool(handler, request, fields)
        desk_of(request).changed.set()
        return answer

    return taken


def by_of(request: Request, fields: Mapping[str, str]) -> By:
    """Return who writes: this page, under the id that it was given, so that what is sent twice is kept once."""
    named = fields.get("entry-id", "")
    id_ = named if named.isalnum() and len(named) <= LONGEST_ID else ""
    desk = desk_of(request)
    return By(face="web", on=desk.on, id=id_, now=desk.now)
