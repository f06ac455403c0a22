"""More: the words that do not fit on the bar of a phone."""

from starlette.requests import Request
from starlette.responses import Response

from sourloam.web.furniture import page


def show(request: Request) -> Response:
    """Show them."""
    return page(request, "more.html", here="more")
