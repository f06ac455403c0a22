"""Materials: what goes in, in the keeper's words, with the reason; opened, what it is made of and how that is known."""

from contextlib import suppress
from functools import lru_cache

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.plan.words import Speech
from sourloam.service.materials import look_up
from sourloam.views.materials import MaterialView
from sourloam.web.furniture import desk_of, page, piece

LONGEST = 80


@lru_cache(maxsize=16)
def _listed(wanted: str, units: str) -> str:
    """Return the list of what a word names; the table is the same for everybody."""
    found: tuple[MaterialView, ...] = ()
    with suppress(BadInput):
        found = _found(wanted)
    return piece("materials_body.html", Speech(units), found=found)


@lru_cache(maxsize=64)
def _found(wanted: str) -> tuple[MaterialView, ...]:
    return look_up(wanted.split())


def show(request: Request) -> Response:
    """Show all of them, or those that a word names."""
    wanted = request.query_params.get("q", "").strip()[:LONGEST]
    found: tuple[MaterialView, ...] = ()
    with suppress(BadInput):
        found = _found(wanted)
    one = found[0] if len(found) == 1 else None
    body = "" if one else _listed(wanted, desk_of(request).units)
    return page(request, "materials.html", here="materials", found=found, wanted=wanted, one=one, body=body)
