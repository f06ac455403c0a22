"""What all pages share: the environment of their templates, their face and colours, the macros of a figure."""

from base64 import b64encode
from functools import partial
from importlib.resources import files
from typing import Final

from jinja2 import Environment, StrictUndefined, Template

from sourloam.draw.interval import interval
from sourloam.draw.palette import properties_css
from sourloam.plan.words import Speech, when
from sourloam.views.reason import Reason, leaves
from sourloam.views.spoken import said, said_range

MACROS: Final = "macros.html"


def template(name: str, speech: Speech, **filters: object) -> Template:
    """Return a template with the macros of a figure and what they speak with."""
    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    environment.filters.update(
        value=partial(said, speech=speech),
        range=partial(said_range, speech=speech),
        interval_svg=partial(interval, speech=speech),
        warmths=speech.warmths,
        day=when,
        **filters,
    )
    return environment.from_string(text_of(MACROS) + text_of(name))


def text_of(name: str) -> str:
    """Return a packaged template or style sheet."""
    return (files("sourloam.paper") / "templates" / name).read_text("utf-8")


def style(*sheets: str) -> str:
    """Return colours, face and style sheets as they stand in a page."""
    return properties_css() + _font_css() + "".join(text_of(each) for each in sheets)


def _font_css() -> str:
    """Return the face of the headings, carried in the page itself: Vollkorn, under the licence beside it."""
    held = (files("sourloam.paper") / "fonts" / "vollkorn-latin-700.woff2").read_bytes()
    source = f"url(data:font/woff2;base64,{b64encode(held).decode()}) format('woff2')"
    return f"@font-face{{font-family:Vollkorn;font-weight:700;font-display:swap;src:{source}}}\n"


def sources_of(reason: Reason) -> str:
    """Return the sources at the leaves of a reason, each once."""
    found = dict.fromkeys(each.source.rstrip(".") for each in leaves(reason) if each.is_sourced)
    return "; ".join(found) + "." if found else ""
