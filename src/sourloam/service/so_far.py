"""What is so by a book: from what is kept beside its lines, or from the fold over them where that does not hold."""

import json
from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from typing import Final

import sqlalchemy as sa

from sourloam.base.errors import Surroundings
from sourloam.logbook.entry import Entry
from sourloam.logbook.fold import fold
from sourloam.logbook.kept import BATCH, SMALL, Change, batches_wanted, change, state_of_parts, whole
from sourloam.logbook.state import State
from sourloam.service.book import Book, Known, entries, entry_from
from sourloam.site.situation import Situation
from sourloam.store import kept, log

NO_SITE: Final = State()


def state_of(book: Book, known: Known, *, until: date | None = None) -> State:
    """Return what is so by the book, all of it, or what was so at the end of a day."""
    with kept.looking(book.where) as connection:
        last = kept.last(connection, book.site)
        state = _kept(connection, book, known, last, is_whole=True)
        lines = () if state else tuple(log.lines_of(connection, book.site))
    if state is None:
        history = [entry_from(each) for each in lines]
        state = fold(history, known.knows)
        if last is not None and state.situation is not None:
            _keep(book, known, last, state)
    if until is None or state.last is None or state.last.on <= until:
        return state
    return fold(entries(book), known.knows, until=until)


def situation_of(book: Book, known: Known) -> Situation:
    """Return the situation as it is now, without what became of every batch.

    Raises
    ------
    Impossible
        If no site has been set yet.
    """
    with kept.looking(book.where) as connection:
        last = kept.last(connection, book.site)
        state = _kept(connection, book, known, last, is_whole=False)
    return (state or state_of(book, known)).must()[1]


def state_for(turn: log.Turn, book: Book, known: Known) -> tuple[State, bool]:
    """Return as much of what is so as an entry at the end of the book needs, and whether the rest of it is kept.

    Where it is not kept, all of it is returned, so that all of it can be.
    """
    is_kept = turn.last is not None and kept.holds(turn.connection, book.site, known.made_by, turn.last)
    state = _kept(turn.connection, book, known, turn.last, is_whole=not is_kept)
    if state is None:
        state = fold([entry_from(each) for each in turn], known.knows) if turn.last else NO_SITE
        return state, False
    return state, is_kept


def state_for_all(turn: log.Turn, book: Book, known: Known) -> State:
    """Return all that is so, for one who writes many entries."""
    state = _kept(turn.connection, book, known, turn.last, is_whole=True)
    if state is None:
        state = fold([entry_from(each) for each in turn], known.knows) if turn.last else NO_SITE
    return state


def change_of(known: Known, before: State, after: State) -> kept.Change:
    """Return what is to be kept after an entry that only added to what was so, and was kept."""
    return as_text(known, change(before, after))


def as_text(known: Known, held: Change) -> kept.Change:
    """Return parts as the texts that are stored."""
    return kept.Change(
        known.made_by,
        _text(held.head),
        {part: _text(each) for part, each in held.parts.items()},
        held.gone,
        held.is_whole,
    )


def remember(book: Book, known: Known, line: str, state: State) -> None:
    """Hold a state in memory for as long as its line is the last one."""
    known.seen[book.address, book.site] = line, state


def is_kept_right(book: Book, known: Known, history: Iterable[Entry]) -> bool:
    """Whether what is kept is what the fold says; where nothing is kept, it is not wrong."""
    with kept.looking(book.where) as connection:
        last = kept.last(connection, book.site)
        state = _read(connection, book, known, is_whole=True) if last else None
    return state is None or state == fold(history, known.knows)


def _kept(
    connection: sa.Connection, book: Book, known: Known, last: tuple[int, str] | None, *, is_whole: bool
) -> State | None:
    if last is None:
        return None
    seen = known.seen.get((book.address, book.site))
    if seen and seen[0] == last[1] and (seen[1].is_whole or not is_whole):
        return seen[1]
    state = _read(connection, book, known, is_whole=is_whole)
    if state is not None:
        remember(book, known, last[1], state)
    return state


def _read(connection: sa.Connection, book: Book, known: Known, *, is_whole: bool) -> State | None:
    found = kept.head(connection, book.site, known.made_by)
    if found is None:
        return None
    head = json.loads(found.text)
    if is_whole:
        rows = kept.parts(connection, book.site)
    else:
        also = tuple((BATCH, each) for each in batches_wanted(head))
        rows = kept.parts(connection, book.site, kinds=SMALL, also=also)
    parts = ((kind, id_, json.loads(text)) for kind, id_, text in rows)
    return state_of_parts(head, parts, known.knows, is_whole=is_whole)


def _keep(book: Book, known: Known, last: tuple[int, str], state: State) -> None:
    """Keep what the fold said; where the book cannot be written, it is worked out again next time."""
    with suppress(Surroundings):
        log.keep(book.where, book.site, last, as_text(known, whole(state)))
    remember(book, known, last[1], state)


def _text(held: object) -> str:
    return json.dumps(held, ensure_ascii=False, separators=(",", ":"))
