"""The logbook as the use cases meet it: where it lies, what the fold is handed, what stands in it."""

import json
import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time
from functools import lru_cache
from pathlib import Path
from typing import Final
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from sourloam import __version__
from sourloam.base.errors import BadInput, OutOfRange, Problem
from sourloam.evidence.digest import digest
from sourloam.evidence.parameters import load_parameters
from sourloam.fleet.arrivals import bran_per_kg, contents_of
from sourloam.fleet.knowledge import Knowledge
from sourloam.fleet.outlets import places_of
from sourloam.fleet.placing import product_by
from sourloam.fleet.setting import medians, set_up, year_of
from sourloam.logbook.entry import Entry, entry_of
from sourloam.logbook.kept import RELEASE
from sourloam.logbook.parameters import LogbookParameters
from sourloam.logbook.phrase_words import Dose, Weigh
from sourloam.logbook.state import Impossible, Knows, State
from sourloam.science.climate.climate import Climate
from sourloam.science.materials.composition import Material
from sourloam.science.places.offer import PlaceState
from sourloam.science.vessel.contents import Contents
from sourloam.service.assemble import climate_of, knowledge, known_names
from sourloam.site.own import OwnMaterial
from sourloam.site.site import Site
from sourloam.site.situation import Situation, VesselState
from sourloam.sitefile.read import parse_site
from sourloam.store import log
from sourloam.store.chain import Line
from sourloam.store.engine import Engine, Where, is_server, opened

NAME: Final = "logbook.sourloam"
FEW: Final = 25  # members of what is only asked for its middle
NOON: Final = time(12)


@dataclass(frozen=True)
class Book:
    """Which logbook, and of which site."""

    address: str
    site: str
    engine: Engine | None = field(default=None, compare=False, repr=False)  # where the book is held open

    @property
    def where(self) -> Where:
        """Return what the store is asked with."""
        return self.engine or self.address

    @classmethod
    def of(cls, address: str | None, site: str | None = None) -> "Book":
        """Find the book and the site that are meant.

        Raises
        ------
        BadInput
            If there is no site in it, or one of several must be named.
        """
        where = address or default_address()
        known = sites(where)
        if site is None and len(known) == 1:
            return cls(where, known[0])
        if site is not None and site in known:
            return cls(where, site)
        if not known:
            problem = Problem("", "it holds no site yet;", "give it one: sourloam import SITE.toml.")
        elif site is None:
            problem = Problem("", f"it holds {len(known)} sites;", f"say --site, one of {', '.join(known)}.")
        else:
            problem = Problem("", f'there is no site "{site}" in it;', f"there are: {', '.join(known)}.")
        raise BadInput("logbook", (problem,))


@contextmanager
def held_open(address: str) -> Iterator[Engine]:
    """Hold a book open for many uses, as a server does; pass it on as `Book(address, site, engine)`.

    Raises
    ------
    Surroundings
        If it cannot be opened, or a newer release wrote it.
    """
    with opened(address, is_held=True) as engine:
        yield engine


def default_address() -> str:
    """Return where the book lies if nobody says: in the user's own folder for data."""
    named = os.environ.get("SOURLOAM_BOOK")
    if named:
        return named
    folder = os.environ.get("XDG_DATA_HOME") or str(Path.home() / ".local" / "share")
    return str(Path(folder) / "sourloam" / NAME)


def sites(address: str) -> tuple[str, ...]:
    """Return the sites of a book; of one that is not there yet, none, and it is not made."""
    if not is_server(address) and not Path(address).exists():
        return ()
    return log.sites(address)


def entries(book: Book) -> tuple[Entry, ...]:
    """Return the entries of a site in the order of their lines."""
    return tuple(entry_from(each) for each in log.lines(book.where, book.site))


def entry_from(line: Line) -> Entry:
    """Return the entry of a stored line."""
    return entry_of(json.loads(line.text))


class Weighed(Mapping[str, Contents]):
    """What a kilogram of each material holds, worked out where it is asked for."""

    def __init__(self, materials: Mapping[str, Material]) -> None:
        self._materials = materials
        self._found: dict[str, Contents] = {}

    def __getitem__(self, name: str) -> Contents:
        if name not in self._found:
            self._found[name] = contents_of(self._materials[name])
        return self._found[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._materials)

    def __len__(self) -> int:
        return len(self._materials)


class Known:
    """What is known beside the book, loaded once."""

    def __init__(self) -> None:
        self.names = known_names()
        self.knowledge: Knowledge = knowledge()
        self.numbers = medians(self.knowledge)
        per_kg = Weighed(self.knowledge.materials)
        likely = load_parameters(LogbookParameters, "logbook", members=FEW)
        self.knows = Knows(self.site_of, self.begin, per_kg, bran_per_kg(self.knowledge), likely, self.give)
        self.site_of_text = lru_cache(maxsize=32)(self._site_of)
        self.climate_of = lru_cache(maxsize=8)(_climate)
        self.made_by = f"{__version__} {RELEASE} {digest()}"[:64]  # what is kept holds for this alone
        self.weighing: tuple[tuple[OwnMaterial, ...], Weigh, Dose] | None = None  # of the site last written to
        self.seen: dict[tuple[str, str], tuple[str, State]] = {}  # the last state of each site, by its last hash

    def site_of(self, text: str) -> Site:
        """Return the site of the text of its file."""
        return self.site_of_text(text)

    def _site_of(self, text: str) -> Site:
        return parse_site(text, "site", self.names).site

    def begin(self, site: Site) -> Situation:
        """Return the situation on the first day of a site, with what is in its vessels weighed."""
        known = knowledge(site.materials) if site.materials else self.knowledge
        year = year_of(site.streams, site.facts.start, 1, climate=self.climate_of(site), knowledge=known)
        situation, _ = set_up(site, year, self.numbers)
        used = (each._replace(is_weighed=each.phase != "empty") for each in situation.vessels)
        return situation._replace(vessels=tuple(used))

    def give(self, site: Site, vessel: VesselState, place: PlaceState, mass_kg: float, *, on: date) -> PlaceState:
        """Return a place after it was given a mass of what is in a vessel."""
        found = places_of(site, self.knowledge)[place.place]
        try:
            product = product_by(vessel, self.numbers)
            after, _ = found.after(place, product, mass_kg, on, climate=self.climate_of(site))
        except OutOfRange as refused:
            raise Impossible(f"{refused};", "write the mass that went there.") from None
        return after


def _climate(site: Site) -> Climate:
    return climate_of(site, Path())[0]


def moment(site: Site, now: datetime, on: date | None) -> datetime:
    """Return when something happened, by the clock of the site: now, or at noon of a day that was named.

    An hour that comes twice on the night when clocks go back is told apart by its offset.
    """
    zone = zone_of(site)
    local = now.astimezone(zone)
    if on is None or on == local.date():
        return local.replace(microsecond=0)
    return datetime.combine(on, NOON, zone)


def zone_of(site: Site) -> ZoneInfo:
    """Return the time zone of a site.

    Raises
    ------
    BadInput
        If this machine does not know it: a guess would put entries on the wrong day.
    """
    name = site.facts.time_zone
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        remedy = "install the time zones of this machine (tzdata), or write another, such as Europe/London."
        raise BadInput("site", (Problem("time_zone", f'"{name}" is not known on this machine;', remedy),)) from None


def fixed(at: datetime) -> datetime:
    """Return a moment with its offset alone, as it is kept."""
    return datetime.fromisoformat(at.isoformat())


def now_utc() -> datetime:
    """Return the moment by the clock of this machine."""
    return datetime.now(UTC).replace(microsecond=0)


def latest(history: Sequence[Entry]) -> Entry | None:
    """Return the entry of the last line, or nothing."""
    return history[-1] if history else None


def without_damaged(site: Site, state: State) -> Site:
    """Return the site without the vessels that cannot be used now and are empty."""
    used = {each.vessel for each in state.must()[1].vessels if each.phase != "empty"}
    vessels = tuple(each for each in site.vessels if each.id not in state.damaged or each.id in used)
    return replace(site, vessels=vessels) if vessels else site
