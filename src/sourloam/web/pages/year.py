"""The year: the plan drawn from what is so now, what is short and when, and what would help."""

from typing import Any, Final

from starlette.requests import Request
from starlette.responses import Response

from sourloam.draw.flow import flow, flow_table
from sourloam.draw.year_table import year_table
from sourloam.draw.year_tall import year_tall
from sourloam.draw.year_wide import year_wide
from sourloam.views.plan import PlanView
from sourloam.views.spoken import said
from sourloam.web.furniture import desk_of, page, piece

HEADLINE: Final = ("scraps_kg_per_year", "bran_kg_per_year", "vessels_needed", "stall_days_per_year")
WIDE_PX, TALL_PX = 1100, 354


def show(request: Request) -> Response:
    """Show the page."""
    desk = desk_of(request)
    view = desk.plan()
    body = desk.kept("year", lambda: piece("year_body.html", view.speech, **_shown(view)))
    return page(request, "year.html", here="year", heading=view.summary[0], body=body)


def _shown(view: PlanView) -> dict[str, Any]:
    return {
        "view": view,
        "rest": view.summary[1:],
        "stalled": said(view.reasons["stall_days_per_year"].number, view.speech),
        "year_wide": year_wide(view),
        "year_tall": year_tall(view),
        "year_rows": year_table(view),
        "flow_wide": flow(view, width_px=WIDE_PX),
        "flow_tall": flow(view, width_px=TALL_PX),
        "flow_rows": flow_table(view),
        "headline": HEADLINE,
        "others": tuple(each.name for each in view.numbers if each.name not in HEADLINE),
    }
