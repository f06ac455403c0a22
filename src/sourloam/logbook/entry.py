"""An entry: what happened, when, who wrote it down and how; and its plain form, which the store keeps as text."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from datetime import date, datetime
from functools import lru_cache
from typing import Any, Final

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Asking, Fault, Key, declared
from sourloam.base.kinds import Amount, Day, Text
from sourloam.base.quantity import read_quantity
from sourloam.logbook.entries import KINDS, NAMES, OLDER, Corrected, Value
from sourloam.logbook.kinds import PART, Parts

LONGEST_TYPED: Final = 400


@dataclass(frozen=True)
class Entry:
    """One line of the logbook."""

    id: str  # given by whoever wrote it: the same id a second time is the same entry
    happened: datetime  # local, with its offset from UTC
    written: datetime  # UTC
    value: Value
    by: str = ""
    face: str = ""  # cli, web, probe ...
    typed: str = ""
    zone: str = "UTC"
    mark: str = ""  # what is doubtful about it
    sequence: int = 0  # its line in the book; given when it is kept

    @property
    def kind(self) -> str:
        """Return the name of its kind."""
        return NAMES[type(self.value)]

    @property
    def on(self) -> date:
        """Return the local day on which it happened."""
        return self.happened.date()

    @property
    def at(self) -> tuple[datetime, int]:
        """Return what entries are ordered by."""
        return self.happened, self.sequence


def plain(entry: Entry) -> dict[str, Any]:
    """Return an entry as plain values, measures in the project's units."""
    return {
        "sequence": entry.sequence,
        "id": entry.id,
        "kind": entry.kind,
        "version": KINDS[entry.kind][1],
        "happened": entry.happened.isoformat(),
        "zone": entry.zone,
        "written": entry.written.isoformat(),
        "by": entry.by,
        "face": entry.face,
        "typed": entry.typed,
        "mark": entry.mark,
        "value": plain_value(entry.value),
    }


def plain_value(value: Value) -> dict[str, Any]:
    """Return what an entry says as plain values; what is at its default is left out."""
    found: dict[str, Any] = {}
    for each in fields(value):
        held = getattr(value, each.name)
        if held == each.default:
            continue
        found[each.name] = _plain(held)
    return found


def _plain(held: Any) -> Any:  # noqa: ANN401 - whatever a field holds
    if isinstance(held, date):
        return held.isoformat()
    if isinstance(held, tuple):
        return [list(each) for each in held]
    return dict(held) if isinstance(held, Mapping) else held


def entry_of(raw: Mapping[str, Any]) -> Entry:
    """Return the entry that plain values stand for, whatever release wrote it.

    Raises
    ------
    BadInput
        If it is of a kind or a version that is not known here.
    """
    kind, version = str(raw.get("kind")), raw.get("version")
    if kind not in KINDS or not isinstance(version, int) or version > KINDS[kind][1]:
        found = f'an entry of kind "{kind}", version {version}, is not known;'
        raise BadInput("logbook", (Problem(f"entry {raw.get('id')}", found, "a newer release wrote it: use that."),))
    held: Mapping[str, Any] = raw["value"]
    for older in range(version, KINDS[kind][1]):
        held = OLDER[kind, older](held)
    return Entry(
        id=raw["id"],
        happened=datetime.fromisoformat(raw["happened"]),
        written=datetime.fromisoformat(raw["written"]),
        value=value_of(kind, held),
        by=raw["by"],
        face=raw["face"],
        typed=raw["typed"],
        zone=raw["zone"],
        mark=raw["mark"],
        sequence=raw["sequence"],
    )


def value_of(kind: str, held: Mapping[str, Any]) -> Value:
    """Return what plain values say, unchecked: what was once kept is read for ever."""
    of = KINDS[kind][0]
    if of is Corrected:
        return Corrected(held["entry"], dict(held["value"]))
    days, pairs = _special(of)  # type: ignore[arg-type]
    given = {
        name: date.fromisoformat(each)
        if name in days and each is not None
        else tuple((str(one), float(two)) for one, two in each)
        if name in pairs
        else each
        for name, each in held.items()
    }
    made: Value = of(**given)
    return made


@lru_cache(maxsize=64)
def _special(of: type[Any]) -> tuple[frozenset[str], frozenset[str]]:
    """Return the attributes of a kind that are dates, and those that are pairs."""
    marks = [(name, key) for name, key in declared(of) if isinstance(key, Key)]
    days = frozenset(name for name, key in marks if isinstance(key.kind, Day))
    return days, frozenset(name for name, key in marks if isinstance(key.kind, Parts))


def check(value: Value) -> None:
    """Hold a new value to its declared fields.

    Raises
    ------
    BadInput
        If it lies outside; all faults are named.
    """
    problems = []
    for name, key in _keys(type(value)):  # type: ignore[arg-type]
        held = getattr(value, name)
        if held is None and not key.is_required:
            continue
        try:
            _check_one(key, held)
        except Fault as fault:
            problems.append(Problem("", f"{key.name} = {fault.found}", fault.remedy))
    if problems:
        raise BadInput(NAMES[type(value)], tuple(problems))


@lru_cache(maxsize=64)
def _keys(of: type[Any]) -> tuple[tuple[str, Key], ...]:
    """Return the attributes of a kind that are declared, each with its key."""
    return tuple((name, key) for name, key in declared(of) if isinstance(key, Key))


def _check_one(key: Key, held: Any) -> None:  # noqa: ANN401 - whatever a field holds
    kind = key.kind
    if isinstance(kind, Amount):
        _within(kind, held)
    elif isinstance(kind, Parts):
        for _, mass in held:
            _within(PART, mass)
    elif isinstance(kind, Text) and len(held) > kind.longest:
        raise Fault(f"{len(held)} characters are too long;", f"{kind.longest} will do.")
    elif not isinstance(kind, Text):
        kind.read(held, Asking())


@lru_cache(maxsize=64)
def _bounds(kind: Amount) -> tuple[float, float]:
    """Return the limits of an amount, in the project's unit."""
    return read_quantity(kind.low, kind.dimension).value, read_quantity(kind.high, kind.dimension).value


def _within(kind: Amount, held: float) -> None:
    low, high = _bounds(kind)
    if not low <= held <= high:
        raise Fault(f"{held:g} is outside {kind.low} to {kind.high}: {kind.why}", "")
