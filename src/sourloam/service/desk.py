"""A logbook kept open for many questions: what was worked out stands until a line is added or the day changes."""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime
from functools import cached_property
from threading import RLock
from typing import Any, Final, TypeVar, cast

from sourloam.base.errors import SourloamError
from sourloam.logbook.entry import Entry
from sourloam.logbook.fold import fold
from sourloam.logbook.state import State
from sourloam.plan.soon import soon
from sourloam.plan.words import Speech
from sourloam.service.book import NOON, Book, Known, default_address, entries, moment, now_utc, sites
from sourloam.service.shelf import shelf_of
from sourloam.service.today import AHEAD_D, plan_of_state, question_of_state
from sourloam.site.site import Site
from sourloam.store import log
from sourloam.views.plan import PlanView
from sourloam.views.shelf import ShelfView
from sourloam.views.today import TodayView, today_view

T = TypeVar("T")
MOST_KEPT: Final = 64  # views of one site; a page needs a handful


class NoSiteYet(SourloamError):
    """The logbook holds no site, or not the one that was named."""


class Desk:
    """Whose logbook it is, on which day, and what was made of it last. Safe to share between threads."""

    def __init__(self, address: str | None = None, site: str | None = None, on: date | None = None) -> None:
        self.address = address or default_address()
        self._named, self._on = site, on
        self._kept: OrderedDict[tuple[object, ...], Any] = OrderedDict()
        self._lock = RLock()

    @cached_property
    def known(self) -> Known:
        """Return what is known beside the book."""
        return Known()

    @property
    def book(self) -> Book | None:
        """Return the book with its site; nothing while it holds none."""
        known = sites(self.address)
        if not known or (self._named is not None and self._named not in known):
            return None
        return Book(self.address, self._named or known[0])

    def must_book(self) -> Book:
        """Return the book with its site.

        Raises
        ------
        NoSiteYet
            If it holds none.
        """
        found = self.book
        if found is None:
            raise NoSiteYet("the logbook holds no site yet.")
        return found

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Return the entries of the site, oldest line first."""
        return self._held("entries", lambda: entries(self.must_book()))

    @property
    def state(self) -> State:
        """Return what is so by the book, on the day."""
        return self._held("state", lambda: fold(self.entries, self.known.knows, until=self._on))

    @property
    def site(self) -> Site:
        """Return the site as it is now."""
        return self.state.must()[0]

    @property
    def speech(self) -> Speech:
        """Return in which units the keeper is spoken to."""
        return Speech(self.site.keeper.units)

    @property
    def day(self) -> date:
        """Return the day on which all is seen: by the clock of the site, unless another was named."""
        return self._on or moment(self.site, now_utc(), None).date()

    @property
    def on(self) -> date | None:
        """Return the day that was named, as entries are dated then; nothing where the clock says it."""
        return self._on

    @property
    def now(self) -> datetime:
        """Return the moment of writing: the clock's, or noon of the day that was named."""
        return now_utc() if self._on is None else datetime.combine(self._on, NOON, UTC)

    def today(self) -> TodayView:
        """Return what is to do, and how all stands."""
        return self._held("today", self._today)

    def shelf(self) -> ShelfView:
        """Return all vessels as they stand."""
        return self._held("shelf", lambda: shelf_of(self.state, self.entries, self.known, self._soon()[1], on=self.day))

    def plan(self) -> PlanView:
        """Return the plan of the year from now on."""
        return self._held("plan", lambda: plan_of_state(self.state, self.day))

    def kept(self, key: str, make: Callable[[], T]) -> T:
        """Return what `make` gives, kept under a name until a line is added or the day changes."""
        return self._held(key, make)

    def _today(self) -> TodayView:
        tasks, planned = self._soon()
        return today_view(self.state, tasks, planned, self.day)

    def _soon(self) -> Any:  # noqa: ANN401 - a pair of tasks and batches
        return self._held("soon", lambda: soon(replace(question_of_state(self.state, self.day), days=AHEAD_D)))

    def _held(self, key: str, make: Callable[[], T]) -> T:
        book = self.must_book()
        mark = (key, book.site, log.end(book.address, book.site), self._on or now_utc().date())
        with self._lock:
            if mark not in self._kept:
                self._kept[mark] = make()
                while len(self._kept) > MOST_KEPT:
                    self._kept.popitem(last=False)
            self._kept.move_to_end(mark)
            return cast(T, self._kept[mark])
