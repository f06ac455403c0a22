"""What stands before every page: who may ask, what may be sent, what the answer may load.

The program serves one keeper on one machine. A page of somebody else's in the same browser must neither read from it
nor write to it, so the name by which it is reached, the origin of what is sent and a token are looked at each time.
"""

import hmac
import secrets
from collections.abc import Awaitable, Callable, MutableMapping
from http import HTTPStatus
from typing import Any, Final
from urllib.parse import urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

COOKIE, FIELD, HEADER = "sourloam-token", "token", "x-token"
HOSTS: Final = ("localhost", "127.0.0.1", "[::1]")
SAFE: Final = ("GET", "HEAD")
LARGEST_BODY: Final = 1_200_000  # bytes: a site file, and a little more

# Nothing comes from outside the machine, nothing runs that is not one of our files, no other page may hold ours.
HEADERS: Final = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
        "connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; frame-ancestors 'none'; "
        "base-uri 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=(), payment=(), usb=()",
}

Message = MutableMapping[str, Any]
Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]


class TooLarge(Exception):
    """More was sent than any page here asks for."""


class Guard:
    """Refuses what is not from the keeper's own browser, and tells the browser what a page may load."""

    def __init__(self, app: App) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or refuse in words."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refused = refusal(scope["method"], headers)
        if refused is not None:
            await _with_headers(PlainTextResponse(refused[1], refused[0]), scope, receive, send)
            return
        await _with_headers(self.app, scope, _limited(receive), send)


def refusal(method: str, headers: Headers) -> tuple[HTTPStatus, str] | None:
    """Return why a request is not answered, or nothing."""
    host = headers.get("host", "")
    if not is_here(host):
        return HTTPStatus.MISDIRECTED_REQUEST, "This is reached as localhost, and by no other name.\n"
    if headers.get("content-length", "0") != "0" and not _is_small(headers["content-length"]):
        return HTTPStatus.REQUEST_ENTITY_TOO_LARGE, "That is more than any page here asks for.\n"
    if method in SAFE:
        return None
    if method != "POST":
        return HTTPStatus.METHOD_NOT_ALLOWED, "Only GET and POST are answered.\n"
    if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
        return HTTPStatus.FORBIDDEN, "This was sent by a page of somebody else's.\n"
    origin = headers.get("origin")
    if origin is not None and urlsplit(origin).netloc != host:
        return HTTPStatus.FORBIDDEN, "This was sent by a page of somebody else's.\n"
    return None


def is_here(host: str) -> bool:
    """Whether a name is one of this machine's own, with any port: a port forward may change it."""
    name, colon, port = host.rpartition(":") if not host.endswith("]") else (host, "", "")
    if not colon:
        name = host
    return name.lower() in HOSTS and (not colon or port.isdecimal())


def _is_small(length: str) -> bool:
    return length.isdecimal() and int(length) <= LARGEST_BODY


def _limited(receive: Receive) -> Receive:
    """Count what comes in, since not every sender says its size beforehand."""
    seen = 0

    async def counted() -> Message:
        nonlocal seen
        message = await receive()
        seen += len(message.get("body", b""))
        if seen > LARGEST_BODY:
            raise TooLarge
        return message

    return counted


async def _with_headers(app: App | Response, scope: Scope, receive: Receive, send: Send) -> None:
    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)
        await send(message)

    await app(scope, receive, sent)


def token_of(request: Request) -> str:
    """Return the token of this browser; a new one where it has none."""
    held = request.cookies.get(COOKIE, "")
    return held if len(held) == 32 and held.isalnum() else secrets.token_hex(16)


def keep_token(response: Response, token: str) -> None:
    """Give the browser its token."""
    response.set_cookie(COOKIE, token, max_age=400 * 86400, httponly=True, samesite="strict", path="/")


def is_own(request: Request, sent: str) -> bool:
    """Whether what was sent carries the token that the browser was given."""
    held = request.cookies.get(COOKIE, "")
    return bool(held) and hmac.compare_digest(held.encode(), sent.encode())
