"""A site as forms: each part of it with its fields as a person reads and writes them, made from the declarations."""

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Final

from sourloam.base.fields import Fault, Key, Table, declared, written_record
from sourloam.base.kinds import Choice, Flag
from sourloam.base.literals import literal
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import REPEATED, Site
from sourloam.site.stocks import Stock
from sourloam.sitefile.typed import raw_of
from sourloam.sitefile.write import write_parts

SINGLE: Final[Mapping[str, type]] = MappingProxyType({"site": Facts, "stock": Stock, "keeper": Keeper})
NEW: Final = "new"  # the id under which a part is asked for that is not there yet
FLAGS: Final = (("yes", "yes"), ("no", "no"))


@dataclass(frozen=True)
class Field:
    """One key of a part, as a form asks it."""

    name: str  # in the form; of a row inside a part "planting.0.crop"
    label: str
    help: str
    value: str
    wanted: str
    usual: str  # what is taken where it is left empty
    choices: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class PartForm:
    """One part of a site: a stream, a vessel, a bed, the keeper ..."""

    table: str
    id: str
    name: str
    fields: tuple[Field, ...]


def forms_of(site: Site) -> tuple[PartForm, ...]:
    """Return all parts of a site, in the order of the chain."""
    return tuple(form_of(site, table, id_) for table, id_ in _parts(site))


def form_of(site: Site, table: str, id_: str) -> PartForm:
    """Return one part; under the id `new` an empty one.

    Raises
    ------
    KeyError
        If there is no such part.
    """
    if table in SINGLE and not id_:
        record = _single(site, table)
        return PartForm(table, "", table, tuple(_fields(SINGLE[table], record)))
    if id_ == NEW:
        return PartForm(table, NEW, f"a new {table.replace('_', ' ')}", tuple(_fields(REPEATED[table], None)))
    record = next((each for each in site.parts()[table] if each.id == id_), None)
    if record is None:
        raise KeyError(id_)
    return PartForm(table, id_, site.name_of(id_), tuple(_fields(REPEATED[table], record)))


def text_with(site: Site, table: str, id_: str, typed: Mapping[str, str]) -> str:
    """Return the text of the site file in which one part stands as it was typed, whatever that is."""
    kind = SINGLE[table] if table in SINGLE else REPEATED[table]
    header = f"[{table}]" if table in SINGLE else f"[[{table}]]"
    block = "\n".join([header, *_lines(kind, typed, "", header.strip("[]"))])
    return write_parts(site, replacing=(table, id_), block=block)


def text_without(site: Site, table: str, id_: str) -> str:
    """Return the text of the site file without one part."""
    return write_parts(site, replacing=(table, id_), block="")


def _parts(site: Site) -> Iterator[tuple[str, str]]:
    yield "site", ""
    for table, records in site.parts().items():
        yield from ((table, each.id) for each in records)
    yield "stock", ""
    yield "keeper", ""


def _single(site: Site, table: str) -> object:
    return {"site": site.facts, "stock": site.stock, "keeper": site.keeper}[table]


def _fields(kind: type, record: object | None, prefix: str = "") -> Iterator[Field]:
    """Give the fields of a record; of what repeats inside it every row, and an empty one."""
    written = dict(_written(record)) if record is not None else {}
    for attribute, mark in declared(kind):
        if isinstance(mark, Key):
            yield _field(mark, written.get(mark.name, ""), prefix)
            continue
        rows: tuple[object, ...] = getattr(record, attribute) if record is not None else ()
        for index, row in enumerate([*rows, None]):
            yield from _fields(mark.of, row, f"{prefix}{mark.name}.{index}.")


def _written(record: object) -> Iterator[tuple[str, str]]:
    for mark, value in written_record(record):
        if isinstance(mark, Key) and isinstance(value, str):
            yield mark.name, shown(value)


def shown(value: str) -> str:
    """Return a value of a file as a person writes it in a field: words without quotes, yes for true."""
    if value in ("true", "false"):
        return "yes" if value == "true" else "no"
    if value.startswith('"'):
        return str(tomllib.loads(f"x = {value}")["x"])
    return value


def _field(mark: Key, value: str, prefix: str) -> Field:
    choices: tuple[tuple[str, str], ...] = ()
    if isinstance(mark.kind, Flag):
        choices = FLAGS
    elif isinstance(mark.kind, Choice):
        choices = tuple((each, each.replace("-", " ") or "not said") for each in mark.kind.options if each)
    if value == "[]" and mark.default == []:
        value = ""  # nothing is listed, and nothing is what an empty field stands for
    usual = "" if mark.is_required or mark.default in (None, "", []) else shown(literal(mark.default))
    label = mark.name.replace("_", " ")
    return Field(
        f"{prefix}{mark.name}", label[:1].upper() + label[1:], mark.help, value, mark.kind.wanted, usual, choices
    )


def _lines(kind: type, typed: Mapping[str, str], prefix: str, header: str) -> Iterator[str]:
    """Give the lines of a part as they were typed; what was left empty is not there."""
    nested: list[Table] = []
    for _, mark in declared(kind):
        if isinstance(mark, Table):
            nested.append(mark)
            continue
        text = " ".join(typed.get(f"{prefix}{mark.name}", "").split())
        if text:
            yield f"{mark.name} = {_literal(mark, text)}"
    for table in nested:
        for row in _rows(typed, f"{prefix}{table.name}."):
            inner = f"{header}.{table.name}"
            yield f"\n[[{inner}]]"
            yield from _lines(table.of, typed, row, inner)


def _rows(typed: Mapping[str, str], prefix: str) -> list[str]:
    """Return the prefixes of the rows in which anything was written, in their order."""
    used = {
        name.removeprefix(prefix).partition(".")[0]
        for name, text in typed.items()
        if name.startswith(prefix) and text.strip()
    }
    return [f"{prefix}{each}." for each in sorted((each for each in used if each.isdecimal()), key=int)]


def _literal(mark: Key, text: str) -> str:
    """Return what was typed as it stands in a file; what is written like a list or a table there is left so."""
    if text[0] in "[{":
        try:
            value: Any = tomllib.loads(f"x = {text}")["x"]
        except tomllib.TOMLDecodeError:
            return literal(text)
        return text if isinstance(value, list | dict) else literal(text)
    try:
        raw = raw_of(mark.kind, text)
    except Fault:
        raw = text
    if isinstance(raw, str) and _is_bare(raw):
        return raw
    return literal(raw)


def _is_bare(text: str) -> bool:
    """Whether a file writes it without quotes: a number or a date."""
    try:
        value = tomllib.loads(f"x = {text}")["x"]
    except tomllib.TOMLDecodeError:
        return False
    return not isinstance(value, str | list | dict | bool)
