"""One vessel: cut open with its layers, its dates, what was written of it, and all that can be done with it."""

from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from sourloam.draw.kept_fan import kept_fan
from sourloam.draw.shelf_words import dated
from sourloam.draw.standing import cut_open, layer_rows
from sourloam.plan.shelf import OnShelf
from sourloam.service.desk import Desk
from sourloam.views.shelf import ShelfView
from sourloam.views.vessel import ForecastView, forecast_view
from sourloam.web.furniture import desk_of, page
from sourloam.web.shelved import vessel_of

TALL_PX, WIDE_PX = 300.0, 430.0  # how high the body is drawn
FANS: Final = (("wide", 480.0, 220.0), ("tall", 354.0, 190.0))
PHONE_SAYS, TABLE_SAYS = 3, 14  # layers that get words
ACTS: Final = {
    "filling": (("layer", "Add a layer"), ("seal", "Seal it"), ("draw", "Draw off"), ("reading", "Write a reading")),
    "fermenting": (
        ("reading", "Write a reading"),
        ("draw", "Draw off"),
        ("open", "Look into it"),
        ("place", "Place it"),
    ),
    "ready": (("place", "Place it"), ("reading", "Write a reading"), ("draw", "Draw off")),
    "empty": (("layer", "Start filling"), ("wash", "Write that it was washed")),
}
SELDOM: Final = {
    "filling": (("move", "Move it"), ("failed", "Write that it failed")),
    "fermenting": (("unseal", "Open it to fill it further"), ("move", "Move it"), ("failed", "Write that it failed")),
    "ready": (("move", "Move it"), ("failed", "Write that it failed")),
    "empty": (("move", "Move it"), ("damage", "Write that it is damaged")),
}


def show(request: Request) -> Response:
    """Show the page."""
    desk = desk_of(request)
    view = desk.shelf()
    vessel = vessel_of(request, view)
    stand = next(each for each in desk.today().vessels if each.vessel == vessel.vessel)
    name = view.names[vessel.vessel]
    on, between = dated(vessel, view)
    return page(
        request,
        "vessel.html",
        here="shelf",
        id=vessel.vessel,
        name=name,
        stand=stand,
        on=on,
        between=between,
        vessel=vessel,
        facts=tuple(_facts(vessel, view)),
        wide=_cut(vessel, view, WIDE_PX, key="wide", most=TABLE_SAYS),
        tall=_cut(vessel, view, TALL_PX, key="tall", most=PHONE_SAYS),
        rows=layer_rows(vessel, view.speech),
        acts=ACTS[vessel.phase],
        seldom=SELDOM[vessel.phase],
        forecast=_forecast(desk, vessel),
        lines=tuple(each for each in reversed(desk.lines()) if vessel.vessel in each.about),
    )


def _forecast(desk: Desk, vessel: OnShelf) -> tuple[ForecastView, str, str] | None:
    """Return the last forecast of what is in a vessel with its fan, as it is kept: a page computes none."""
    kept = desk.forecasts().get(vessel.batch)
    if kept is None:
        return None
    record = desk.state.batch(desk.state.vessel(vessel.vessel))
    view = forecast_view(kept, record.began_on, desk.day, desk.now if desk.on is None else kept.made)
    drawn = (kept_fan(view.fan, width_px=width, high_px=high, key=f"fan-{key}") for key, width, high in FANS)
    return view, *drawn  # type: ignore[return-value]


def _cut(vessel: OnShelf, view: ShelfView, high_px: float, *, key: str, most: int) -> str:
    says = f"{view.names[vessel.vessel]}, {vessel.phase}, {len(vessel.layers)} layers"
    return cut_open(
        vessel,
        px_per_m=high_px / vessel.height_m,
        speech=view.speech,
        most=most,
        key=key,
        says=says,
        ph=view.ph.get(vessel.vessel, ()),
    )


def _facts(vessel: OnShelf, view: ShelfView) -> list[tuple[str, str]]:
    speech = view.speech
    rooms = {"indoors": "indoors", "shed": "in the shed", "outdoors": "outdoors", "cellar": "in the cellar"}
    facts = [
        ("It holds", speech.kg(vessel.mass_kg) if vessel.mass_kg else "nothing"),
        (
            "Its size",
            f"{speech.size(vessel.volume_l)}, full at {speech.size(vessel.fill_limit_frac * vessel.volume_l)}",
        ),
        ("It stands", rooms.get(vessel.stands, f"in the {vessel.stands}")),
    ]
    if vessel.liquid_l > 0.0:
        facts.append(("Liquid below", speech.litres(vessel.liquid_l)))
    return facts
