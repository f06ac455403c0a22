"""Use case: the shelf as the record has it, each vessel with its layers as high as they have settled."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Final

from sourloam.fleet.life import Load
from sourloam.logbook.corrections import effective
from sourloam.logbook.entries import LayerAdded
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import Impossible, State
from sourloam.logbook.vessels import layer_of
from sourloam.plan.answer import Batch
from sourloam.plan.shelf import OnShelf, Shelf, on_shelf, settled
from sourloam.plan.words import Speech
from sourloam.service.book import Known
from sourloam.site.situation import VesselState
from sourloam.views.forecast import KeptForecast
from sourloam.views.shelf import ShelfView

LEAST_KG: Final = 0.001  # less is no layer: what rounding leaves


def shelf_of(
    state: State,
    history: Sequence[Entry],
    known: Known,
    planned: tuple[Batch, ...],
    *,
    on: date,
    forecasts: Mapping[str, KeptForecast],
) -> ShelfView:
    """Return all vessels of a site on a day, cut open, their layers as sour as the kept forecasts have them."""
    site, situation = state.must()
    added = tuple(each for each in effective(history) if isinstance(each.value, LayerAdded) and each.on <= on)
    shown = tuple(_shown(state, each, added, known, on=on) for each in situation.vessels)
    names = {each.id: site.name_of(each.id) for each in site.vessels}
    ph = {each.vessel: _ph(each, state, forecasts[each.batch]) for each in shown if each.batch in forecasts}
    return ShelfView(Shelf(on, shown), names, planned, Speech(site.keeper.units), ph)


def _ph(vessel: OnShelf, state: State, kept: KeptForecast) -> tuple[float | None, ...]:
    """Return how sour each layer is: those of one day, or of neighbouring days, were followed together."""
    record = state.batch(state.vessel(vessel.vessel))
    first = record.began_on
    return tuple(
        next((ph for day, ph in kept.layers if day >= (each.on - first).days), None) if kept.is_current else None
        for each in vessel.layers
    )


def _shown(state: State, held: VesselState, added: Sequence[Entry], known: Known, *, on: date) -> OnShelf:
    """Return a vessel as it stands; what was in it before the record began lies below as one layer."""
    vessel = next(each for each in state.must()[0].vessels if each.id == held.vessel)
    loads = list(_loads(held, added, known)) if held.phase != "empty" else []
    written = sum((each.contents.mass_kg for each in loads), 0.0)
    if held.phase != "empty" and held.contents.mass_kg > written + LEAST_KG:
        rest = held.contents
        for each in loads:
            rest = rest.plus(each.contents.times(-1.0))
        loads.insert(0, Load(held.batch, held.first_layer_on or on, rest, 0.0))
    left = min(held.contents.mass_kg / written, 1.0) if written else 1.0  # after a part of it went to a place
    ratio = known.knowledge.vessel.height_to_width.value
    return on_shelf(vessel, held, settled(loads, known.numbers, on=on, left_frac=left), height_to_width=ratio)


def _loads(held: VesselState, added: Sequence[Entry], known: Known) -> Iterator[Load]:
    """Give the layers that were written down of the batch in a vessel."""
    for each in added:
        if getattr(each.value, "vessel", "") != held.vessel or each.on < (held.first_layer_on or each.on):
            continue
        try:
            yield Load(held.batch, each.on, layer_of(each.value, known.knows), 0.0)  # type: ignore[arg-type]
        except Impossible:
            continue  # of a material that the site no longer knows: it lies in the rest
