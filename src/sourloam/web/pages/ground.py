"""Ground: every place as it stands, its rest counted down; where a finished batch could go."""

from starlette.requests import Request
from starlette.responses import Response

from sourloam.draw.ground import WIDE_M, bed_from_above
from sourloam.views.ground import GroundView, PlaceStand, ground_view
from sourloam.web.furniture import desk_of, page

PHONE, TABLE = (34.0, 354.0), (46.0, 620.0)  # pixels of a metre, width
LEAST_PX_PER_M = 8.0


def show(request: Request) -> Response:
    """Show the page."""
    desk = desk_of(request)
    plan = desk.plan()
    view = ground_view(desk.state, plan.ground, (*plan.frozen, *plan.closed), desk.day)
    ready = [each for each in desk.shelf().shelf.vessels if each.phase in ("ready", "fermenting")]
    return page(
        request,
        "ground.html",
        here="ground",
        view=view,
        drawn={each.id: _drawn(each, view) for each in view.places if each.kind == "bed"},
        batches=[(each.vessel, desk.site.name_of(each.vessel), each.phase) for each in ready],
    )


def _drawn(place: PlaceStand, view: GroundView) -> tuple[str, str]:
    """Return a bed for a phone and for a table; all beds of the page to one scale."""
    longest_m = max((each.area_m2 or 0.0) / WIDE_M for each in view.places if each.kind == "bed")
    return tuple(
        bed_from_above(
            place,
            px_per_m=max(min(px, (width - 12.0) / longest_m), LEAST_PX_PER_M),
            width_px=width,
            speech=view.speech,
            key=f"{key}-{place.id}",
        )
        for key, (px, width) in (("tall", PHONE), ("wide", TABLE))
    )  # type: ignore[return-value]
