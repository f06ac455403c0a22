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
    gone: set[str] = set()
    now: dict[str, Corrected] = {}
    kept = []
    for entry in sorted(entries, key=lambda each: -each.sequence):
        if entry.id in gone:
            continue
        if isinstance(entry.value, Withdrawn):
            gone.add(entry.value.entry)
        elif isinstance(entry.value, Corrected):
            now.setdefault(entry.value.entry, entry.value)
        else:
            kept.append(_as_corrected(entry, now.get(entry.id)))
    return tuple(reversed(kept))


def withdrawn(entries: Iterable[Entry]) -> frozenset[str]:
    """Return the ids of the entries that no longer count; a line takes back none that was written after it."""
    gone: set[str] = set()
    taken: set[str] = set()
    for entry in sorted(entries, key=lambda each: -each.sequence):
        if entry.id in gone:
            taken.add(entry.id)
        elif isinstance(entry.value, Withdrawn):
            gone.add(entry.value.entry)
    return frozenset(taken)


def _as_corrected(entry: Entry, to: Corrected | None) -> Entry:
    return entry if to is None else replace(entry, value=value_of(entry.kind, to.value))
