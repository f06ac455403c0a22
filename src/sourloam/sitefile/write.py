"""Writes a site as a file that reads back to the same site, and the manual page of all keys."""

from collections.abc import Iterator

from sourloam.base.fields import REQUIRED, Key, Table, declared, written_record
from sourloam.base.kinds import Amount
from sourloam.base.literals import literal
from sourloam.science.ferment.ensemble.past import Past
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import REPEATED, Site
from sourloam.site.stocks import Stock


def write_site(site: Site, *, with_help: bool = False) -> str:
    """Return the text of a site file; with help, each key is explained where it first stands."""
    said: set[str] = set()
    blocks = [_block(header, record, said, with_help=with_help) for _, _, header, record in _records(site)]
    return "\n\n".join(["format = 1", *blocks]) + "\n"


def write_parts(site: Site, *, replacing: tuple[str, str], block: str) -> str:
    """Return the text of a site file with one part, a table and an id, as a block of its own; one more if it is new."""
    said: set[str] = set()
    blocks, is_put = ["format = 1"], False
    for table, id_, header, record in _records(site):
        is_it = (table, id_) == replacing
        blocks.append(block if is_it else _block(header, record, said, with_help=False))
        is_put = is_put or is_it
    if not is_put:
        blocks.append(block)
    return "\n\n".join(filter(None, blocks)) + "\n"


def _records(site: Site) -> Iterator[tuple[str, str, str, object]]:
    """Give each part with its table, its id where it has one, and its header, in the order of the file."""
    yield "site", "", "[site]", site.facts
    for table, records in site.parts().items():
        yield from ((table, each.id, f"[[{table}]]", each) for each in records)
    yield "stock", "", "[stock]", site.stock
    yield "keeper", "", "[keeper]", site.keeper
    if site.past.batches:
        yield "past", "", "[past]", site.past


def _block(header: str, record: object, said: set[str], *, with_help: bool) -> str:
    return "\n".join(_lines(header, record, said, with_help=with_help))


def _lines(header: str, record: object, said: set[str], *, with_help: bool) -> Iterator[str]:
    yield header
    nested = []
    for mark, value in written_record(record):
        if isinstance(mark, Table):
            nested.append((mark, value))
            continue
        if with_help and f"{header}{mark.name}" not in said:
            said.add(f"{header}{mark.name}")
            yield f"# {mark.help}"
        yield f"{mark.name} = {value}"
    for table, rows in nested:
        inner = f"[{header.strip('[]')}.{table.name}]"
        for row in rows:
            yield ""
            yield from _lines(f"[{inner}]", row, said, with_help=with_help)


def manual() -> str:
    """Return the manual page of the site file, made from the declarations alone."""
    rows = [
        "# The site file",
        "",
        "Quantities stand in quotes with their unit. Every key that may be left out has a default.",
        "",
    ]
    for header, kind in (
        ("[site]", Facts),
        *((f"[[{name}]]", kind) for name, kind in REPEATED.items()),
        ("[stock]", Stock),
        ("[keeper]", Keeper),
        ("[past]", Past),
    ):
        rows.extend(_table_of(header, kind))
    return "\n".join(rows) + "\n"


def _table_of(header: str, kind: type) -> Iterator[str]:
    yield f"## `{header}`"
    yield ""
    yield "| key | what it is | written as | if left out |"
    yield "| --- | --- | --- | --- |"
    nested = []
    for _, mark in declared(kind):
        if isinstance(mark, Key):
            yield f"| `{mark.name}` | {mark.help} | {_escaped(_written_as(mark))} | {_default(mark)} |"
        else:
            nested.append(mark)
    yield ""
    for table in nested:
        yield from _table_of(f"[[{header.strip('[]')}.{table.name}]]", table.of)


def _written_as(key: Key) -> str:
    kind = key.kind
    return f'from "{kind.low}" to "{kind.high}"' if isinstance(kind, Amount) else kind.wanted


def _default(key: Key) -> str:
    if key.default is REQUIRED:
        return "must be written"
    if key.default is None or key.default in ("", []):
        return "nothing"
    return f"`{_escaped(literal(key.default))}`"


def _escaped(text: str) -> str:
    return text.replace("|", "\\|")
