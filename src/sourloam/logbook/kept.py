"""What is so as plain values, in parts that change seldom, and back: what the store keeps beside the lines.

Nothing is lost on the way: the state that comes back equals the one that the fold gives.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, replace
from datetime import date
from typing import Any, Final, NamedTuple

from sourloam.logbook.entry import Entry, entry_of, plain
from sourloam.logbook.state import BatchRecord, Clash, Knows, Laid, State
from sourloam.science.places.offer import PlaceState, Receipt
from sourloam.science.vessel.contents import Contents
from sourloam.site.site import Site
from sourloam.site.situation import Situation, VesselState

RELEASE: Final = 2  # raised when an entry comes to mean something else, or when the form of a part changes
BATCH, PLACE, TASK, WORK, CLASH = "batch", "place", "task", "work", "clash"
SMALL: Final = (PLACE, CLASH)  # the kinds of which an entry at the end needs all
DAYS: Final = tuple(at for at, name in enumerate(VesselState._fields) if name.endswith("_on"))
CONTENTS: Final = VesselState._fields.index("contents")
BATCH_DAYS: Final = ("first_layer_on", "sealed_on", "opened_on", "ended_on", "failed_on", "ready_on")

Part = tuple[str, str]  # kind and id


class Change(NamedTuple):
    """What of the parts is to be written anew, and what is gone; `is_whole` where nothing else may stay."""

    head: Mapping[str, Any]
    parts: Mapping[Part, Any]
    gone: tuple[Part, ...] = ()
    is_whole: bool = False


def head_of(state: State) -> dict[str, Any]:
    """Return what changes with nearly every entry, as plain values."""
    _, situation = state.must()
    return {
        "text": state.text,
        "stands": dict(state.stands),
        "on": situation.on.isoformat(),
        "vessels": [_vessel(each) for each in situation.vessels],
        "places": [each.place for each in situation.places],
        "waiting": list(situation.waiting),
        "bran_kg": situation.bran_kg,
        "serum_l": situation.serum_l,
        "stocks": dict(state.stocks),
        "damaged": sorted(state.damaged),
        "counted": state.counted,
        "last": plain(state.last) if state.last else None,
    }


def parts_of(state: State) -> dict[Part, Any]:
    """Return everything else, part by part."""
    return {(kind, id_): _part(kind, each) for kind, held in _kinds(state) for id_, each in _named(kind, held).items()}


def whole(state: State) -> Change:
    """Return all of a state."""
    return Change(head_of(state), parts_of(state), is_whole=True)


def change(before: State, after: State) -> Change:
    """Return what is new in a state; parts that are the same object have not changed."""
    changed: dict[Part, Any] = {}
    gone: list[Part] = []
    for (kind, old), (_, new) in zip(_kinds(before), _kinds(after), strict=True):
        if old is new:
            continue
        was, now = _named(kind, old), _named(kind, new)
        changed |= {(kind, id_): _part(kind, held) for id_, held in now.items() if was.get(id_) is not held}
        gone += [(kind, id_) for id_ in was if id_ not in now]
    return Change(head_of(after), changed, tuple(gone))


def batches_wanted(head: Mapping[str, Any]) -> tuple[str, ...]:
    """Return the ids of the batches that are in the vessels, or were the last there."""
    return tuple(f"{each[0]}/{each[2]}" for each in head["vessels"])


def state_of_parts(
    head: Mapping[str, Any], parts: Iterable[tuple[str, str, Any]], knows: Knows, *, is_whole: bool
) -> State:
    """Return the state that a head and its parts stand for."""
    held: dict[str, dict[str, Any]] = {each: {} for each in (BATCH, PLACE, TASK, WORK, CLASH)}
    for kind, id_, value in parts:
        held[kind][id_] = value
    text, stands = head["text"], head["stands"]
    site = knows.site_of(text)
    works = sorted((entry_of(each) for each in held[WORK].values()), key=lambda each: each.at)
    clashes = sorted((_clash_back(each) for each in held[CLASH].values()), key=lambda each: each.entry.at)
    return State(
        site=standing(site, stands),
        situation=Situation(
            date.fromisoformat(head["on"]),
            tuple(_vessel_back(each) for each in head["vessels"]),
            tuple(_place_back(each, held[PLACE][each]) for each in head["places"]),
            Contents(*head["waiting"]),
            head["bran_kg"],
            head["serum_l"],
        ),
        batches={id_: _batch_back(each) for id_, each in held[BATCH].items()},
        stocks=head["stocks"],
        tasks={id_: entry_of(each) for id_, each in held[TASK].items()},
        works=tuple(works),
        damaged=frozenset(head["damaged"]),
        clashes=tuple(clashes),
        counted=head["counted"],
        last=entry_of(head["last"]) if head["last"] else None,
        text=text,
        stands=stands,
        is_whole=is_whole,
    )


def standing(site: Site, stands: Mapping[str, str]) -> Site:
    """Return a site with the vessels that were moved standing where they do."""
    if not stands:
        return site
    moved = (replace(each, stands=stands.get(each.id, each.stands)) for each in site.vessels)
    return replace(site, vessels=tuple(moved))


def _kinds(state: State) -> Iterator[tuple[str, Any]]:
    """Give each kind of part, and all of it as the state holds it."""
    yield BATCH, state.batches
    yield PLACE, state.must()[1].places
    yield TASK, state.tasks
    yield WORK, state.works
    yield CLASH, state.clashes


def _named(kind: str, held: Any) -> Mapping[str, Any]:  # noqa: ANN401 - whatever a state holds
    """Return the parts of a kind by their ids."""
    if kind == PLACE:
        return {each.place: each for each in held}
    if kind == WORK:
        return {str(each.sequence): each for each in held}
    if kind == CLASH:
        return {str(each.entry.sequence): each for each in held}
    named: Mapping[str, Any] = held
    return named


def _part(kind: str, held: Any) -> Any:  # noqa: ANN401 - whatever a part holds
    if kind == BATCH:
        return _batch(held)
    if kind == PLACE:
        return [_receipt(each) for each in held.receipts]
    if kind == CLASH:
        return [plain(held.entry), held.found, held.remedy]
    entry: Entry = held
    return plain(entry)


def _vessel(state: VesselState) -> list[Any]:
    row: list[Any] = list(state)
    row[CONTENTS] = list(state.contents)
    for at in DAYS:
        row[at] = row[at].isoformat() if row[at] else None
    return row


def _vessel_back(row: list[Any]) -> VesselState:
    values = list(row)
    values[CONTENTS] = Contents(*values[CONTENTS])
    for at in DAYS:
        values[at] = date.fromisoformat(values[at]) if values[at] else None
    return VesselState(*values)


def _receipt(each: Receipt) -> list[Any]:
    on, usable_on = each.on.isoformat(), each.usable_on.isoformat()
    return [on, each.batch, each.mass_kg, each.volume_l, each.nitrogen_g, usable_on, each.added_l]


def _receipt_back(row: list[Any]) -> Receipt:
    on, batch, mass_kg, volume_l, nitrogen_g, usable_on, added_l = row
    day = date.fromisoformat
    return Receipt(day(on), batch, mass_kg, volume_l, nitrogen_g, day(usable_on), added_l)


def _place_back(id_: str, rows: list[list[Any]]) -> PlaceState:
    return PlaceState(id_, tuple(_receipt_back(row) for row in rows))


def _batch(record: BatchRecord) -> dict[str, Any]:
    held = {each.name: getattr(record, each.name) for each in fields(record)}
    for name in BATCH_DAYS:
        held[name] = held[name].isoformat() if held[name] else None
    held["placings"] = [[place, on.isoformat(), kg] for place, on, kg in record.placings]
    held["readings"] = [plain(each) for each in record.readings]
    held["laid"] = [[each.on.isoformat(), each.parts, each.bran_kg] for each in record.laid]
    held["draws"] = [[on.isoformat(), litres] for on, litres in record.draws]
    held["looks"] = [each.isoformat() for each in record.looks]
    held["remedies"] = list(record.remedies)
    return held


def batch_plain(record: BatchRecord) -> dict[str, Any]:
    """Return all that is known of a batch as plain values."""
    return _batch(record)


def _batch_back(plain_: Mapping[str, Any]) -> BatchRecord:
    held = dict(plain_)
    for name in BATCH_DAYS:
        held[name] = date.fromisoformat(held[name]) if held[name] else None
    held["placings"] = tuple((place, date.fromisoformat(on), kg) for place, on, kg in held["placings"])
    held["readings"] = tuple(entry_of(each) for each in held["readings"])
    held["laid"] = tuple(_laid_back(*each) for each in held["laid"])
    held["draws"] = tuple((date.fromisoformat(on), litres) for on, litres in held["draws"])
    held["looks"] = tuple(date.fromisoformat(each) for each in held["looks"])
    held["remedies"] = tuple(held["remedies"])
    return BatchRecord(**held)


def _laid_back(on: str, parts: list[list[Any]], bran_kg: float) -> Laid:
    return Laid(date.fromisoformat(on), tuple((str(name), float(mass)) for name, mass in parts), bran_kg)


def _clash_back(row: list[Any]) -> Clash:
    return Clash(entry_of(row[0]), row[1], row[2])
