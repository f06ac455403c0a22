"""An asked-for entry against the history as it would then be: accepted, with what follows, or refused in words."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from sourloam.logbook.corrections import effective, withdrawn
from sourloam.logbook.entries import Corrected, SiteSet, Withdrawn
from sourloam.logbook.entry import Entry, check, value_of
from sourloam.logbook.fold import fold, step
from sourloam.logbook.plausible import doubt
from sourloam.logbook.state import Clash, Impossible, Knows, State


@dataclass(frozen=True)
class Accepted:
    """An entry that may be kept, what is so after it, and which entries it makes impossible."""

    entry: Entry
    state: State
    clashes: tuple[Clash, ...] = ()
    is_over_again: bool = False  # all was added up again, since it changes what was


def accept(
    history: Sequence[Entry], asked: Entry, knows: Knows, *, before: State | None = None, sequence: int | None = None
) -> Accepted:
    """Return an entry as it will be kept: its number given, with a mark where it is doubtful.

    `before` may hold what the whole history adds up to, and `sequence` the number of its last line, where they are
    known; then the history is only looked at for an entry of an earlier day, or one that changes another.

    Raises
    ------
    Impossible
        If it cannot have happened; with the nearest thing that can.
    BadInput
        If a field lies outside what is declared for it.
    """
    check(asked.value) if not isinstance(asked.value, Corrected) else None
    state = fold(history, knows) if before is None else before
    last = sequence if sequence is not None else history[-1].sequence if history else 0
    entry = replace(asked, sequence=last + 1)
    if isinstance(entry.value, Withdrawn | Corrected):
        _check_target(history, entry.value)
        return _over_again(history, entry, state, knows)
    if state.last is None or entry.at >= state.last.at:
        after = step(state, entry, knows)
        marked = _marked(state, entry, after, knows)
        return Accepted(marked, replace(after, counted=state.counted + 1, last=marked))
    return _late(history, entry, state, knows)


def _late(history: Sequence[Entry], entry: Entry, state: State, knows: Knows) -> Accepted:
    """Accept an entry of an earlier day against what was so then."""
    earlier = [each for each in effective(history) if each.at < entry.at]
    then = fold(earlier, knows)
    begun = next((each for each in sorted(effective(history), key=_order) if isinstance(each.value, SiteSet)), None)
    if then.site is None and begun is not None:
        remedy = "write an entry of that day or later, or take the site in with an earlier day: --on."
        raise Impossible(f"the record begins on {begun.on}; {entry.on} lies before that;", remedy)
    marked = _marked(then, entry, step(then, entry, knows), knows)
    return _over_again(history, marked, state, knows)


def _order(entry: Entry) -> tuple[datetime, int]:
    return entry.at


def _over_again(history: Sequence[Entry], entry: Entry, state: State, knows: Knows) -> Accepted:
    """Add up everything again with an entry that changes what was, and say which others that makes impossible."""
    after = fold([*history, entry], knows)
    known = {each.entry.id for each in state.clashes}  # a part of a state holds every clash
    new = tuple(each for each in after.clashes if each.entry.id not in known)
    changed = entry.value.entry if isinstance(entry.value, Corrected) else None
    for clash in new:
        if clash.entry.id == changed:
            raise Impossible(clash.found, clash.remedy)
        if isinstance(clash.entry.value, SiteSet):
            raise Impossible("then there would be no site;", "set another one first: sourloam import SITE.toml.")
    if after.site is None:
        raise Impossible("then there would be no site;", "set another one first: sourloam import SITE.toml.")
    return Accepted(entry, after, new, is_over_again=True)


def _marked(before: State, entry: Entry, after: State, knows: Knows) -> Entry:
    doubtful = doubt(before, entry, after, knows.likely)
    if not doubtful:
        return entry
    return replace(entry, mark=f"{entry.mark}; {doubtful}" if entry.mark else doubtful)


def _check_target(history: Sequence[Entry], value: Withdrawn | Corrected) -> None:
    target = next((each for each in history if each.id == value.entry), None)
    if target is None:
        near = history[-1] if history else None
        remedy = f"the last one is {near.id} ({near.kind}, {near.on})." if near else "there is none yet."
        raise Impossible(f'there is no entry "{value.entry}";', remedy)
    if target.id in withdrawn(history):
        raise Impossible(f"{target.id} was taken back already;", "nothing need be written.")
    if isinstance(value, Corrected):
        if isinstance(target.value, Withdrawn | Corrected):
            raise Impossible(f"{target.id} is a {target.kind} entry;", "take it back, and write what is right.")
        try:
            check(value_of(target.kind, value.value))
        except TypeError:
            raise Impossible(
                f"these are not the fields of a {target.kind} entry;", "correct it with the fields it has."
            ) from None
