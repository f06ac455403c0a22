"""History: what was written, newest first, by days; a line is taken back by another one. The book can be given out."""

from collections.abc import Mapping
from itertools import groupby

from starlette.requests import Request
from starlette.responses import Response

from sourloam.service.moving import export_lines
from sourloam.service.record import export_site, log_phrase, undo
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import back_to, desk_of, page

MOST_SHOWN = 60


def show(request: Request) -> Response:
    """Show the lines, of one vessel or place where it is named."""
    desk = desk_of(request)
    about = request.query_params.get("about") or None
    lines = tuple(each for each in reversed(desk.lines()) if about is None or about in each.about)
    shown = lines if "all" in request.query_params else lines[:MOST_SHOWN]
    return page(
        request,
        "history.html",
        here="history",
        days=[(on, tuple(held)) for on, held in groupby(shown, key=lambda each: each.on)],
        older=len(lines) - len(shown),
        about=about or "",
        parts=[(each.id, desk.site.name_of(each.id)) for part in desk.site.parts().values() for each in part],
        day_now=desk.day,
    )


@taking
def take_back(request: Request, fields: Mapping[str, str]) -> Response:
    """Take a line back."""
    desk = desk_of(request)
    undo(desk.must_book(), by_of(request, fields), fields.get("entry") or None)
    return back_to(_inside(fields.get("back", "/history")))


@taking
def write(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep what was typed in the keeper's own words."""
    desk = desk_of(request)
    view = log_phrase(desk.must_book(), fields.get("phrase", ""), by_of(request, fields), known=desk.known)
    return page(request, "kept.html", here="history", view=view, back="/history", again="")


def lines_file(request: Request) -> Response:
    """Give out the lines as a file."""
    desk = desk_of(request)
    return _file(
        "\n".join(export_lines(desk.must_book())) + "\n", f"{desk.must_book().site}.jsonl", "application/jsonl"
    )


def site_file(request: Request) -> Response:
    """Give out the site as a file."""
    desk = desk_of(request)
    return _file(export_site(desk.must_book()), f"{desk.must_book().site}.toml", "application/toml")


def _inside(path: str) -> str:
    """Return an address of this program, never one of another."""
    return path if path.startswith("/") and not path.startswith("//") and "\\" not in path else "/"


def _file(text: str, name: str, kind: str) -> Response:
    return Response(text, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})
