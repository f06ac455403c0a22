"""The few files that pages load: one style sheet, one face, two scripts, an icon, what makes it installable."""

from functools import lru_cache
from importlib.resources import files
from typing import Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from sourloam.web.furniture import style

KEPT: Final = {"Cache-Control": "public, max-age=86400"}
FRESH: Final = {"Cache-Control": "no-cache"}
# Name in the address -> package, folder and name of the file, its kind.
FILES: Final = {
    "htmx.min.js": ("sourloam.web", "static", "htmx.min.js", "text/javascript"),
    "page.js": ("sourloam.web", "static", "page.js", "text/javascript"),
    "vollkorn.woff2": ("sourloam.paper", "fonts", "vollkorn-latin-700.woff2", "font/woff2"),
    "icon.svg": ("sourloam.web", "static", "icon.svg", "image/svg+xml"),
    "manifest.webmanifest": ("sourloam.web", "static", "manifest.webmanifest", "application/manifest+json"),
}


def static(request: Request) -> Response:
    """Return a file by its name in the table; there is no way to any other."""
    name = request.path_params["name"]
    if name == "style.css":
        return Response(style(), media_type="text/css", headers=KEPT)
    if name not in FILES:
        raise HTTPException(404)
    content, kind = _file(name)
    return Response(content, media_type=kind, headers=KEPT if "?" in str(request.url) or name != "page.js" else FRESH)


def worker(request: Request) -> Response:
    """Return the script that answers while the server is out of reach; it must lie at the root."""
    content = (files("sourloam.web") / "static" / "worker.js").read_bytes()
    return Response(content, media_type="text/javascript", headers=FRESH)


def icon(request: Request) -> Response:
    """Return the icon for browsers that ask for it by its old name."""
    return Response(_file("icon.svg")[0], media_type="image/svg+xml", headers=KEPT)


@lru_cache(maxsize=8)
def _file(name: str) -> tuple[bytes, str]:
    package, folder, file, kind = FILES[name]
    return (files(package) / folder / file).read_bytes(), kind
