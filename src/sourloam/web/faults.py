"""What is wrong, as a page: the same sentence that the command line says, and the way back."""

import sys
import traceback
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from sourloam.base.errors import BadInput, SourloamError
from sourloam.service.desk import NoSiteYet
from sourloam.web.furniture import back_to, page
from sourloam.web.guard import TooLarge

SAID: Final = MappingProxyType({403: "This form is too old, or from somewhere else.", 404: "There is no such page."})


def bad_input(request: Request, error: Exception) -> Response:
    """Say what was wrong with what was sent."""
    problems = getattr(error, "problems", ())
    return page(request, "fault.html", status=422, heading="That will not do", problems=problems, note="")


def no_site(request: Request, error: Exception) -> Response:
    """Begin one."""
    return back_to("/first")


def refused(request: Request, error: Exception) -> Response:
    """Say what the program or the machine cannot do."""
    return page(request, "fault.html", status=409, heading="Not done", problems=(), note=str(error))


def no_page(request: Request, error: Exception) -> Response:
    """Say that there is no such page, or that a form may not be sent."""
    status = getattr(error, "status_code", 404)
    heading = SAID.get(status, str(getattr(error, "detail", "")))
    return page(request, "fault.html", status=status, heading=heading, problems=(), note=_way(status))


def too_large(request: Request, error: Exception) -> Response:
    """Refuse what is larger than any form here."""
    return PlainTextResponse("That is more than any page here asks for.\n", 413)


def our_fault(request: Request, error: Exception) -> Response:
    """Say that the fault is ours, with the note to send; nothing that was kept is lost."""
    note = "".join(traceback.format_exception(error, limit=-6))
    sys.stderr.write(note)
    return PlainTextResponse(
        f"This page could not be made. Nothing you wrote is lost. The note to send:\n\n{note}", 500
    )


def _way(status: int) -> str:
    if status == 403:
        return "Go back, load the page again, and send it once more. What you wrote is still there."
    return "It may have moved. Begin from Today."


HANDLERS: Final[Mapping[Any, Any]] = MappingProxyType(
    {
        BadInput: bad_input,
        NoSiteYet: no_site,
        SourloamError: refused,
        HTTPException: no_page,
        TooLarge: too_large,
        Exception: our_fault,
    }
)
