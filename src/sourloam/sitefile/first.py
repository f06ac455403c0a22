"""Writes a first site file: what was said as it was said, and every other key behind a "#" with its default."""

import textwrap
from collections.abc import Iterator
from typing import Final

from sourloam.base.fields import Key, written_record
from sourloam.base.literals import quoted
from sourloam.site.draft import Draft

WIDTH: Final = 110
HEAD: Final = (
    "# Written from the answers of a first day. Change here what is wrong or has changed, then plan again.\n"
    '# A key behind "#" was not said: the plan takes the value that stands there, and says so. Take the "#" away\n'
    "# and write your own."
)


def write_draft(draft: Draft) -> str:
    """Return the text of a site file that reads back to the site of the draft, with nothing said that was not."""
    site = draft.site
    seen: set[str] = set()
    blocks = [f"{HEAD}\nformat = 1", _block("[site]", "site", site.facts, draft, seen=seen)]
    for table, records in site.parts().items():
        blocks.extend(_block(f"[[{table}]]", each.id, each, draft, seen=seen) for each in records)
    blocks.append(_block("[stock]", "stock", site.stock, draft, seen=seen))
    blocks.append(_block("[keeper]", "keeper", site.keeper, draft, seen=seen))
    return "\n\n".join(blocks) + "\n"


def _block(header: str, part: str, record: object, draft: Draft, *, seen: set[str]) -> str:
    is_first = header not in seen
    seen.add(header)
    return "\n".join([header, *_lines(part, record, draft, is_first=is_first)])


def _lines(part: str, record: object, draft: Draft, *, is_first: bool) -> Iterator[str]:
    """Give the keys of a table; those that follow a first one of their kind hold only what was said."""
    for mark, written in written_record(record):
        here = (part, mark.name)
        is_said = here in draft.said
        if not isinstance(mark, Key) or not (is_said or is_first):
            continue
        if is_first:
            yield from _comment(mark.help)
        if here in draft.notes:
            yield from _comment(draft.notes[here])
        value = quoted(draft.typed[here]) if here in draft.typed else written
        yield f"{'' if is_said else '#'}{mark.name} = {value}"


def _comment(text: str) -> Iterator[str]:
    return (f"# {line}" for line in textwrap.wrap(text, WIDTH))
