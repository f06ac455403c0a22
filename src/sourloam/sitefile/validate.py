"""A parsed file against the declared fields, and its parts against each other; all faults at once."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from difflib import get_close_matches
from typing import Any, Final

from sourloam.base.errors import BadInput, offer
from sourloam.base.fields import Asking, Assumption, Path, Reading, read_record
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import REPEATED, Site
from sourloam.site.stocks import Stock
from sourloam.sitefile.lines import line_map

FORMAT: Final = 1
MOST_COPIES: Final = 60
OUTLETS: Final = (
    "a bed, a pile, a worm bin, a soil tub, or a taker: a neighbour, a shared garden, a collection, the waste bin"
)


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


def validate(raw: Mapping[str, Any], text: str, name: str, known: Known) -> tuple[Site, tuple[Assumption, ...]]:
    """Return the site and what was assumed, or raise `BadInput` with every fault."""
    reading = Reading(line_map(text), _asking(raw))
    _check_top(raw, reading)
    parts = {table: _read_many(table, kind, raw.get(table, []), reading) for table, kind in REPEATED.items()}
    facts = read_record(Facts, _one(raw, "site", reading), where="site", path=("site",), reading=reading)
    stock = read_record(Stock, _one(raw, "stock", reading), where="stock", path=("stock",), reading=reading)
    keeper = read_record(Keeper, _one(raw, "keeper", reading), where="keeper", path=("keeper",), reading=reading)
    _check_together(raw, parts, facts, known, reading=reading)
    if reading.problems or facts is None or stock is None or keeper is None:
        raise BadInput(name, tuple(sorted(reading.problems, key=lambda each: each.line or 0)))
    site = Site.of(facts, stock, keeper, parts)
    return site, tuple(reading.assumptions)


def _asking(raw: Mapping[str, Any]) -> Asking:
    """Find the keeper's handful first: other amounts may be written in it."""
    keeper = raw.get("keeper")
    written = keeper.get("handful", "30 g") if isinstance(keeper, Mapping) else "30 g"
    try:
        return Asking(read_quantity(str(written), Dimension.MASS).value)
    except BadQuantity:
        return Asking()


def _check_top(raw: Mapping[str, Any], reading: Reading) -> None:
    tables = ("format", "site", "stock", "keeper", *REPEATED)
    for name in raw:
        if name not in tables:
            remedy = offer(tuple(get_close_matches(name, tables, n=1))).strip() or f"Known: {', '.join(tables)}."
            reading.fault("", f"[{name}] is not a table of a site.", remedy, (name,))
    if raw.get("format") != FORMAT:
        found = f"format = {raw['format']!r} cannot be read;" if "format" in raw else "format is missing;"
        reading.fault("", found, "write format = 1 on the first line.", ("format",))


def _one(raw: Mapping[str, Any], table: str, reading: Reading) -> Mapping[str, Any]:
    value = raw.get(table, {})
    if isinstance(value, Mapping):
        return value
    reading.fault(table, f"{table} is not one table;", f"write [{table}], once.", (table,))
    return {}


def _read_many(table: str, kind: type, raw: object, reading: Reading) -> tuple[Any, ...]:
    if not isinstance(raw, list) or not all(isinstance(each, Mapping) for each in raw):
        reading.fault(table, f"{table} is not a repeated table;", f"write [[{table}]].", (table,))
        return ()
    found: list[Any] = []
    for index, row in enumerate(raw):
        where = f'{table.replace("_", " ")} "{row["id"]}"' if isinstance(row.get("id"), str) else f"{table} {index + 1}"
        path: Path = (table, index)
        for copy in _copies(row, where, path, reading):
            before = len(reading.assumptions)
            record = read_record(kind, copy, where=where, path=path, reading=reading)
            if copy is not row and found and found[-1] is not None and copy.get("id") != f"{row.get('id')}-1":
                del reading.assumptions[before:]  # said once for all copies
            found.append(record)
    return tuple(each for each in found if each is not None)


def _copies(row: Mapping[str, Any], where: str, path: Path, reading: Reading) -> Iterator[Mapping[str, Any]]:
    """Give the row itself, or with `count = 4` four rows whose ids end in -1 to -4."""
    if "count" not in row:
        yield row
        return
    count = row["count"]
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= MOST_COPIES:
        reading.fault(
            where, f"count = {count!r} will not do;", f"write a whole number from 1 to {MOST_COPIES}.", (*path, "count")
        )
        count = 1
    rest = {key: value for key, value in row.items() if key != "count"}
    for number in range(1, count + 1):
        yield _numbered(rest, number) if count > 1 else rest


def _numbered(row: Mapping[str, Any], number: int) -> Mapping[str, Any]:
    named = {"name": f"{row['name']} {number}"} if isinstance(row.get("name"), str) else {}
    return {**row, "id": f"{row.get('id', '')}-{number}", **named}


def _check_together(
    raw: Mapping[str, Any], parts: Mapping[str, tuple[Any, ...]], facts: Facts | None, known: Known, *, reading: Reading
) -> None:
    """Check what no single table can see."""
    _check_ids(raw, parts, reading)
    if not raw.get("vessel"):
        reading.fault(
            "",
            "there is no vessel;",
            'write [[vessel]] with id and volume, for example id = "blue", volume = "18 L".',
            (),
        )
    if not raw.get("stream"):
        reading.fault(
            "", "no scraps come in;", 'write [[stream]] with id and amount, for example amount = "4 kg/week".', ()
        )
    if not any(raw.get(table) for table in ("bed", "pile", "worm_bin", "soil_tub", "taker")):
        reading.fault("", "there is nowhere for a finished batch to go;", f"add {OUTLETS}.", ())
    for index, stream in enumerate(raw.get("stream", []) if isinstance(raw.get("stream"), list) else []):
        _check_materials(stream, ("stream", index), known, reading)
    _check_names(parts, facts, known, reading)
    if facts is not None:
        _check_dates(raw, facts, reading)


def _check_ids(raw: Mapping[str, Any], parts: Mapping[str, tuple[Any, ...]], reading: Reading) -> None:
    seen: dict[str, str] = {}
    for table, records in parts.items():
        for record in records:
            if record.id in seen:
                index = _index_of(raw.get(table, []), record.id)
                reading.fault(
                    f'{table} "{record.id}"',
                    f"the id is taken by a {seen[record.id]};",
                    "give it another one.",
                    (table, index, "id"),
                )
            seen[record.id] = table.replace("_", " ")


def _index_of(rows: object, wanted: str) -> int:
    if not isinstance(rows, list):
        return 0
    return max((index for index, row in enumerate(rows) if wanted.startswith(str(row.get("id")))), default=0)


def _check_materials(stream: object, path: Path, known: Known, reading: Reading) -> None:
    shares = stream.get("materials") if isinstance(stream, Mapping) else None
    if not isinstance(shares, Mapping) or not isinstance(stream, Mapping):
        return
    where = f'stream "{stream.get("id")}"'
    here = (*path, "materials")
    unknown = [name for name in shares if not known.has_material(name)]
    for name in unknown:
        remedy = offer(known.near_materials(name)).strip() or "See the list of materials in docs/materials.md."
        reading.fault(where, f'"{name}" is not a material that is known.', remedy, here)
    if unknown:
        return
    if all(known.is_liquid(name) for name in shares):
        reading.fault(
            where,
            "it brings nothing but liquid;",
            "liquids drown a ferment: pour them off, and name the solid scraps.",
            here,
        )
        return
    for name in shares:
        if reason := known.is_refused(name):
            reading.fault(where, f'"{name}" does not go in: {reason}', "Leave it out.", here)


def _check_names(parts: Mapping[str, tuple[Any, ...]], facts: Facts | None, known: Known, reading: Reading) -> None:
    for index, bed in enumerate(parts.get("bed", ())):
        for number, planting in enumerate(bed.plantings):
            if planting.crop not in known.crops:
                near = tuple(get_close_matches(planting.crop, known.crops, n=2))
                path: Path = ("bed", index, "planting", number, "crop")
                reading.fault(
                    f'bed "{bed.id}"', f'"{planting.crop}" is not a crop that is known.', offer(near).strip(), path
                )
    if facts is None:
        return
    for key, value, names in (
        ("climate", facts.climate, known.climates),
        ("jurisdiction", facts.jurisdiction, known.jurisdictions),
    ):
        if value is not None and value not in names:
            remedy = offer(tuple(get_close_matches(value, names, n=2))).strip() or f"Known: {', '.join(names)}."
            reading.fault("site", f'{key} = "{value}" is not known.', remedy, ("site", key))


def _check_dates(raw: Mapping[str, Any], facts: Facts, reading: Reading) -> None:
    """Refuse dates that no plan of this site can reach: over a year before its start, or two years after."""
    first, last = facts.start - timedelta(days=366), facts.start + timedelta(days=731)
    for path, on in _dates(raw, ()):
        if not first <= on <= last and path != ("site", "start"):
            key = ".".join(str(part) for part in path if not isinstance(part, int))
            reading.fault(
                "",
                f"{key} has the date {on}, far from the plan's first day {facts.start};",
                f"use dates from {first} to {last}.",
                path,
            )


def _dates(value: object, path: Path) -> Iterator[tuple[Path, date]]:
    """Give every date in a parsed file, those written as text included."""
    if isinstance(value, date):
        yield path, value
    elif isinstance(value, Mapping):
        for name, each in value.items():
            yield from _dates(each, (*path, name))
    elif isinstance(value, list):
        for index, each in enumerate(value):
            yield from _dates(each, (*path, index))
    elif isinstance(value, str) and path and path[-1] != "name":
        yield from ((path, each) for each in _dates_in(value))


def _dates_in(text: str) -> Iterator[date]:
    for word in text.split():
        try:
            yield date.fromisoformat(word)
        except ValueError:
            continue
