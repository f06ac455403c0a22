"""Use case: where what is in a vessel of the logbook could go today, side by side, without following it anew."""

from datetime import date
from pathlib import Path
from typing import Final

from sourloam.science.batch.product import Soundness
from sourloam.service.bed import AskedBed
from sourloam.service.desk import Desk
from sourloam.service.named import Named
from sourloam.service.place import AskedPlace, sort_batch
from sourloam.service.product import LEAST_KG, AskedProduct
from sourloam.service.tub import AskedTub
from sourloam.sitefile.read import SiteFile
from sourloam.views.fates import FatesView
from sourloam.views.forecast import KeptForecast

MEMBERS: Final = 200


def fates_of(desk: Desk, vessel: str) -> FatesView | None:
    """Return all fates of what is in a vessel: so much of a usual batch, as far as its kept forecast says it is.

    Nothing where the vessel holds nothing that could go anywhere.
    """
    state = desk.state
    held = state.vessel(vessel)
    if held.phase == "empty" or held.mass_kg < LEAST_KG:
        return None
    record = state.batch(held)
    sound = _soundness(record.failed, held.phase, desk.forecasts().get(held.batch), desk.day)
    product = AskedProduct(
        today=desk.day,
        product=f"{held.mass_kg:.3f} kg",
        state=sound,
        animal=held.contents.animal_kg > 0.0,
        members=MEMBERS,
        named=Named(SiteFile(desk.site, ()), Path(), state),
    )
    return sort_batch(AskedPlace(product, AskedBed(product), AskedTub(product)))


def _soundness(failed: str, phase: str, kept: KeptForecast | None, on: date) -> Soundness:
    if failed:
        return "failed"
    if phase == "filling":
        return "unfinished"
    if kept is None:
        return "ready" if phase == "ready" else "unknown"
    due = kept.due.middle
    return "ready" if due is not None and due <= on else "unfinished"
