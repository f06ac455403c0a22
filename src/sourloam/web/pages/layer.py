"""A layer in three taps: what, how much, keep. The bran for it is told as soon as both are chosen."""

from collections.abc import Mapping

from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput
from sourloam.logbook.entries import LayerAdded
from sourloam.plan.words import enumerated
from sourloam.service.desk import Desk
from sourloam.service.layer import layer_of_choice, layer_offer
from sourloam.service.record import log_phrase, log_value
from sourloam.views.logbook import RecordView
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import desk_of, page
from sourloam.web.shelved import vessel_of


def ask(request: Request) -> Response:
    """Show what can be chosen."""
    return _form(request, {}, ())


def dose(request: Request) -> Response:
    """Return the bran for what is chosen so far, as a piece of the page."""
    desk, query = desk_of(request), request.query_params
    vessel = vessel_of(request, desk.shelf()).vessel
    try:
        layer = _layer(desk, vessel, query)
    except BadInput as bad:
        return page(request, "dose.html", said="", why=" ".join(each.found for each in bad.problems))
    return page(request, "dose.html", said=desk.speech.kg(layer.bran_kg), why=_weighs(desk, layer))


@taking
def keep(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep the layer, and say what was kept."""
    desk = desk_of(request)
    vessel = vessel_of(request, desk.shelf()).vessel
    try:
        view = _kept(request, vessel, fields)
    except BadInput as bad:
        return _form(request, fields, tuple(bad.problems))
    return page(request, "kept.html", here="shelf", view=view, back=f"/shelf/{vessel}", again=f"/shelf/{vessel}/layer")


def _kept(request: Request, vessel: str, fields: Mapping[str, str]) -> RecordView:
    desk = desk_of(request)
    by = by_of(request, fields)
    typed = fields.get("phrase", "").strip()
    if typed:
        return log_phrase(desk.must_book(), f"{desk.site.name_of(vessel)} {typed}", by, known=desk.known)
    return log_value(desk.must_book(), _layer(desk, vessel, fields), by, known=desk.known)


def _layer(desk: Desk, vessel: str, fields: Mapping[str, str]) -> LayerAdded:
    return layer_of_choice(
        desk.state,
        desk.known,
        vessel,
        kind=fields.get("kind", ""),
        amount=fields.get("other", "").strip() or fields.get("amount", ""),
        bran=fields.get("bran", ""),
    )


def _form(request: Request, fields: Mapping[str, str], problems: tuple[object, ...]) -> Response:
    desk = desk_of(request)
    vessel = vessel_of(request, desk.shelf()).vessel
    offer = layer_offer(desk.state, desk.entries, desk.known, vessel)
    status = 422 if problems else 200
    return page(request, "layer.html", here="shelf", status=status, offer=offer, fields=fields, problems=problems)


def _weighs(desk: Desk, layer: LayerAdded) -> str:
    parts = enumerated([f"{desk.speech.kg(mass)} {name.replace('-', ' ')}" for name, mass in layer.parts])
    return f"for {parts}"
