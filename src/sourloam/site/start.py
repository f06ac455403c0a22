"""The situation on the first day, from what the site file says."""

from datetime import date, timedelta

from sourloam.science.vessel.contents import Contents
from sourloam.site.site import PLACES, Site
from sourloam.site.situation import Situation, VesselState
from sourloam.site.vessels import Vessel

DAYS_FILLING = 7  # how long ago the first layer went in, where the file does not say


def at_start(site: Site, usual: Contents) -> Situation:
    """Return the situation on the first day.

    `usual` is a kilogram of the scraps that usually come: a vessel that is
    partly full on the first day is taken to hold those.
    """
    return Situation(
        on=site.facts.start,
        vessels=tuple(_vessel(each, site.facts.start, usual) for each in site.vessels),
        places=tuple(each.at_start(site.facts.start) for table in PLACES for each in site.parts()[table]),
        bran_kg=site.stock.bran_kg,
        serum_l=site.stock.serum_l,
    )


def _vessel(vessel: Vessel, start: date, usual: Contents) -> VesselState:
    if vessel.state == "empty":
        return VesselState(vessel.id)
    since = vessel.since or start - timedelta(days=DAYS_FILLING if vessel.state == "filling" else 0)
    filled = vessel.filled_frac if vessel.state == "filling" else 1.0
    held = usual.times(vessel.usable_l * filled / usual.pressed_l)
    sealed = None if vessel.state == "filling" else since
    return VesselState(
        vessel.id,
        vessel.state,  # type: ignore[arg-type]
        fillings=1,
        contents=held,
        first_layer_on=since if vessel.state == "filling" else since - timedelta(days=DAYS_FILLING),
        sealed_on=sealed,
        ready_on=start if vessel.state == "ready" else None,
    )
