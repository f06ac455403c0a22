"""Use cases: write an entry, take one back, set the site, look back, check that nothing was changed."""

import uuid
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from functools import lru_cache
from pathlib import Path
from typing import Any, overload

from sourloam.base.errors import BadInput, NotFound, Problem
from sourloam.base.fields import Reading, read_record
from sourloam.base.quantity import BadQuantity
from sourloam.evidence.parameters import load_parameters
from sourloam.exchange.amounts import read_amount
from sourloam.fleet.setting import dose_kg_per_kg
from sourloam.logbook.accept import Accepted, accept
from sourloam.logbook.corrections import effective, withdrawn
from sourloam.logbook.entries import KINDS, Corrected, SiteSet, Value, Withdrawn
from sourloam.logbook.entry import LONGEST_TYPED, Entry, plain, plain_value
from sourloam.logbook.fold import fold
from sourloam.logbook.kept import whole
from sourloam.logbook.phrase import read_phrase
from sourloam.logbook.phrase_words import Dose, Weigh, Words
from sourloam.logbook.state import Impossible, State
from sourloam.science.load.parameters import LoadParameters
from sourloam.service.book import Book, Known, default_address, entries, entry_from, fixed, moment, now_utc, sites
from sourloam.service.portions import Pantry, portion_of
from sourloam.service.so_far import as_text, change_of, remember, state_for, state_of
from sourloam.site.site import Site
from sourloam.sitefile.read import parse_site, read_text
from sourloam.sitefile.write import write_site
from sourloam.store import kept, log
from sourloam.store.chain import Line, broken
from sourloam.views.logbook import LineView, RecordView, line_view, record_view, sentence

AHEAD = timedelta(days=1)  # a clock may be off by that much and more
FEW = 25  # members with which a cup or a handful is weighed: its median is what is kept


@dataclass(frozen=True)
class By:
    """Who writes, from which face, when it was, and under which id; without an id one is made."""

    who: str = ""
    face: str = "cli"
    on: date | None = None
    id: str = ""
    now: datetime | None = None  # when it is written; by the clock of this machine if nobody says

    def named(self) -> str:
        """Return the id of the entry."""
        return self.id or uuid.uuid4().hex[:12]


def log_phrase(book: Book, text: str, by: By, *, is_kept: bool = True, known: Known | None = None) -> RecordView:
    """Read what was typed, and keep it; or only say what was understood.

    Raises
    ------
    BadInput
        If it cannot be read, or cannot have happened.
    """
    known = known or Known()

    def made(_history: Sequence[Entry], state: State) -> Entry:
        site, _ = _must(state)
        read = read_phrase(text, words_of(state, site, known))
        mark = "; ".join(read.taken)
        return _entry(read.value, site, by, typed=text, mark=mark)

    return _record(book, made, known, by=by, is_kept=is_kept)


def log_value(book: Book, value: Value, by: By, *, typed: str = "", known: Known | None = None) -> RecordView:
    """Keep an entry that is given as a value.

    Raises
    ------
    BadInput
        If it cannot have happened.
    """
    return _record(book, lambda _, state: _entry(value, _must(state)[0], by, typed=typed), known or Known(), by=by)


def log_record(book: Book, kind: str, raw: Mapping[str, Any], by: By, *, known: Known | None = None) -> RecordView:
    """Keep an entry that a script gives by its kind and its fields, quantities as people write them.

    Raises
    ------
    BadInput
        If a field cannot be used, all of them named; or if it cannot have happened.
    """
    if kind not in KINDS or kind in ("withdrawn", "corrected", "site_set"):
        usable = ", ".join(each for each in KINDS if each not in ("withdrawn", "corrected", "site_set"))
        raise BadInput("--kind", (Problem("", f'"{kind}" is no kind of entry that can be written so;', f"{usable}."),))
    reading = Reading()
    value = read_record(KINDS[kind][0], raw, where=kind, path=(kind,), reading=reading)
    if value is None:
        raise BadInput("--value", tuple(reading.problems))
    return log_value(book, value, by, typed=text_short(raw), known=known)


def text_short(raw: Mapping[str, Any]) -> str:
    """Return what a script gave, as text, no longer than what a person types."""
    return log.text_of(dict(raw))[:LONGEST_TYPED]


def undo(book: Book, by: By, entry: str | None = None, why: str = "") -> RecordView:
    """Take back an entry: the one named, or the last line that still counts.

    Raises
    ------
    BadInput
        If there is none to take back.
    """

    def made(history: Sequence[Entry], state: State) -> Entry:
        target = entry or _last(history)
        site, _ = _must(state)
        said = (sentence(each.value, site) for each in history if each.id == target)
        return _entry(Withdrawn(target, why), site, by, typed=next(said, "")[:LONGEST_TYPED])

    return _record(book, made, Known(), by=by)


def correct(book: Book, text: str, entry: str, by: By) -> RecordView:
    """Put an earlier entry right: it says from now on what was typed now.

    Raises
    ------
    BadInput
        If it cannot be read, is of another kind, or cannot have happened.
    """
    known = Known()

    def made(history: Sequence[Entry], state: State) -> Entry:
        target = next((each for each in history if each.id == entry), None)
        if target is None:
            raise Impossible(f'there is no entry "{entry}";', 'see "sourloam history".')
        then = fold([each for each in effective(history) if each.at < target.at], known.knows)
        site, _ = _must(then)
        read = read_phrase(text, words_of(then, site, known))
        if type(read.value) is not type(target.value):
            raise Impossible(f"that is another kind of entry than {target.kind};", "undo it and write what is right.")
        value = Corrected(entry, plain_value(read.value))
        return _entry(value, site, by, typed=text, mark="; ".join(read.taken))

    return _record(book, made, known, by=by)


def import_site(path: Path, address: str | None, by: By) -> RecordView:
    """Keep a whole site file: the first entry of a site, or how it is from now on.

    Raises
    ------
    BadInput
        If the file holds faults.
    """
    return keep_site_text(read_text(path), path.name, address, by)


def keep_site_text(text: str, name: str, address: str | None, by: By) -> RecordView:
    """Keep the text of a site file, under the name that faults are told with.

    Raises
    ------
    BadInput
        If it holds faults.
    """
    known = Known()
    site = parse_site(text, name, known.names).site
    if site.facts.weather is not None:
        remedy = "write outdoor = [...], the twelve monthly means, so that the book needs no file beside it."
        raise BadInput(name, (Problem("site", "weather names another file;", remedy),))
    where = address or default_address()
    book = Book(where, site.facts.id)
    on = by.on or _first_day(site, is_new=site.facts.id not in sites(where))
    whole = replace(by, on=on)

    def made(history: Sequence[Entry], _state: State) -> Entry:
        return _entry(SiteSet(text), site, whole, typed=name)

    return _record(book, made, known, by=whole)


def _first_day(site: Site, *, is_new: bool) -> date | None:
    """Return the day from which a site stands in the book: its first one, or now where that is still to come."""
    start = site.facts.start
    return start if is_new and start <= moment(site, now_utc(), None).date() else None


def export_site(book: Book) -> str:
    """Return the site as it is now, as the text of its file."""
    return write_site(_must(state_of(book, Known()))[0])


def history(book: Book, about: str | None = None) -> tuple[LineView, ...]:
    """Return every line of a site, oldest first; or those about one vessel, place or batch.

    Raises
    ------
    BadInput
        If nothing of that name is in the book.
    """
    held = entries(book)
    return lines_about(held, state_of(book, Known()), about)


def lines_about(held: Sequence[Entry], state: State, about: str | None = None) -> tuple[LineView, ...]:
    """Return entries as lines, oldest first; all of them, or those about one vessel, place or batch.

    Raises
    ------
    BadInput
        If nothing of that name is in the book.
    """
    gone = withdrawn(held)
    clashes = {each.entry.id: each for each in state.clashes}
    site = _must(state)[0]
    found = tuple(line_view(each, site, is_gone=each.id in gone, clash=clashes.get(each.id)) for each in held)
    if about is None:
        return found
    subject, batch = about.partition("/")[0], about if "/" in about else ""
    days = _days_of(state, batch)
    chosen = tuple(
        line for line, each in zip(found, held, strict=True) if subject in line.about and days[0] <= each.on <= days[1]
    )
    if not chosen and all(subject != each.id for part in site.parts().values() for each in part):
        raise BadInput("history", (Problem("", f'there is no entry about "{about}";', 'see "sourloam history".'),))
    return chosen


def verify(book: Book) -> tuple[int, tuple[str, ...]]:
    """Return how many lines a site has, and what is wrong with any of them."""
    lines = log.lines(book.where, book.site)
    faults = [words for _, words in broken(lines)]
    noted = log.end(book.where, book.site)
    last = (lines[-1].sequence, lines[-1].hash) if lines else None
    if noted != last and not faults:
        faults.append(_end_fault(noted, lines))
    return len(lines), tuple(faults)


# How an entry comes about


def _record(
    book: Book, made: Callable[[Sequence[Entry], State], Entry], known: Known, *, by: By, is_kept: bool = True
) -> RecordView:
    """Decide with every other writer held off, and keep what was decided."""
    accepted: list[Accepted] = []

    def decide(turn: log.Turn) -> list[tuple[str, str]]:
        state, is_kept_so_far = state_for(turn, book, known)
        history = History(turn)
        sequence = turn.last[0] if turn.last else 0
        found = accept(history, made(history, state), known.knows, before=state, sequence=sequence)
        accepted.append(found)
        is_added = is_kept_so_far and not found.is_over_again
        turn.change = change_of(known, state, found.state) if is_added else as_text(known, whole(found.state))
        return [(found.entry.id, log.text_of(plain(found.entry)))]

    try:
        if not is_kept:
            with kept.looking(book.where) as connection:
                decide(log.Turn(connection, book.site))
            return record_view(accepted[0], is_new=False, is_kept=False)
        new = log.append(book.where, book.site, [by.id] if by.id else [], decide)
    except Impossible as no:
        raise BadInput("not kept", (Problem("", no.found, no.remedy),)) from None
    if not new.is_new:
        again = entry_from(new.lines[0])
        return record_view(Accepted(again, state_of(book, known)), is_new=False)
    remember(book, known, new.lines[-1].hash, accepted[0].state)
    return record_view(accepted[0], is_new=True)


class History(Sequence[Entry]):
    """The entries so far, which are read only where one of them is asked for."""

    def __init__(self, turn: log.Turn) -> None:
        self._turn = turn
        self._read: tuple[Entry, ...] | None = None

    def _entries(self) -> tuple[Entry, ...]:
        if self._read is None:
            self._read = tuple(entry_from(each) for each in self._turn)
        return self._read

    @overload
    def __getitem__(self, at: int) -> Entry: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Entry]: ...
    def __getitem__(self, at: int | slice) -> Entry | Sequence[Entry]:
        return self._entries()[at]

    def __len__(self) -> int:
        return len(self._entries())


def _entry(value: Value, site: Site, by: By, *, typed: str, mark: str = "") -> Entry:
    now = by.now or now_utc()
    at = fixed(moment(site, now, by.on))
    zone = site.facts.time_zone
    if at > now + AHEAD:
        mark = "; ".join(filter(None, (mark, f"{at.date()} is still to come, by the clock of this machine")))
    return Entry(by.named(), at, now, value, by=by.who, face=by.face, typed=typed, zone=zone, mark=mark)


def _weighing(site: Site, known: Known) -> tuple[Weigh, Dose]:
    """Return how an amount is weighed, and how much bran is usual on a layer; each amount is weighed once."""
    pantry = Pantry.of(site.materials)
    load = load_parameters(LoadParameters, "load", members=FEW)

    @lru_cache(maxsize=4096)
    def weigh(text: str) -> tuple[str, float]:
        try:
            amount = read_amount(text, pantry.find)
        except BadQuantity as bad:
            raise BadInput(text, (Problem("", bad.found, bad.remedy),)) from None
        except NotFound as missing:
            raise BadInput(text, (missing.problem(f'"{text}"', otherwise='See "sourloam materials".'),)) from None
        return amount.material.id, float(portion_of(amount, 0, load, members=FEW).mass.value)

    plant, animal = dose_kg_per_kg(known.knowledge)
    per_kg = known.knows.per_kg

    def dose_kg(parts: tuple[tuple[str, float], ...]) -> float:
        shares = [(mass, per_kg[name].animal_frac) for name, mass in parts if name in per_kg]
        return round(sum(mass * (plant + (animal - plant) * share) for mass, share in shares), 3)

    return weigh, dose_kg


def words_of(state: State, site: Site, known: Known) -> Words:
    """Return what names mean at a site as it is, and how things are weighed there."""
    if known.weighing is None or known.weighing[0] != site.materials:
        known.weighing = (site.materials, *_weighing(site, known))
    _, weigh, dose_kg = known.weighing
    vessels = state.must()[1].vessels
    phases = ("filling", "empty", "fermenting", "ready")
    sealed = ("ready", "fermenting", "filling", "empty")

    def ranked(order: tuple[str, ...]) -> tuple[str, ...]:
        ordered = sorted(vessels, key=lambda each: (order.index(each.phase), each.sealed_on or date.max))
        return tuple(each.vessel for each in ordered)

    return Words(site, weigh, known.knows.likely.some_kg.value, dose_kg, ranked(phases), ranked(sealed))


def _must(state: State) -> tuple[Site, Any]:
    try:
        return state.must()
    except Impossible as no:
        raise BadInput("logbook", (Problem("", no.found, no.remedy),)) from None


def _last(history: Sequence[Entry]) -> str:
    gone = withdrawn(history)
    target = next(
        (each for each in reversed(history) if each.id not in gone and not isinstance(each.value, Withdrawn | SiteSet)),
        None,
    )
    if target is None:
        raise Impossible("there is no entry to take back;", "nothing need be written.")
    return target.id


def _days_of(state: State, batch: str) -> tuple[date, date]:
    record = state.batches.get(batch)
    if not batch or record is None:
        return date.min, date.max
    return record.first_layer_on, record.ended_on or date.max


def _end_fault(noted: tuple[int, str] | None, lines: Sequence[Line]) -> str:
    have = lines[-1].sequence if lines else 0
    if noted is None:
        return "it is not noted where the book ends"
    if noted[0] > have:
        return f"lines {have + 1} to {noted[0]} are missing" if noted[0] > have + 1 else f"line {noted[0]} is missing"
    return f"there are lines after line {noted[0]} that were not written by this tool"
