"""What a command calls SITE or BATCH: a site file, or what stands in the logbook."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Final

from sourloam.base.errors import BadInput, Problem
from sourloam.logbook.state import BatchRecord, State
from sourloam.plan.question import Question
from sourloam.service.assemble import question_of, site_file
from sourloam.service.book import Book, Known, default_address, moment, now_utc, sites, without_damaged
from sourloam.service.so_far import state_of
from sourloam.site.site import Site
from sourloam.site.situation import Situation
from sourloam.sitefile.read import SiteFile

BATCH: Final = re.compile(r"[a-z][a-z0-9-]*/[1-9]\d*")
TOML: Final = ".toml"


@dataclass(frozen=True)
class Named:
    """A site as it is now, and where it was found."""

    file: SiteFile
    folder: Path  # beside which a weather file lies
    state: State | None = None  # by the logbook, where it was found there

    @property
    def site(self) -> Site:
        """Return the site."""
        return self.file.site

    @property
    def batches(self) -> Mapping[str, BatchRecord]:
        """Return the batches that were written down, those that were found in use at the start too."""
        if self.state is None:
            return {}
        used = (each for each in self.state.must()[1].vessels if each.phase != "empty")
        return {each.batch: self.state.batch(each) for each in used} | dict(self.state.batches)

    def question(self, today: date | None = None) -> Question:
        """Return the question of a plan: from the first day of a file, or from what is so by the logbook."""
        if self.state is None:
            return question_of(self.file, self.folder, today=today)
        return question_of_state(self.state, today or self.today())

    def today(self) -> date:
        """Return the day by the clock of the site; of a record that runs ahead of the clock, its last one."""
        day = moment(self.site, now_utc(), None).date()
        last = self.state.last.on if self.state and self.state.last else day
        return max(day, last)


def question_of_state(state: State, on: date) -> Question:
    """Return the question of a plan from what is so: the vessels as they are, the stocks, what became of batches.

    A batch that failed is taken out of its vessel first, as today's list says; so the plan begins without it.
    """
    site, situation = state.must()
    stock = replace(site.stock, bran_kg=situation.bran_kg, serum_l=situation.serum_l)
    now = replace(without_damaged(site, state), stock=stock, past=state.past)
    asked = question_of(SiteFile(now, ()), Path(), today=on)
    return replace(asked, situation=_without_failed(state, situation)._replace(on=on))


def _without_failed(state: State, situation: Situation) -> Situation:
    vessels = tuple(
        each.emptied() if each.phase != "empty" and state.batch(each).failed else each for each in situation.vessels
    )
    return situation._replace(vessels=vessels)


def site_named(name: Path | None, *, until: date | None = None) -> Named:
    """Return the site of a file, or the one of that id in the logbook; without a name the only one there.

    Raises
    ------
    BadInput
        If it is neither, or the file has faults.
    """
    if name is not None and (name.exists() or name.suffix == TOML or name.name != str(name)):
        return Named(site_file(name), name.parent)
    known = sites(default_address())
    if name is not None and str(name) not in known:
        there = f" The logbook holds: {', '.join(known)}." if known else ""
        remedy = "name a site file, or a site that the logbook holds (--book)."
        raise BadInput("SITE", (Problem("", f'"{name}" is no file, and no site of the logbook;', f"{remedy}{there}"),))
    return of_book(Book.of(None, None if name is None else str(name)), Known(), until=until)


def of_book(book: Book, known: Known, *, until: date | None = None) -> Named:
    """Return a site as it is by a book.

    Raises
    ------
    Impossible
        If it stands empty until then.
    """
    state = state_of(book, known, until=until)
    return Named(SiteFile(state.must()[0], ()), Path(), state)


def is_of_book(batch: str | None, site: Path | None) -> bool:
    """Whether a batch is one of the logbook: it is named like one, is no file, and no site file was named."""
    if batch is None or not BATCH.fullmatch(batch) or Path(batch).is_file():
        return False
    if site is not None:
        return not site.exists() and str(site) in sites(default_address())
    return bool(sites(default_address()))
