"""Which vessel an address names."""

from starlette.exceptions import HTTPException
from starlette.requests import Request

from sourloam.plan.shelf import OnShelf
from sourloam.views.shelf import ShelfView


def vessel_of(request: Request, view: ShelfView) -> OnShelf:
    """Return the vessel that an address names."""
    id_ = request.path_params["vessel"]
    found = next((each for each in view.shelf.vessels if each.vessel == id_), None)
    if found is None:
        raise HTTPException(404)
    return found
