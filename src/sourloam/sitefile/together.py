"""The parts of a site file against each other, and against the names that are known."""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from difflib import get_close_matches
from typing import Any, Final
from zoneinfo import ZoneInfo, available_timezones

from sourloam.base.errors import offer
from sourloam.base.fields import Path, Reading
from sourloam.base.literals import quoted
from sourloam.site.facts import Facts
from sourloam.site.site import PLACES, REPEATED

MOST_COPIES: Final = 60
OUTLETS: Final = (
    "a bed, a pile, a worm bin, a soil tub, or a taker: a neighbour, a shared garden, a collection, the waste bin"
)
EARLIER_D: Final = 366  # what a date may lie before the first day of the plan
LATER_D: Final = 731
FREE_TEXT: Final = ("name", "terms", "weather")
MAY_BE_OLD: Final = ("bran_made", "strips_opened", "first")  # a box of strips, the first visit of a collection
IS_PAST: Final = ("since", "bran_made", "strips_opened")
_DATE: Final = re.compile(r"\b[0-9]{4}-[0-9]{2}-[0-9]{2}\b")

Row = Mapping[str, Any]
Records = Mapping[str, tuple[tuple[int, Any], ...]]


@dataclass(frozen=True)
class Known:
    """What names a site may use: it is handed in, since the tables are read elsewhere."""

    has_material: Callable[[str], bool]
    is_liquid: Callable[[str], bool]
    is_refused: Callable[[str], str]  # the reason, or nothing
    near_materials: Callable[[str], tuple[str, ...]]
    crops: tuple[str, ...]
    climates: tuple[str, ...]
    jurisdictions: tuple[str, ...]

    def with_own(self, own: frozenset[str]) -> "Known":
        """Return the same with the keeper's own materials, of which nothing is refused."""
        return replace(
            self,
            has_material=lambda name: name in own or self.has_material(name),
            is_liquid=lambda name: name not in own and self.is_liquid(name),
            is_refused=lambda name: "" if name in own else self.is_refused(name),
        )


def check_together(raw: Row, records: Records, facts: Facts | None, known: Known, *, reading: Reading) -> None:
    """Note what no single table can see."""
    _check_presence(raw, reading)
    _check_ids(raw, reading)
    own = frozenset(_own(raw))
    for path, row in _rows_of(raw, "material"):
        _check_own(row, path, known, reading)
    for path, stream in _rows_of(raw, "stream"):
        _check_materials(stream, path, known.with_own(own), reading)
    for path, bed in _rows_of(raw, "bed"):
        _check_crops(bed, path, known, reading)
    _check_site(raw.get("site"), known, reading)
    _check_sizes(records, reading)
    if facts is not None:
        _check_dates(raw, facts, reading)


def named(table: str, index: int, row: Row) -> str:
    """Return what a message calls a row: by its id, or by its number where it has none."""
    kind = table.replace("_", " ")
    id_ = row.get("id")
    return f"{kind} {quoted(id_[:40])}" if isinstance(id_, str) else f"{kind} {index + 1}"


def _rows_of(raw: Row, table: str) -> Iterator[tuple[tuple[str, int], Row]]:
    rows = raw.get(table)
    for index, row in enumerate(rows if isinstance(rows, list) else ()):
        if isinstance(row, Mapping):
            yield (table, index), row


def _check_presence(raw: Row, reading: Reading) -> None:
    if not raw.get("vessel"):
        remedy = 'write [[vessel]] with id and volume, for example id = "blue", volume = "18 L".'
        reading.fault("", "there is no vessel;", remedy, ("vessel",))
    if not raw.get("stream"):
        remedy = 'write [[stream]] with id and amount, for example amount = "4 kg/week".'
        reading.fault("", "no scraps come in;", remedy, ("stream",))
    if not any(raw.get(table) for table in PLACES):
        reading.fault("", "there is nowhere for a finished batch to go;", f"add {OUTLETS}.", ())


def _check_ids(raw: Row, reading: Reading) -> None:
    seen: dict[str, str] = {}
    for table in REPEATED:
        for path, row in _rows_of(raw, table):
            ids = tuple(_ids(row))
            taken = next((each for each in ids if each in seen), None)
            if taken is not None:
                found = f"the id {quoted(taken)} is taken by a {seen[taken]};"
                reading.fault(named(table, path[1], row), found, "give it another one.", (*path, "id"))
            seen.update(dict.fromkeys(ids, table.replace("_", " ")))


def _ids(row: Row) -> Iterator[str]:
    id_, count = row.get("id"), row.get("count", 1)
    if not isinstance(id_, str):
        return
    if isinstance(count, int) and 1 < count <= MOST_COPIES:
        yield from (f"{id_}-{number}" for number in range(1, count + 1))
    else:
        yield id_


def _own(raw: Row) -> Iterator[str]:
    yield from (row["id"] for _, row in _rows_of(raw, "material") if isinstance(row.get("id"), str))


def _check_own(row: Row, path: tuple[str, int], known: Known, reading: Reading) -> None:
    """Note where a keeper's own material takes a name of the table, or stands on one that is not there."""
    where, id_, like = named("material", path[1], row), row.get("id"), row.get("like")
    if isinstance(id_, str) and known.has_material(id_):
        found = f"the id {quoted(id_)} is a material of the table;"
        reading.fault(where, found, "give yours another one, such as my-bread.", (*path, "id"))
    if isinstance(like, str) and not known.has_material(like):
        remedy = offer(known.near_materials(like)).strip() or "See the list of materials in docs/materials.md."
        reading.fault(where, f"like = {quoted(like)} is not a material that is known.", remedy, (*path, "like"))


def _check_materials(stream: Row, path: tuple[str, int], known: Known, reading: Reading) -> None:
    shares = stream.get("materials")
    if not isinstance(shares, Mapping) or not shares:
        return
    where, here = named("stream", path[1], stream), (*path, "materials")
    unknown = [name for name in shares if not known.has_material(name)]
    for name in unknown:
        remedy = offer(known.near_materials(name)).strip() or "See the list of materials in docs/materials.md."
        reading.fault(where, f"{quoted(name)} is not a material that is known.", remedy, (*here, name))
    if not unknown and all(known.is_liquid(name) for name in shares):
        remedy = "liquids drown a ferment: pour them off, and name the solid scraps."
        reading.fault(where, "it brings nothing but liquid;", remedy, here)
        return
    for name in shares:
        if name not in unknown and (reason := known.is_refused(name)):
            reading.fault(where, f"{quoted(name)} does not go in: {reason}", "Leave it out.", (*here, name))


def _check_crops(bed: Row, path: tuple[str, int], known: Known, reading: Reading) -> None:
    plantings = bed.get("planting")
    for number, planting in enumerate(plantings if isinstance(plantings, list) else ()):
        crop = planting.get("crop") if isinstance(planting, Mapping) else None
        if isinstance(crop, str) and crop not in known.crops:
            where = f"{named('bed', path[1], bed)}, planting {number + 1}"
            remedy = _near(crop, known.crops, f"Known are {', '.join(known.crops[:5])} and more.")
            found = f"{quoted(crop)} is not a crop that is known."
            reading.fault(where, found, remedy, (*path, "planting", number, "crop"))


def _check_site(site: object, known: Known, reading: Reading) -> None:
    if not isinstance(site, Mapping):
        return
    for key, names in (("climate", known.climates), ("jurisdiction", known.jurisdictions)):
        value = site.get(key)
        if isinstance(value, str) and value not in names:
            remedy = _near(value, names, f"Known: {', '.join(names)}.")
            reading.fault("site", f"{key} = {quoted(value)} is not known.", remedy, ("site", key))
    zone = site.get("time_zone")
    if isinstance(zone, str) and not _is_zone(zone):
        remedy = _near(zone, tuple(available_timezones()), "Write one such as Europe/London, or UTC.")
        reading.fault("site", f"time_zone = {quoted(zone)} is not known.", remedy, ("site", "time_zone"))


def _near(name: str, names: tuple[str, ...], otherwise: str) -> str:
    return offer(tuple(get_close_matches(name, names, n=2))).strip() or otherwise


def _is_zone(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (ValueError, OSError, KeyError):
        return False
    return True


def _check_sizes(records: Records, reading: Reading) -> None:
    """Note what is possible by itself and impossible beside the rest of its row."""
    for index, own in records["material"]:
        stated = sum(own.stated.shares.values())
        if stated > 1.0:
            found = f"what is stated comes to {stated:.0%} of it;"
            reading.fault(
                _named(own, "material"), found, "shares of the mass come to 100 % at most.", ("material", index)
            )
    for index, vessel in records["vessel"]:
        if vessel.usable_l <= 0.0:
            found = "drain_space leaves no room for scraps;"
            reading.fault(_named(vessel, "vessel"), found, "measure it again.", ("vessel", index, "drain_space"))
    for index, pile in records["pile"]:
        if pile.filled_l > pile.volume_l:
            found = "filled is more than its volume;"
            reading.fault(_named(pile, "pile"), found, "measure it again.", ("pile", index, "filled"))
    for index, bed in records["bed"]:
        for number, planting in enumerate(bed.plantings):
            if planting.until is not None and planting.until < planting.on:
                path = ("bed", index, "planting", number, "until")
                where = f"{_named(bed, 'bed')}, planting {number + 1}"
                reading.fault(where, f"until = {planting.until} lies before on = {planting.on};", "turn them.", path)


def _named(record: Any, kind: str) -> str:  # noqa: ANN401
    return f'{kind} "{record.id}"'


def _check_dates(raw: Row, facts: Facts, reading: Reading) -> None:
    """Refuse dates that no plan of this site can reach."""
    first, last = facts.start - timedelta(days=EARLIER_D), facts.start + timedelta(days=LATER_D)
    for path, on in _dates(raw, ()):
        key = ".".join(str(part) for part in path if not isinstance(part, int))
        if path[-1] in IS_PAST and on > facts.start:
            found = f"{key} has the date {on}, after the plan's first day {facts.start};"
            reading.fault("", found, "write when it was.", path)
        elif on > last or (on < first and path[-1] not in MAY_BE_OLD):
            found = f"{key} has the date {on}, far from the plan's first day {facts.start};"
            reading.fault("", found, f"use dates from {first} to {last}.", path)


def _dates(value: object, path: Path) -> Iterator[tuple[Path, date]]:
    """Give every date in a parsed file, those written as text included."""
    if isinstance(value, date):
        if not isinstance(value, datetime):
            yield path, value
    elif isinstance(value, Mapping):
        for name, each in value.items():
            yield from _dates(each, (*path, name))
    elif isinstance(value, list):
        for index, each in enumerate(value):
            yield from _dates(each, (*path, index))
    elif isinstance(value, str) and path and path[-1] not in FREE_TEXT:
        yield from ((path, each) for each in _dates_in(value))


def _dates_in(text: str) -> Iterator[date]:
    for word in _DATE.findall(text):
        try:
            yield date.fromisoformat(word)
        except ValueError:
            continue
