"""Site: all of the site file, part by part."""

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.service.record import export_site, keep_site_text
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import back_to, desk_of, page


def show(request: Request) -> Response:
    """Show the file."""
    desk = desk_of(request)
    return page(request, "site.html", here="site", text=export_site(desk.must_book()), problems=())


@taking
def keep(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep the site as it was changed; a fault leaves what was there."""
    desk = desk_of(request)
    text = fields.get("text", "").replace("\r\n", "\n")
    try:
        keep_site_text(text, "site file", desk.address, by_of(request, fields))
    except BadInput as bad:
        return page(request, "site.html", here="site", status=422, text=text, problems=tuple(bad.problems))
    return back_to("/year")
