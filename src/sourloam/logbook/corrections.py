"""Entries that speak of earlier ones: which still count, and what they now say."""

from collections.abc import Iterable
from dataclasses import replace

from sourloam.logbook.entries import Corrected, Withdrawn
from sourloam.logbook.entry import Entry, value_of


def effective(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Return the entries that count, each as it was last corrected; what was withdrawn is left out.

    A later line decides over an earlier one, so the lines are walked from the
    last: a withdrawal that was itself withdrawn takes nothing back.
    """
    known = sorted(entries, key=lambda each: each.sequence)
    gone: set[str] = set()
    now: dict[str, Corrected] = {}
    for entry in reversed(known):
        if entry.id in gone:
            continue
        if isinstance(entry.value, Withdrawn):
            gone.add(entry.value.entry)
        elif isinstance(entry.value, Corrected):
            now.setdefault(entry.value.entry, entry.value)
    return tuple(
        _as_corrected(each, now.get(each.id))
        for each in known
        if each.id not in gone and not isinstance(each.value, Withdrawn | Corrected)
    )


def withdrawn(entries: Iterable[Entry]) -> frozenset[str]:
    """Return the ids of the entries that no longer count."""
    gone: set[str] = set()
    for entry in sorted(entries, key=lambda each: -each.sequence):
        if entry.id not in gone and isinstance(entry.value, Withdrawn):
            gone.add(entry.value.entry)
    return frozenset(gone)


def _as_corrected(entry: Entry, to: Corrected | None) -> Entry:
    return entry if to is None else replace(entry, value=value_of(entry.kind, to.value))
