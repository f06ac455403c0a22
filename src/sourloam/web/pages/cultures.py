"""Cultures: until when the bran lasts, what is made next and when, the chain on its board, what was done."""

from collections.abc import Mapping
from typing import Any

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.draw.bench_chain import TALL_PX, WIDE_PX, chain, chain_table
from sourloam.logbook.entries import STEPS
from sourloam.plan.words import when
from sourloam.service.culture import work_culture
from sourloam.service.culture_reading import AskedCulture
from sourloam.service.desk import Desk
from sourloam.service.record import log_record
from sourloam.views.culture import CultureView
from sourloam.views.logbook import STEP_WORDS
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import desk_of, page

DEFAULT_KG = 3.0  # bran that is shown where the plan wants none


def show(request: Request) -> Response:
    """Show the page."""
    desk = desk_of(request)
    return page(request, "cultures.html", here="cultures", **desk.kept("cultures", lambda: _shown(desk)))


@taking
def keep(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep a step that was done, or what came into the cupboard."""
    desk = desk_of(request)
    step = fields.get("step", "")
    raw: dict[str, str] = {"step": step}
    amount = fields.get("amount", "").strip()
    if amount and step in ("strain", "mix"):
        raw["serum"] = amount
    elif amount:
        raw["bran"] = amount
    view = log_record(desk.must_book(), "culture", raw, by_of(request, fields), known=desk.known)
    return page(request, "kept.html", here="cultures", view=view, back="/cultures", again="")


def _shown(desk: Desk) -> dict[str, Any]:
    plan, situation = desk.plan(), desk.state.must()[1]
    lot = plan.bran[0] if plan.bran else None
    view = _making(desk)
    speech = desk.speech
    return {
        "heading": _heading(desk),
        "stocks": [("bran", speech.kg(situation.bran_kg)), ("serum", speech.litres(situation.serum_l))],
        "lots": plan.bran,
        "lot": lot,
        "making": view,
        "wide": _chain(view, desk, WIDE_PX, "wide"),
        "tall": _chain(view, desk, TALL_PX, "tall"),
        "rows": chain_table(view.chain, speech) if view else (),
        "steps": [(each, STEP_WORDS[each]) for each in STEPS],
    }


def _heading(desk: Desk) -> str:
    """Return until when the bran lasts: until the next lot is wanted, or for the whole of the year."""
    if desk.state.must()[1].bran_kg <= 0.0:
        return "There is no bran"
    lots = desk.plan().bran
    return (
        f"Enough bran until {when(lots[0].usable_on)}, if the next is begun in time"
        if lots
        else "Enough bran for the year"
    )


def _making(desk: Desk) -> CultureView | None:
    """Return the next making of bran: what the plan wants by the day it wants it."""
    plan = desk.plan()
    lot = next((each for each in plan.bran if not each.bought_kg), None)
    kg = lot.bran_kg if lot else DEFAULT_KG
    by = lot.usable_on if lot and lot.usable_on > desk.day else None
    try:
        return work_culture(AskedCulture(bran=f"{kg:.2f} kg", by=by, today=desk.day), today=desk.day)
    except BadInput:
        return None


def _chain(view: CultureView | None, desk: Desk, width_px: float, key: str) -> str:
    if view is None or not view.chain:
        return ""
    return chain(view.chain, desk.speech, width_px=width_px, layer_m=view.layer_m, key=f"chain-{key}", title=view.says)
