"""A logbook kept open for many questions: what was worked out stands until a line or a forecast is added."""

from collections import OrderedDict
from collections.abc import Callable, Mapping
from contextlib import ExitStack
from datetime import UTC, date, datetime
from functools import cached_property
from pathlib import Path
from threading import Event, RLock
from typing import Any, Final, TypeVar, cast

from sqlalchemy import Engine

from sourloam.base.errors import SourloamError
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import State
from sourloam.plan.words import Speech
from sourloam.service.book import NOON, Book, Known, default_address, entries, held_open, moment, now_utc
from sourloam.service.ferment import Compiler
from sourloam.service.forecast_kept import kept_forecasts
from sourloam.service.forecasts import refresh
from sourloam.service.plan import plan_of_state
from sourloam.service.record import lines_about
from sourloam.service.shelf import shelf_of
from sourloam.service.so_far import state_of
from sourloam.service.today import Ahead, looked_ahead, today_of
from sourloam.site.site import Site
from sourloam.store import log
from sourloam.store.engine import is_server
from sourloam.views.forecast import KeptForecast
from sourloam.views.logbook import LineView
from sourloam.views.plan import PlanView
from sourloam.views.shelf import ShelfView
from sourloam.views.today import TodayView

T = TypeVar("T")
MOST_KEPT: Final = 64  # views of one site; a page needs a handful


class NoSiteYet(SourloamError):
    """The logbook holds no site, or not the one that was named."""


class Stopped(Exception):
    """Somebody wants no more of it."""


class Desk:
    """Whose logbook it is, on which day, and what was made of it last. Safe to share between threads."""

    def __init__(self, address: str | None = None, site: str | None = None, on: date | None = None) -> None:
        self.address = address or default_address()
        self._named, self._on = site, on
        self._found: str | None = None  # the site, once the book holds it
        self._kept: OrderedDict[tuple[object, ...], Any] = OrderedDict()
        self._lock = RLock()
        self._forecasts = 0  # times that they were worked out
        self._turns: dict[str, Any] = {}  # whoever makes a view, by its name
        self._open = ExitStack()
        self._engine: Engine | None = None
        self.changed = Event()  # set where a line was added, for whoever works out forecasts
        self.working = ""  # what is being forecast now
        self._stopped = Event()

    def close(self) -> None:
        """Let the book go."""
        self._open.close()
        self._engine = None

    @cached_property
    def known(self) -> Known:
        """Return what is known beside the book."""
        return Known()

    @property
    def book(self) -> Book | None:
        """Return the book with its site; nothing while it holds none."""
        if not is_server(self.address) and not Path(self.address).exists():
            return None
        with self._lock:
            if self._engine is None:
                self._engine = self._open.enter_context(held_open(self.address))
        if self._found is None:
            known = log.sites(self._engine)
            named = self._named or next(iter(known), None)
            self._found = named if named in known else None
        return Book(self.address, self._found, self._engine) if self._found else None

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
        return self.kept("entries", lambda: entries(self.must_book()))

    @property
    def state(self) -> State:
        """Return what is so by the book, on the day."""
        return self.kept("state", lambda: state_of(self.must_book(), self.known, until=self._on))

    @property
    def site(self) -> Site:
        """Return the site as it is now."""
        return self.state.must()[0]

    @property
    def speech(self) -> Speech:
        """Return in which units the keeper is spoken to."""
        return Speech(self.site.keeper.units)

    @property
    def units(self) -> str:
        """Return in which units to speak where there may be no site yet."""
        return self.site.keeper.units if self.book is not None else "metric"

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
        return self.kept("today", lambda: today_of(self.state, self.ahead(), self.day, self.now))

    def shelf(self) -> ShelfView:
        """Return all vessels as they stand."""
        return self.kept("shelf", self._shelf)

    def _shelf(self) -> ShelfView:
        ahead = self.ahead()
        return shelf_of(self.state, self.entries, self.known, ahead.planned, on=self.day, forecasts=ahead.forecasts)

    def plan(self) -> PlanView:
        """Return the plan of the year from now on."""
        return self.kept("plan", lambda: plan_of_state(self.state, self.day))

    def forecasts(self) -> Mapping[str, KeptForecast]:
        """Return the last forecast of each batch, by its id."""
        return self.kept("forecasts", lambda: kept_forecasts(self.must_book(), self.known, state=self.state))

    def ahead(self) -> Ahead:
        """Return what is to do from the day on, by the forecasts that are kept."""
        return self.kept("ahead", lambda: looked_ahead(self.must_book(), self.known, self.state, self.day))

    def forecast(self, compiler: Compiler) -> tuple[str, ...]:
        """Work out the forecasts that are missing, and keep them; return which are new. Pages never call it."""

        def says(words: str) -> None:
            if self._stopped.is_set():
                raise Stopped(words)
            self.working = words

        self._stopped.clear()
        try:
            return refresh(self.must_book(), self.known, compiler=compiler, says=says, on=self._on).new
        except Stopped:
            return ()
        finally:
            self.working = ""
            self._forecasts += 1  # what was made by those before is not taken for fresh

    def stop(self) -> None:
        """Work out no further forecast until the next line is written; the one that is begun is finished."""
        self._stopped.set()

    def mark(self) -> tuple[int, str] | None:
        """Return the number and hash of the last line, which change with each that is added."""
        book = self.must_book()
        return log.end(book.where, book.site)

    def lines(self) -> tuple[LineView, ...]:
        """Return every line as it is shown, oldest first."""
        return self.kept("lines", lambda: lines_about(self.entries, self.state))

    def kept(self, key: str, make: Callable[[], T]) -> T:
        """Return what `make` gives, kept under a name until a line or a forecast is added or the day changes."""
        mark = (key, self.mark(), self._forecasts, self._on or now_utc().date())
        with self._lock:
            turn = self._turns.setdefault(key, RLock())
        with turn:  # of this view alone: a page does not wait for the plan of the year
            with self._lock:
                if mark in self._kept:
                    return cast(T, self._kept[mark])
            made = make()
            with self._lock:
                self._kept[mark] = made
                while len(self._kept) > MOST_KEPT:
                    self._kept.popitem(last=False)
            return made
