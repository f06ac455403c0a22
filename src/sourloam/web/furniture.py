"""What every page has around its view: the environment of the templates, the bars, the one style sheet."""

import hashlib
import re
from functools import lru_cache, partial
from importlib.resources import files
from typing import Any, Final, NamedTuple
from uuid import uuid4

from jinja2 import Environment, FunctionLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response

from sourloam.base.days import LONG_MONTHS
from sourloam.draw.interval import interval
from sourloam.draw.palette import properties_css
from sourloam.paper.page import sources_of, text_of
from sourloam.plan.words import Speech, when
from sourloam.service.desk import Desk
from sourloam.views.spoken import said, said_range
from sourloam.web import guard


class Place(NamedTuple):
    """One word of the bar."""

    words: str
    path: str
    name: str


BAR: Final = (
    Place("Today", "/", "today"),
    Place("Shelf", "/shelf", "shelf"),
    Place("Cultures", "/cultures", "cultures"),
    Place("Ground", "/ground", "ground"),
    Place("Year", "/year", "year"),
    Place("More", "/more", "more"),
)
MORE: Final = (
    Place("Ask", "/ask", "ask"),
    Place("Materials", "/materials", "materials"),
    Place("Site", "/site", "site"),
    Place("History", "/history", "history"),
)
OPTION: Final = re.compile(
    r" \((?:(?:--[a-z-]+(?:, | or )?)+|name a batch for your own)\)"
)  # what only the command line can be told
FONT: Final = (
    "@font-face{font-family:Vollkorn;font-weight:700;font-display:swap;"
    "src:url(/static/vollkorn.woff2) format('woff2')}\n"
)


def desk_of(request: Request) -> Desk:
    """Return the desk of the program that answers."""
    desk: Desk = request.app.state.desk
    return desk


def page(request: Request, template: str, /, *, here: str = "", status: int = 200, **shown: Any) -> Response:  # noqa: ANN401 - whatever the template uses
    """Return a page made from a template; the bars stand around it where a site is known."""
    desk = desk_of(request)
    site = desk.site if desk.book is not None else None
    speech = Speech(site.keeper.units) if site else Speech("metric")
    token = guard.token_of(request)
    text = (
        _environment(speech)
        .get_template(template)
        .render(
            here=here,
            bar=BAR,
            more=MORE,
            site=site,
            site_name=(site.facts.name or site.facts.id) if site else "",
            token=token,
            fresh_id=lambda: uuid4().hex[:12],
            style=f"/static/style.css?{style_mark()}",
            **shown,
        )
    )
    response = HTMLResponse(text, status)
    guard.keep_token(response, token)
    return response


def piece(template: str, speech: Speech, /, **shown: Any) -> str:  # noqa: ANN401 - whatever the template uses
    """Return a part of a page that is the same for every browser, so that it can be kept."""
    return _environment(speech).get_template(template).render(**shown)


def back_to(path: str) -> Response:
    """Send the browser to a page after something was kept, so that a reload does not send it twice."""
    return RedirectResponse(path, 303)


@lru_cache(maxsize=2)
def _environment(speech: Speech) -> Environment:
    environment = Environment(
        loader=FunctionLoader(_text),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    environment.filters.update(
        value=partial(said, speech=speech),
        range=partial(said_range, speech=speech),
        interval_svg=partial(interval, speech=speech),
        warmths=speech.warmths,
        kg=speech.kg,
        litres=speech.litres,
        day=when,
        weekday=lambda on: f"{on:%A} {on.day} {LONG_MONTHS[on.month - 1]}",
        capital=lambda words: words[:1].upper() + words[1:],
        bare=lambda words: words.rstrip("."),
        optionless=lambda words: OPTION.sub("", words),
    )
    environment.globals.update(sources_of=sources_of)
    return environment


def _text(name: str) -> str:
    """Return a template; the macros of a figure are those of paper."""
    if name == "macros.html":
        return text_of(name)
    return (files("sourloam.web") / "templates" / name).read_text("utf-8")


@lru_cache(maxsize=1)
def style() -> str:
    """Return the one style sheet: colours, face, what paper and screen share, what the screen adds."""
    ours = (files("sourloam.web") / "static" / "web.css").read_text("utf-8")
    return properties_css() + FONT + text_of("plan.css") + ours


@lru_cache(maxsize=1)
def style_mark() -> str:
    """Return a mark that changes with the style sheet, so that a browser may keep it."""
    return hashlib.sha256(style().encode()).hexdigest()[:10]
