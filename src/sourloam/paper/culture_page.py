"""A making, or any answer of the bench, as one page: amounts large, steps to tick, the chain drawn to scale."""

from datetime import date
from typing import Any, Final

from sourloam.base.days import LONG_MONTHS
from sourloam.draw.bench_chain import TALL_PX, WIDE_PX, chain, chain_table
from sourloam.draw.counts import counts
from sourloam.paper.page import sources_of, style, template
from sourloam.views.culture import CultureView

HEADLINE: Final = (
    "moisture_pct",
    "log10_cfu_per_g",
    "days_ahead",
    "works_pct",
    "dose_g_per_kg",
    "keeps_d",
    "days_left",
)
MOST: Final = 4


def culture_page(view: CultureView) -> str:
    """Return the page as HTML."""
    page: str = template("culture.html", view.speech, weekday=_weekday, capital=_capital).render(**_shown(view))
    return page


def _shown(view: CultureView) -> dict[str, Any]:
    headline = tuple(each for each in HEADLINE if each in view.reasons)[:MOST]
    return {
        "view": view,
        "style": style("plan.css", "culture.css"),
        "headline": headline,
        "others": tuple(each.name for each in view.numbers if each.name not in headline),
        "chain_wide": _chain(view, WIDE_PX, "chain-wide"),
        "chain_tall": _chain(view, TALL_PX, "chain-tall"),
        "chain_rows": chain_table(view.chain, view.speech),
        "counts_wide": _counts(view, WIDE_PX, "counts-wide"),
        "counts_tall": _counts(view, TALL_PX, "counts-tall"),
        "sources_of": sources_of,
        "has_latest": any(each.latest_start != each.start for each in view.steps),
    }


def _chain(view: CultureView, width_px: float, key: str) -> str:
    if not view.chain:
        return ""
    return chain(view.chain, view.speech, width_px=width_px, layer_m=view.layer_m, key=key, title=view.says)


def _counts(view: CultureView, width_px: float, key: str) -> str:
    return counts(view.chain, works=view.works_log10, width_px=width_px, key=key) if view.chain else ""


def _weekday(on: date) -> str:
    return f"{on:%A} {on.day} {LONG_MONTHS[on.month - 1]}"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
