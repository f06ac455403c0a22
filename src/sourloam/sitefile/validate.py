"""A parsed file against the declared fields; all faults at once."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from difflib import get_close_matches
from typing import Any, Final

from sourloam.base.errors import BadInput, offer
from sourloam.base.fields import Asking, Assumption, Path, Reading, Record, read_record
from sourloam.base.kinds import LONGEST_ID, LONGEST_NAME
from sourloam.base.literals import shown
from sourloam.base.quantity import BadQuantity, read_quantity
from sourloam.base.units import Dimension
from sourloam.science.ferment.ensemble.past import Past
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import REPEATED, Site
from sourloam.site.stocks import Stock
from sourloam.sitefile.lines import line_map
from sourloam.sitefile.together import MOST_COPIES, Known, check_together, named

__all__ = ["Known", "validate"]

FORMAT: Final = 1


def validate(raw: Mapping[str, Any], text: str, name: str, known: Known) -> tuple[Site, tuple[Assumption, ...]]:
    """Return the site and what was assumed, or raise `BadInput` with every fault."""
    reading = Reading(line_map(text), _asking(raw))
    _check_top(raw, reading)
    facts = _read_one(Facts, "site", raw, reading)
    records = {table: tuple(_read_many(kind, table, raw.get(table, []), reading)) for table, kind in REPEATED.items()}
    stock = _read_one(Stock, "stock", raw, reading)
    keeper = _read_one(Keeper, "keeper", raw, reading)
    past = _read_one(Past, "past", raw, reading)
    if past is not None and past.failed > past.batches:
        found = f"{past.failed} of {past.batches} batches failed;"
        reading.fault("past", found, "count all batches that you saw to their end, the failed ones too.", ("past",))
    check_together(raw, records, facts, known, reading=reading)
    if reading.problems or facts is None or stock is None or keeper is None or past is None:
        raise BadInput(name, tuple(sorted(reading.problems, key=lambda each: each.line or 0)))
    parts = {table: tuple(record for _, record in found) for table, found in records.items()}
    return Site.of(facts, stock, keeper, parts, past=past), tuple(reading.assumptions)


def _asking(raw: Mapping[str, Any]) -> Asking:
    """Find the keeper's handful first: other amounts may be written in it."""
    keeper = raw.get("keeper")
    written = keeper.get("handful") if isinstance(keeper, Mapping) else None
    if written is None:
        return Asking(Keeper.handful_kg)
    try:
        return Asking(read_quantity(str(written), Dimension.MASS).value)
    except BadQuantity:
        return Asking()


def _check_top(raw: Mapping[str, Any], reading: Reading) -> None:
    tables = ("format", "site", "stock", "keeper", "past", *REPEATED)
    for name in raw:
        if name not in tables:
            remedy = offer(tuple(get_close_matches(name, tables, n=1))).strip() or f"Known: {', '.join(tables)}."
            reading.fault("", f"[{name}] is not a table of a site.", remedy, (name,))
    if raw.get("format") != FORMAT:
        found = f"format = {shown(raw['format'])} cannot be read;" if "format" in raw else "format is missing;"
        reading.fault("", found, "write format = 1 on the first line.", ("format",))


def _read_one(kind: type[Record], table: str, raw: Mapping[str, Any], reading: Reading) -> Record | None:
    value = raw.get(table, {})
    if isinstance(value, Mapping):
        return read_record(kind, value, where=table, path=(table,), reading=reading)
    reading.fault(table, f"{table} is not one table;", f"write [{table}], once.", (table,))
    return None


def _read_many(kind: type[Any], table: str, raw: object, reading: Reading) -> Iterator[tuple[int, Any]]:
    """Give what each row of a repeated table holds, with the number of the row; `count = 4` makes four of it."""
    if not isinstance(raw, list) or not all(isinstance(each, Mapping) for each in raw):
        reading.fault(table, f"{table} is not a repeated table;", f"write [[{table}]].", (table,))
        return
    for index, row in enumerate(raw):
        where, path = named(table, index, row), (table, index)
        count = _count(row, where, path, reading)
        rest = {key: value for key, value in row.items() if key != "count"}
        record = read_record(kind, rest, where=where, path=path, reading=reading)
        if record is not None:
            yield from ((index, each) for each in _copies(record, count, where, path, reading=reading))


def _count(row: Mapping[str, Any], where: str, path: Path, reading: Reading) -> int:
    count = row.get("count", 1)
    if isinstance(count, int) and not isinstance(count, bool) and 1 <= count <= MOST_COPIES:
        return count
    remedy = f"write a whole number from 1 to {MOST_COPIES}."
    reading.fault(where, f"count = {shown(count)} will not do;", remedy, (*path, "count"))
    return 1


def _copies(record: Any, count: int, where: str, path: Path, *, reading: Reading) -> Iterator[Any]:  # noqa: ANN401
    """Give a record, or as many of it as were counted; their ids and names end in their numbers."""
    if count == 1:
        yield record
        return
    for key, held, most in (("id", record.id, LONGEST_ID), ("name", record.name, LONGEST_NAME)):
        if len(held) + len(f"-{count}") > most:
            found = f"{key} is too long to be numbered;"
            reading.fault(where, found, f"{most - len(f'-{count}')} characters will do.", (*path, key))
    for number in range(1, count + 1):
        name = f"{record.name} {number}" if record.name else ""
        yield replace(record, id=f"{record.id}-{number}", name=name)
