"""What the entries add up to: the site as it is now, its situation, and what became of each batch."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, NamedTuple

from sourloam.base.errors import SourloamError
from sourloam.logbook.entry import Entry
from sourloam.logbook.parameters import LogbookParameters
from sourloam.science.ferment.ensemble.past import Past
from sourloam.science.places.offer import PlaceState
from sourloam.science.vessel.contents import Contents
from sourloam.site.site import Site
from sourloam.site.situation import Situation, VesselState


class Impossible(SourloamError, ValueError):
    """Something that cannot have happened, as the record stands; with the nearest thing that can."""

    def __init__(self, found: str, remedy: str) -> None:
        super().__init__(found, remedy)
        self.found, self.remedy = found, remedy

    def __str__(self) -> str:
        return f"{self.found} {self.remedy}"


class Knows(NamedTuple):
    """What the fold is handed, since it reads no table and no file."""

    site_of: Callable[[str], Site]  # the text of a site file, read
    begin: Callable[[Site], Situation]  # the first day of a site
    per_kg: Mapping[str, Contents]  # of each material
    bran_per_kg: Contents
    likely: LogbookParameters
    give: Callable[..., PlaceState]  # (site, vessel, place, kg, on=day): the place after it was given so much


class Laid(NamedTuple):
    """One layer of a batch, or bran that was strewn on it later."""

    on: date
    parts: tuple[tuple[str, float], ...]  # materials and what each weighs, kg
    bran_kg: float = 0.0


@dataclass(frozen=True)
class BatchRecord:
    """What became of one filling of one vessel."""

    id: str
    vessel: str
    first_layer_on: date
    layers: int = 0
    scraps_kg: float = 0.0
    bran_kg: float = 0.0
    drawn_l: float = 0.0
    sealed_on: date | None = None
    opened_on: date | None = None
    ended_on: date | None = None  # all of it has been placed
    failed: str = ""
    failed_on: date | None = None
    placings: tuple[tuple[str, date, float], ...] = ()  # place, day, kg
    readings: tuple[Entry, ...] = ()
    remedies: tuple[str, ...] = ()
    laid: tuple[Laid, ...] = ()
    draws: tuple[tuple[date, float], ...] = ()  # day, L
    ready_on: date | None = None  # found ready, when it was opened
    looks: tuple[date, ...] = ()  # days on which it was opened and shut

    @property
    def began_on(self) -> date:
        """Return the day of its first layer, of one that was written down late too."""
        return min([self.first_layer_on, *(each.on for each in self.laid)])


@dataclass(frozen=True)
class Clash:
    """An entry that cannot have happened as the others stand; it is kept and counts for nothing."""

    entry: Entry
    found: str
    remedy: str


@dataclass(frozen=True)
class State:
    """All that is so after some entries."""

    site: Site | None = None
    situation: Situation | None = None
    batches: Mapping[str, BatchRecord] = field(default_factory=dict)
    stocks: Mapping[str, float] = field(default_factory=dict)  # beside bran and serum; kg or L
    tasks: Mapping[str, Entry] = field(default_factory=dict)  # what was last said of each
    works: tuple[Entry, ...] = ()
    damaged: frozenset[str] = frozenset()
    clashes: tuple[Clash, ...] = ()
    counted: int = 0  # entries that it was made from
    last: Entry | None = None
    text: str = ""  # of the site file
    stands: Mapping[str, str] = field(default_factory=dict)  # vessels that were moved since
    is_whole: bool = True  # whether it holds every batch, task and work, or those alone that a new entry can touch

    def must(self) -> tuple[Site, Situation]:
        """Return site and situation.

        Raises
        ------
        Impossible
            If no site has been set yet.
        """
        if self.site is None or self.situation is None:
            raise Impossible("the logbook holds no site yet;", "give it one first: sourloam import SITE.toml.")
        return self.site, self.situation

    def vessel(self, id_: str) -> VesselState:
        """Return how a vessel is.

        Raises
        ------
        Impossible
            If there is none of that id.
        """
        site, situation = self.must()
        found = next((each for each in situation.vessels if each.vessel == id_), None)
        if found is None:
            raise Impossible(f'there is no vessel "{id_}";', f"there are: {_named(site.vessels)}.")
        return found

    def place(self, id_: str) -> PlaceState:
        """Return how a place is.

        Raises
        ------
        Impossible
            If there is none of that id.
        """
        site, situation = self.must()
        found = next((each for each in situation.places if each.place == id_), None)
        if found is None:
            places = [*site.beds, *site.piles, *site.worm_bins, *site.soil_tubs, *site.takers]
            raise Impossible(f'there is no place "{id_}";', f"there are: {_named(places)}.")
        return found

    def batch(self, vessel: VesselState) -> BatchRecord:
        """Return the record of the batch that is in a vessel; of one found in use, what is known of it."""
        known = self.batches.get(vessel.batch)
        if known is not None:
            return known
        began = vessel.first_layer_on or self.must()[1].on
        held = vessel.contents
        return BatchRecord(
            vessel.batch, vessel.vessel, began, 0, held.scraps_kg, held.bran_kg, sealed_on=vessel.sealed_on
        )

    def with_vessel(self, vessel: VesselState, record: BatchRecord | None = None) -> "State":
        """Return the state with a vessel changed, and the record of its batch."""
        batches = self.batches if record is None else {**self.batches, record.id: record}
        return replace(self, situation=self.must()[1].with_vessel(vessel), batches=batches)

    @property
    def past(self) -> Past:
        """Return what became of the batches that were seen to their end, the site file's own count included."""
        assert self.is_whole, "a part of a state does not know every batch"  # noqa: S101 - a fault of ours
        before = self.site.past if self.site else Past()
        ended = [each for each in self.batches.values() if each.ended_on or each.failed]
        failed = {
            how: getattr(before, how) + sum(each.failed == how for each in ended)
            for how in ("putrid", "yeasty", "mouldy", "stuck", "drowned")
        }
        return replace(before, batches=before.batches + len(ended), **failed)


def _named(things: Any) -> str:  # noqa: ANN401 - vessels or places
    return ", ".join(each.id for each in things) or "none"
