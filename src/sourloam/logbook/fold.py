"""One pure fold over the entries into what is so, as on any date."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from datetime import date
from types import MappingProxyType
from typing import Any, Final

from sourloam.fleet.setting import fitted
from sourloam.logbook import entries as of
from sourloam.logbook import stocks, vessels
from sourloam.logbook.corrections import effective
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import Clash, Impossible, Knows, State

EMPTY: Final = State()


def site_set(state: State, entry: Entry, value: of.SiteSet, knows: Knows) -> State:
    """Begin with a site, or go on with a changed one."""
    site = knows.site_of(value.text)
    if state.situation is None:
        return replace(state, site=site, situation=knows.begin(site), text=value.text, stands={})
    own = {each.id for each in site.vessels}
    lost = [each.vessel for each in state.situation.vessels if each.phase != "empty" and each.vessel not in own]
    if lost:
        remedy = "write down first where it went, or leave it in the site file."
        raise Impossible(f"{', '.join(lost)} is in use and not in the new site file;", remedy)
    return replace(state, site=site, situation=fitted(state.situation, site), text=value.text, stands={})


def noted(state: State, _entry: Entry, _value: of.Note, _knows: Knows) -> State:
    """Keep words; nothing follows from them."""
    return state


Step = Callable[[State, Entry, Any, Knows], State]
STEPS: Final[Mapping[type[Any], Step]] = MappingProxyType(
    {
        of.SiteSet: site_set,
        of.LayerAdded: vessels.layer_added,
        of.Sealed: vessels.sealed,
        of.Unsealed: vessels.unsealed,
        of.Opened: vessels.opened,
        of.Moved: vessels.moved,
        of.Joined: vessels.joined,
        of.DrawOff: vessels.draw_off,
        of.Reading: vessels.read,
        of.Placed: vessels.placed,
        of.Failed: vessels.failed,
        of.Remedy: vessels.remedied,
        of.Culture: stocks.cultured,
        of.Stocked: stocks.stocked,
        of.Worked: stocks.worked,
        of.VesselKept: vessels.kept,
        of.TaskKept: stocks.task_kept,
        of.Note: noted,
    }
)


def fold(entries: Iterable[Entry], knows: Knows, *, until: date | None = None) -> State:
    """Return what is so after all entries, or at the end of the day `until`; the order in which they come is nothing.

    An entry that cannot have happened as the others stand counts for nothing and is told of in `clashes`.
    """
    state = EMPTY
    for entry in sorted(effective(entries), key=lambda each: each.at):
        if until is not None and entry.on > until:
            break
        state = counted(state, entry, knows)
    return state


def counted(state: State, entry: Entry, knows: Knows) -> State:
    """Return the state after one entry more."""
    try:
        after = step(state, entry, knows)
    except Impossible as no:
        after = replace(state, clashes=(*state.clashes, Clash(entry, no.found, no.remedy)))
    return replace(after, counted=state.counted + 1, last=entry)


def step(state: State, entry: Entry, knows: Knows) -> State:
    """Return what is so after one entry.

    Raises
    ------
    Impossible
        If it cannot have happened.
    """
    after = STEPS[type(entry.value)](state, entry, entry.value, knows)
    if after.situation is not None and after.situation.on < entry.on:
        after = replace(after, situation=after.situation._replace(on=entry.on))
    return after
