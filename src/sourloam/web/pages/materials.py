"""Materials: what goes in, in the keeper's words, with the reason; opened, what it is made of and how that is known."""

from contextlib import suppress

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.service.materials import look_up
from sourloam.views.materials import MaterialView
from sourloam.web.furniture import page

LONGEST = 80


def show(request: Request) -> Response:
    """Show all of them, or those that a word names."""
    wanted = request.query_params.get("q", "").strip()[:LONGEST]
    found: tuple[MaterialView, ...] = ()
    with suppress(BadInput):
        found = look_up(wanted.split())
    one = found[0] if len(found) == 1 else None
    return page(request, "materials.html", here="materials", found=found, wanted=wanted, one=one)
