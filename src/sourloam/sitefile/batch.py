"""Reads the file of one batch: its vessel, its layers, how warm it stood; all faults at once.

What an amount means is found out by whoever asks, since the table of materials
lies elsewhere: each text goes through the function that is handed in.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from difflib import get_close_matches
from pathlib import Path as FilePath
from typing import Any, Final, Generic, TypeVar

from sourloam.base.errors import BadInput, NotFound, offer
from sourloam.base.fields import Asking, Assumption, Path, Reading, Record, read_record
from sourloam.base.literals import shown
from sourloam.base.quantity import BadQuantity
from sourloam.site.batch import DRAWN, BatchFacts, BatchLayer, BatchMeasured, BatchVessel
from sourloam.site.batch_kinds import LAST_DAY, OnDay
from sourloam.site.people import Keeper
from sourloam.sitefile.lines import line_map
from sourloam.sitefile.read import Sort, read_text, tables_of

BATCH: Final = Sort(
    "batch file", "begin with format = 1, a temperature, a [vessel] and a [[layer]]", "examples/batch.toml"
)
FORMAT: Final = 1
MOST_LAYERS: Final = 60
ABOVE: Final = ("temperature", "name", "least_time", "units", "days")  # keys that stand above the tables
TABLES: Final = ("vessel", "layer", "measured")

Part = TypeVar("Part")


@dataclass(frozen=True)
class Laid(Generic[Part]):
    """A layer with its day after the first one, and what its amounts mean."""

    layer: BatchLayer
    on_d: int
    amounts: tuple[Part, ...]
    added: tuple[Part, ...]


@dataclass(frozen=True)
class BatchFile(Generic[Part]):
    """A batch with what was assumed where its file said nothing."""

    facts: BatchFacts
    vessel: BatchVessel
    measured: BatchMeasured
    layers: tuple[Laid[Part], ...]
    first: date | None  # the day of the first layer, where days are dates
    warmth: tuple[tuple[int, float], ...]  # from that day after the first layer on, °C
    opened: tuple[int, ...]
    assumptions: tuple[str, ...]


def read_batch(path: FilePath, meant: Callable[[str], Part]) -> BatchFile[Part]:
    """Read the batch file at `path`; `meant` says what an amount means.

    Raises
    ------
    BadInput
        If the file cannot be read or holds faults; all of them are named.
    """
    return parse_batch(read_text(path, BATCH), path.name, meant)


def parse_batch(text: str, name: str, meant: Callable[[str], Part]) -> BatchFile[Part]:
    """Turn the text of a batch file into a batch.

    Raises
    ------
    BadInput
        If it is no TOML, or holds faults.
    """
    reading = Reading(line_map(text), Asking(Keeper.handful_kg))
    raw = _put_right(tables_of(text, name), reading)
    _check_top(raw, reading)
    above = {key: value for key, value in raw.items() if key in ABOVE}
    facts = read_record(BatchFacts, above, where="", path=(), reading=reading)
    vessel = _one(BatchVessel, "vessel", raw, reading)
    measured = _one(BatchMeasured, "measured", raw, reading)
    layers = _layers(raw, meant, reading)
    if reading.problems or facts is None or vessel is None or measured is None:
        raise _refused(name, reading)
    days = _Days.of([each.layer.day for _, each in layers])
    laid = tuple(_dated(layers, days, reading))
    warmth = tuple((days.counted(day, ("temperature",), reading), celsius) for day, celsius in facts.temperature)
    opened = tuple(days.counted(day, ("vessel", "opened"), reading) for day in vessel.opened)
    _check_steps(warmth, reading)
    if vessel.below_grid_l >= vessel.volume_l:
        reading.fault("vessel", "drain_space leaves no room;", "measure it again.", ("vessel", "drain_space"))
    if vessel.lid == "tight" and vessel.leak_l_per_d:
        remedy = 'a lid that lets air in lets gas out: write lid = "breathes", or leave out leak.'
        reading.fault("vessel", "its lid is tight and leaks;", remedy, ("vessel", "leak"))
    if reading.problems:
        raise _refused(name, reading)
    return BatchFile(facts, vessel, measured, laid, days.first, warmth, opened, tuple(_assumed(reading, vessel, laid)))


def _refused(name: str, reading: Reading) -> BadInput:
    return BadInput(name, tuple(sorted(reading.problems, key=lambda each: each.line or 0)))


def _check_top(raw: Mapping[str, Any], reading: Reading) -> None:
    known = ("format", *ABOVE, *TABLES)
    for key in raw:
        if key not in known:
            remedy = offer(tuple(get_close_matches(key, known, n=1))).strip() or f"Known: {', '.join(known)}."
            reading.fault("", f"{key} is not a key of a batch.", remedy, (key,))
    if raw.get("format") != FORMAT:
        found = f"format = {shown(raw['format'])} cannot be read;" if "format" in raw else "format is missing;"
        reading.fault("", found, "write format = 1 on the first line.", ("format",))


def _put_right(raw: dict[str, Any], reading: Reading) -> dict[str, Any]:
    """Return the tables with what stands under the vessel by mistake put above it; that is a fault, and but one."""
    vessel = raw.get("vessel")
    if not isinstance(vessel, Mapping):
        return raw
    slipped = {key: value for key, value in vessel.items() if key in ABOVE and key not in raw}
    for key in slipped:
        reading.fault("", f"{key} stands under [vessel];", "put it above the first table.", ("vessel", key))
    return raw | slipped | {"vessel": {key: value for key, value in vessel.items() if key not in slipped}}


def _one(kind: type[Record], table: str, raw: Mapping[str, Any], reading: Reading) -> Record | None:
    value = raw.get(table, {})
    if isinstance(value, Mapping):
        return read_record(kind, value, where=table, path=(table,), reading=reading)
    reading.fault(table, f"{table} is not one table;", f"write [{table}], once.", (table,))
    return None


@dataclass(frozen=True)
class _Read(Generic[Part]):
    """A layer as it was read, before its day is known."""

    layer: BatchLayer
    amounts: tuple[Part, ...]
    added: tuple[Part, ...]


def _layers(raw: Mapping[str, Any], meant: Callable[[str], Part], reading: Reading) -> list[tuple[Path, _Read[Part]]]:
    rows = raw.get("layer", [])
    if not isinstance(rows, list) or not all(isinstance(each, Mapping) for each in rows):
        reading.fault("layer", "layer is not a repeated table;", "write [[layer]].", ("layer",))
        return []
    if not rows or len(rows) > MOST_LAYERS:
        remedy = f'write [[layer]] with amounts = ["1.2 kg vegetable peelings"], {MOST_LAYERS} of them at most.'
        reading.fault("", "there is no layer;" if not rows else f"there are {len(rows)} layers;", remedy, ("layer",))
    found: list[tuple[Path, _Read[Part]]] = []
    for index, row in enumerate(rows[:MOST_LAYERS]):
        where, path = f"layer {index + 1}", ("layer", index)
        record = read_record(BatchLayer, row, where=where, path=path, reading=reading)
        if record is not None:
            amounts = _meanings(record.amounts, meant, (*path, "amounts"), reading)
            added = _meanings(record.added, meant, (*path, "added"), reading)
            found.append((path, _Read(record, amounts, added)))
            if not record.amounts:
                reading.fault(where, "amounts is empty;", 'write ["1.2 kg vegetable peelings"].', (*path, "amounts"))
    return found


def _meanings(texts: Sequence[str], meant: Callable[[str], Part], path: Path, reading: Reading) -> tuple[Part, ...]:
    """Return what can be understood; note what cannot."""
    where, found = f"layer {int(path[1]) + 1}", []
    for text in texts:
        try:
            found.append(meant(text))
        except BadQuantity as bad:
            reading.fault(where, bad.found, bad.remedy, path)
        except NotFound as missing:
            problem = missing.problem(otherwise='See "sourloam materials".')
            reading.fault(where, f'"{text}": {problem.found}', problem.remedy, path)
    return tuple(found)


@dataclass(frozen=True)
class _Days:
    """How days are written in a file: counted, or as dates from that of the first layer."""

    first: date | None

    @classmethod
    def of(cls, written: Sequence[OnDay | None]) -> "_Days":
        return cls(next((each for each in written if isinstance(each, date)), None))

    def counted(self, day: OnDay, path: Path, reading: Reading) -> int:
        """Return a day as days after the first layer; note where it cannot be."""
        if isinstance(day, int):
            return day
        where = " ".join(str(part) if isinstance(part, str) else str(part + 1) for part in path[:2])
        if self.first is None:
            found, remedy = f"{day} is a date, and no layer has one;", "write dates on the layers too, or count days."
            reading.fault(where, found, remedy, path)
            return 0
        after = (day - self.first).days
        if 0 <= after <= LAST_DAY or path[0] == "temperature":
            return min(max(after, 0), LAST_DAY)
        found = f"{day} is {abs(after)} days {'before' if after < 0 else 'after'} the first layer;"
        reading.fault(where, found, f"write a date up to {LAST_DAY} days after {self.first}.", path)
        return 0


def _dated(layers: Sequence[tuple[Path, _Read[Part]]], days: _Days, reading: Reading) -> Iterator[Laid[Part]]:
    before = -1
    for path, each in layers:
        written = each.layer.day
        here = before + 1 if written is None else days.counted(written, (*path, "day"), reading)
        if days.first is not None and isinstance(written, int):
            found, remedy = "its day is counted, and others have dates;", "write a date on every layer, or none."
            reading.fault(f"layer {int(path[1]) + 1}", found, remedy, (*path, "day"))
        elif here < before:
            found = f"it lies on a day before that of layer {int(path[1])};"
            reading.fault(f"layer {int(path[1]) + 1}", found, "write layers as they were laid.", (*path, "day"))
        elif before < 0 < here:
            found = f"the first layer lies on day {here};"
            reading.fault("layer 1", found, "days are counted from it: write day = 0.", (*path, "day"))
        before = here
        yield Laid(each.layer, here, each.amounts, each.added)


def _check_steps(warmth: Sequence[tuple[int, float]], reading: Reading) -> None:
    days = [day for day, _ in warmth]
    if days != sorted(set(days)):
        found = "its steps do not follow each other;"
        reading.fault("temperature", found, "write each day once, the earliest first.", ("temperature",))
    elif days[0] != 0:
        found = f"it is not said how warm it is before day {days[0]};"
        reading.fault("temperature", found, "write a step for day 0.", ("temperature",))


def _assumed(reading: Reading, vessel: BatchVessel, laid: Sequence[Laid[Part]]) -> Iterator[str]:
    said = (each.says for each in _unique(reading.assumptions))
    yield from (each for each in said if vessel.has_drain or each != DRAWN)
    if any(each.layer.day is None for each in laid[1:]):
        yield "A layer without a day was laid a day after the one before."
    bare = [str(number) for number, each in enumerate(laid, start=1) if each.layer.bran_kg == 0.0]
    if bare:
        which = "any layer" if len(bare) == len(laid) else f"layer {', '.join(bare)}"
        yield f"No bran was strewn on {which} (bran)."


def _unique(assumptions: Sequence[Assumption]) -> Iterator[Assumption]:
    yield from dict.fromkeys(assumptions)
