"""What each entry about a vessel does to the state, or why it cannot have happened."""

from dataclasses import replace
from datetime import date
from typing import Final

from sourloam.logbook.entries import (
    DrawOff,
    Failed,
    Joined,
    LayerAdded,
    Moved,
    Opened,
    Placed,
    Reading,
    Remedy,
    Sealed,
    Unsealed,
    VesselKept,
)
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import BatchRecord, Impossible, Knows, Laid, State
from sourloam.logbook.stocks import BRAN, changed
from sourloam.science.vessel.contents import Contents
from sourloam.site.situation import VesselState

WHOLE: Final = 0.999  # of what is in it: the scale of a kitchen tells no closer
UNKNOWN: Final = "mixed-household-scraps"  # what a vessel of unknown history is taken to hold
SEALED: Final = ("fermenting", "ready")


def layer_added(state: State, entry: Entry, value: LayerAdded, knows: Knows) -> State:
    """Put a layer into a vessel that is empty or being filled."""
    vessel = state.vessel(value.vessel)
    if vessel.phase in SEALED:
        raise Impossible(f"{_name(state, vessel)} is sealed{_since(vessel)};", _other_vessel(state, vessel))
    if value.vessel in state.damaged:
        remedy = f'if it holds again, write "{value.vessel} mended" first.'
        raise Impossible(f"{_name(state, vessel)} is written down as damaged;", remedy)
    layer = layer_of(value, knows)
    begins = vessel.phase == "empty"
    if begins:
        vessel = vessel._replace(
            phase="filling", fillings=vessel.fillings + 1, first_layer_on=entry.on, is_weighed=True
        )
    record = state.batch(vessel)
    record = replace(
        record,
        layers=record.layers + 1,
        scraps_kg=record.scraps_kg + layer.scraps_kg,
        bran_kg=record.bran_kg + layer.bran_kg,
        laid=(*record.laid, Laid(entry.on, value.parts, value.bran_kg)),
    )
    filled = vessel._replace(contents=vessel.contents.plus(layer))
    return changed(state.with_vessel(filled, record), BRAN, -value.bran_kg)


def layer_of(value: LayerAdded, knows: Knows) -> Contents:
    """Return a layer as amounts that add up."""
    whole = knows.bran_per_kg.times(value.bran_kg)
    for name, mass in value.parts:
        if name not in knows.per_kg:
            raise Impossible(f'"{name}" is not a known material;', 'see "sourloam materials".')
        whole = whole.plus(knows.per_kg[name].times(mass))
    return whole


def sealed(state: State, entry: Entry, value: Sealed, _knows: Knows) -> State:
    """Close a vessel that was being filled."""
    vessel = state.vessel(value.vessel)
    if vessel.phase == "empty":
        raise Impossible(f"{_name(state, vessel)} is empty;", "write down first what went in.")
    if vessel.phase in SEALED:
        raise Impossible(f"{_name(state, vessel)} is sealed already{_since(vessel)};", "nothing need be written.")
    closed = vessel._replace(phase="fermenting", sealed_on=entry.on)
    return state.with_vessel(closed, replace(state.batch(vessel), sealed_on=entry.on))


def unsealed(state: State, entry: Entry, value: Unsealed, _knows: Knows) -> State:
    """Open a sealed vessel again to fill it further."""
    vessel = _must_be_sealed(state, value.vessel)
    again = vessel._replace(phase="filling", sealed_on=None, ready_on=None, clock_d=0.0)
    return state.with_vessel(again, replace(state.batch(vessel), sealed_on=None))


def opened(state: State, entry: Entry, value: Opened, _knows: Knows) -> State:
    """Look into a sealed vessel."""
    vessel = _must_be_sealed(state, value.vessel)
    record = state.batch(vessel)
    record = replace(record, opened_on=entry.on, looks=(*record.looks, entry.on))
    if value.found == "ready":
        record = replace(record, ready_on=record.ready_on or entry.on)
        vessel = vessel._replace(phase="ready", ready_on=entry.on)
    if value.found == "not-yet":
        vessel = vessel._replace(phase="fermenting", ready_on=None)
    return state.with_vessel(vessel, record)


def moved(state: State, entry: Entry, value: Moved, _knows: Knows) -> State:
    """Stand a vessel somewhere else."""
    state.vessel(value.vessel)
    site, _ = state.must()
    vessels = tuple(replace(each, stands=value.stands) if each.id == value.vessel else each for each in site.vessels)
    stands = {**state.stands, value.vessel: value.stands}
    return replace(state, site=replace(site, vessels=vessels), stands=stands)


def joined(state: State, entry: Entry, value: Joined, _knows: Knows) -> State:
    """Put what is in one vessel into another."""
    one, into = state.vessel(value.vessel), state.vessel(value.into)
    if one.vessel == into.vessel:
        raise Impossible(f"{_name(state, one)} cannot be joined with itself;", "name the other vessel.")
    for each in (one, into):
        if each.phase == "empty":
            raise Impossible(f"{_name(state, each)} is empty;", "two vessels in use can be joined.")
    mine, theirs = state.batch(one), state.batch(into)
    both = into._replace(
        contents=into.contents.plus(one.contents),
        lost_kg=into.lost_kg + one.lost_kg,
        first_layer_on=min(filter(None, (one.first_layer_on, into.first_layer_on)), default=None),
    )
    record = replace(
        theirs,
        layers=theirs.layers + mine.layers,
        scraps_kg=theirs.scraps_kg + mine.scraps_kg,
        bran_kg=theirs.bran_kg + mine.bran_kg,
        drawn_l=theirs.drawn_l + mine.drawn_l,
        laid=tuple(sorted((*theirs.laid, *mine.laid), key=lambda each: each.on)),
        draws=tuple(sorted((*theirs.draws, *mine.draws))),
        first_layer_on=both.first_layer_on or theirs.first_layer_on,
    )
    rest = {each: held for each, held in state.batches.items() if each != mine.id}
    return replace(state, batches=rest).with_vessel(one.emptied()).with_vessel(both, record)


def draw_off(state: State, entry: Entry, value: DrawOff, _knows: Knows) -> State:
    """Draw the liquid off."""
    vessel = _must_be_in_use(state, value.vessel)
    if value.litres_l > vessel.mass_kg:
        found = f"{value.litres_l:.3g} L cannot have come from {_name(state, vessel)}: it held {vessel.mass_kg:.3g} kg."
        raise Impossible(found, "Write what ran off, in ml or L.")
    record = state.batch(vessel)
    drawn = vessel._replace(lost_kg=vessel.lost_kg + value.litres_l, drawn_on=entry.on)
    return state.with_vessel(drawn, _drawn(record, entry, value.litres_l))


def _drawn(record: BatchRecord, entry: Entry, litres_l: float) -> BatchRecord:
    return replace(record, drawn_l=record.drawn_l + litres_l, draws=(*record.draws, (entry.on, litres_l)))


def read(state: State, entry: Entry, value: Reading, _knows: Knows) -> State:
    """Write down what was observed."""
    _, situation = state.must()
    if any(each.place == value.subject for each in situation.places):
        return replace(state, works=(*state.works, entry))
    vessel = _must_be_in_use(state, value.subject)
    record = state.batch(vessel)
    return state.with_vessel(vessel, replace(record, readings=(*record.readings, entry)))


def placed(state: State, entry: Entry, value: Placed, knows: Knows) -> State:
    """Move a batch, or a part of it, to a place."""
    vessel, place = state.vessel(value.vessel), state.place(value.place)
    if vessel.phase == "empty":
        raise Impossible(f"{_name(state, vessel)} is empty{_went(state, vessel)};", "name the vessel that was emptied.")
    if vessel.phase == "filling" and not state.batch(vessel).failed:
        remedy = f'write "{value.vessel} sealed" first, or "{value.vessel} failed putrid" if it spoiled.'
        raise Impossible(f"{_name(state, vessel)} is still being filled;", remedy)
    held = vessel.mass_kg
    mass = held if value.mass_kg is None else value.mass_kg
    if mass > held * 1.001:
        found = f"{mass:.3g} kg cannot have come from {_name(state, vessel)}: it holds {held:.3g} kg."
        raise Impossible(found, "Leave the mass out if all of it went.")
    site, situation = state.must()
    given = knows.give(site, vessel, place, min(mass, held), on=entry.on)
    record = state.batch(vessel)
    is_whole = mass >= WHOLE * held
    record = replace(
        record,
        placings=(*record.placings, (value.place, entry.on, mass)),
        ended_on=entry.on if is_whole else None,
    )
    left = vessel.emptied() if is_whole else _less(vessel, 1.0 - mass / held)
    return replace(state, situation=situation.with_place(given)).with_vessel(left, record)


def failed(state: State, entry: Entry, value: Failed, _knows: Knows) -> State:
    """Write down that a batch spoiled."""
    vessel = _must_be_in_use(state, value.vessel)
    return state.with_vessel(vessel, replace(state.batch(vessel), failed=value.how, failed_on=entry.on))


def remedied(state: State, entry: Entry, value: Remedy, knows: Knows) -> State:
    """Write down what was done to help a batch; bran that went in is taken from the bag."""
    vessel = _must_be_in_use(state, value.vessel)
    record = state.batch(vessel)
    laid = (*record.laid, Laid(entry.on, (), value.bran_kg)) if value.bran_kg else record.laid
    remedies = (*record.remedies, value.what)
    record = replace(record, remedies=remedies, bran_kg=record.bran_kg + value.bran_kg, laid=laid)
    helped = vessel._replace(contents=vessel.contents.plus(knows.bran_per_kg.times(value.bran_kg)))
    return changed(state.with_vessel(helped, record), BRAN, -value.bran_kg)


def kept(state: State, entry: Entry, value: VesselKept, knows: Knows) -> State:
    """Write down what became of a vessel itself."""
    vessel = state.vessel(value.vessel)
    if value.act == "washed" and vessel.phase != "empty":
        remedy = f'write first where it went, for example "{value.vessel} placed in PLACE".'
        raise Impossible(f"{_name(state, vessel)} was washed, and by the record it is not empty;", remedy)
    if value.act == "taken-in" and value.mass_kg:
        return _taken_in(state, vessel, value.mass_kg, knows, on=entry.on)
    if value.act == "damaged":
        return replace(state, damaged=state.damaged | {value.vessel})
    return replace(state, damaged=state.damaged - {value.vessel})


def _taken_in(state: State, vessel: VesselState, mass_kg: float, knows: Knows, *, on: date) -> State:
    """Take in a vessel that somebody else filled: of what, and when it was sealed, nobody knows."""
    if vessel.phase != "empty":
        found = f"{_name(state, vessel)} is in use;"
        raise Impossible(found, "name an empty vessel of the site, or write first where it went.")
    contents = knows.per_kg[UNKNOWN].times(mass_kg)
    full = vessel._replace(
        phase="fermenting",
        fillings=vessel.fillings + 1,
        contents=contents,
        first_layer_on=on,
        sealed_on=on,
    )
    record = replace(state.batch(full), scraps_kg=mass_kg, laid=(Laid(on, ((UNKNOWN, mass_kg),)),))
    return state.with_vessel(full, record)


def _must_be_in_use(state: State, id_: str) -> VesselState:
    vessel = state.vessel(id_)
    if vessel.phase == "empty":
        raise Impossible(f"{_name(state, vessel)} is empty{_went(state, vessel)};", _in_use(state))
    return vessel


def _must_be_sealed(state: State, id_: str) -> VesselState:
    vessel = _must_be_in_use(state, id_)
    if vessel.phase == "filling":
        raise Impossible(f"{_name(state, vessel)} is not sealed;", f'if it is by now, write "{id_} sealed" first.')
    return vessel


def _less(vessel: VesselState, share: float) -> VesselState:
    return vessel._replace(contents=vessel.contents.times(share), lost_kg=vessel.lost_kg * share)


def _name(state: State, vessel: VesselState) -> str:
    return state.must()[0].name_of(vessel.vessel)


def _since(vessel: VesselState) -> str:
    return f" since {vessel.sealed_on.isoformat()}" if vessel.sealed_on else ""


def _went(state: State, vessel: VesselState) -> str:
    """Say where the last batch of a vessel went."""
    last: BatchRecord | None = state.batches.get(vessel.batch)
    if last is None or not last.placings:
        return ""
    place, on, _ = last.placings[-1]
    return f": {last.id} went to {state.must()[0].name_of(place)} on {on.isoformat()}"


def _other_vessel(state: State, vessel: VesselState) -> str:
    """Offer the vessel that can take a layer, or to open this one."""
    _, situation = state.must()
    filling = [each for each in situation.vessels if each.phase == "filling"]
    empty = [each for each in situation.vessels if each.phase == "empty" and each.vessel not in state.damaged]
    again = f'to fill it further, write "{vessel.vessel} unsealed" first.'
    near = next(iter(filling or empty), None)
    if near is None:
        return again
    return f"{_name(state, near)} {'is being filled' if filling else 'is empty'}; {again}"


def _in_use(state: State) -> str:
    used = [_name(state, each) for each in state.must()[1].vessels if each.phase != "empty"]
    return f"in use: {', '.join(used)}." if used else "no vessel is in use."
