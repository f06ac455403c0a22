"""Many entries at once, in the order in which they happened: each held to what is so then, none held in memory."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice
from typing import Final, NamedTuple

from sourloam.base.errors import BadInput
from sourloam.logbook.accept import accept
from sourloam.logbook.entry import Entry, plain
from sourloam.logbook.kept import whole
from sourloam.logbook.state import BatchRecord, Clash, Impossible, State
from sourloam.service.book import Book, Known, entry_from
from sourloam.service.so_far import as_text, state_for_all
from sourloam.store import log

FEW: Final = 4  # batches for each vessel that are carried along
AT_ONCE: Final = 500  # rows that are looked for in the book at once

Make = Callable[[State], Entry]  # what a row says, as things stand when it happened


class Row(NamedTuple):
    """A row of a file that is to become an entry."""

    number: int
    id: str
    make: Make


class Refused(Exception):
    """Rows were refused, and none is kept."""


def take_in(
    book: Book, known: Known, rows: Iterable[Row], refuse: Callable[[Row, str], None], *, keeps: Callable[[], bool]
) -> tuple[int, int]:
    """Keep rows as entries, the earliest first; those that cannot be are handed to `refuse` with the reason.

    At the end `keeps` says whether they stay; if not, none does. Rows that stand in the book already are passed over.
    Returns how many are new, and how many stood there.
    """
    count = {"known": 0}

    def made(turn: log.Turn) -> Iterator[tuple[str, str]]:
        state, over, late = state_for_all(turn, book, known), Ended(), Late(turn)
        sequence = turn.last[0] if turn.last else 0
        for row in _new(turn, rows, count):
            try:
                asked = replace(row.make(state), id=row.id, sequence=sequence + 1)
                history = late.history(asked, state)
                found = accept(history, asked, known.knows, before=state, sequence=sequence)
                _refuse_clashes(found.clashes)
            except (Impossible, BadInput) as no:
                refuse(row, _why(no))
                continue
            sequence += 1
            late.wrote(found.entry)
            state = over.without_ended(found.state)
            yield found.entry.id, log.text_of(plain(found.entry))
        if not keeps():
            raise Refused
        turn.change = as_text(known, whole(replace(state, batches={**over.records, **state.batches})))

    known.seen.pop((book.address, book.site), None)
    try:
        new = log.append_stream(book.where, book.site, made)
    except Refused:
        new = 0
    return new, count["known"]


class Late:
    """What stands in the book, read only where a row is of an earlier day than its last entry."""

    def __init__(self, turn: log.Turn) -> None:
        self._turn = turn
        self._entries: list[Entry] | None = None

    def history(self, asked: Entry, state: State) -> Sequence[Entry]:
        """Return the entries so far where a row needs them, else nothing."""
        if state.last is None or asked.at >= state.last.at:
            self._entries = None
            return ()
        if self._entries is None:
            self._entries = [entry_from(each) for each in self._turn]
        return self._entries

    def wrote(self, entry: Entry) -> None:
        """Add what was just kept."""
        if self._entries is not None:
            self._entries.append(entry)


class Ended:
    """The batches that are over: no entry at the end touches them, so they need not be copied with each."""

    def __init__(self) -> None:
        self.records: dict[str, BatchRecord] = {}

    def without_ended(self, state: State) -> State:
        """Return the state without the batches that are over, once there are some."""
        if len(state.batches) <= FEW * len(state.must()[1].vessels):
            return state
        last = {each.batch for each in state.must()[1].vessels}
        self.records |= {id_: each for id_, each in state.batches.items() if id_ not in last}
        return replace(state, batches={id_: each for id_, each in state.batches.items() if id_ in last})


def _why(no: Impossible | BadInput) -> str:
    return "; ".join(str(each) for each in no.problems) if isinstance(no, BadInput) else str(no)


def _refuse_clashes(clashes: Sequence[Clash]) -> None:
    for each in clashes:
        raise Impossible(f"with it the entry of {each.entry.on} no longer fits: {each.found}", "Put that right first.")


def _new(turn: log.Turn, rows: Iterable[Row], count: dict[str, int]) -> Iterator[Row]:
    """Give the rows that do not stand in the book, each id once."""
    seen: set[str] = set()
    source = iter(rows)
    while chunk := tuple(islice(source, AT_ONCE)):
        held = log.has_ids(turn.connection, turn.site, [each.id for each in chunk])
        for row in chunk:
            if row.id in seen or row.id in held:
                count["known"] += 1
            else:
                seen.add(row.id)
                yield row
