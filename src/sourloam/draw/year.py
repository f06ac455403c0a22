"""What a drawing of the year shows, whichever way its time runs: rows, names, marks, and the finding."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from types import MappingProxyType
from typing import Final

from sourloam.base.days import Span
from sourloam.draw.canvas import Point
from sourloam.draw.scale import TimeScale, day_words, span_words
from sourloam.plan.answer import Batch, BranLot, Ground
from sourloam.plan.words import Speech, days
from sourloam.views.plan import PlanView

RESTING: Final = frozenset({"bed", "soil_tub"})  # the others take what comes; nobody waits for their soil this year
WORTH_A_MARK_FRAC: Final = 0.1  # of a batch; smaller parts stand in the table only
BOUND_BY: Final = MappingProxyType({"vessels": "all vessels full", "places": "no place free"})


@dataclass(frozen=True)
class Frame:
    """Where time and height lie on the page: time to the right and up from `base`, or down and right from it."""

    time: TimeScale
    base: float
    height: float  # of a full vessel, of the longest rest, of a full bag
    upright: bool = False  # time runs down

    def at(self, along: float, high: float = 0.0) -> Point:
        """Return the point `high` above the base line, `along` the time."""
        return (self.base + high, along) if self.upright else (along, self.base - high)

    def box(self, start: float, end: float, *, low: float = 0.0, high: float | None = None) -> tuple[Point, Point]:
        """Return the corner and the size of a stretch of time."""
        top = self.height if high is None else high
        corner = (self.base + low, start) if self.upright else (start, self.base - top)
        return corner, ((top - low, end - start) if self.upright else (end - start, top - low))


@dataclass(frozen=True)
class Vessel:
    """One vessel's year."""

    id: str
    name: str
    litres: float | None
    batches: tuple[Batch, ...]


@dataclass(frozen=True)
class Rest:
    """A batch in the ground, from the day it came to the day before the ground may be used."""

    on: date
    usable_on: date
    mass_kg: float

    @property
    def days(self) -> int:
        """Return how long it rests."""
        return (self.usable_on - self.on).days


@dataclass(frozen=True)
class Place:
    """One place's year; `mark` is its number wherever its name does not fit."""

    id: str
    name: str
    mark: str
    ground: Ground
    rests: tuple[Rest, ...]


@dataclass(frozen=True)
class Sown:
    """A planting: what is written beside the sprout, and whether the ground is still at rest."""

    on: date
    words: str
    too_soon: bool


@dataclass(frozen=True)
class Lot:
    """A batch of bran: from the day it is begun to the day it is dry, or the day it is bought."""

    begin: date
    dry: date
    words: tuple[str, str]


def vessels(view: PlanView) -> tuple[Vessel, ...]:
    """Return the vessels in the order in which they stand, those without a batch included."""
    litres = {each.vessel: each.volume_l for each in view.shelf.vessels}
    ids = dict.fromkeys([*litres, *(each.vessel for each in view.batches)])
    return tuple(
        Vessel(
            each,
            view.names.get(each, each),
            litres.get(each),
            tuple(batch for batch in view.batches if batch.vessel == each),
        )
        for each in ids
    )


def places(view: PlanView) -> tuple[Place, ...]:
    """Return the places that have something to show: beds always, the others if they got anything."""
    shown = [each for each in view.ground if each.kind == "bed" or each.got_kg > 0.0]
    found: dict[str, list[Rest]] = {each.place: [] for each in shown}
    for batch in view.batches:
        for placing in batch.placings:
            found[placing.place].append(Rest(placing.on, placing.usable_on, placing.mass_kg))
    return tuple(
        Place(
            each.place, view.names.get(each.place, each.place), str(at), each, tuple(sorted(found[each.place], key=_on))
        )
        for at, each in enumerate(shown, 1)
    )


def _on(rest: Rest) -> date:
    return rest.on


def marks(places: Iterable[Place]) -> Mapping[str, str]:
    """Return the number of each place."""
    return {each.id: each.mark for each in places}


def placed(batch: Batch) -> Iterator[tuple[tuple[date, ...], str]]:
    """Give each place that got a part of a batch worth a mark, with the days on which it did."""
    whole = sum(each.mass_kg for each in batch.placings)
    found: dict[str, list[date]] = {}
    for each in batch.placings:
        if each.mass_kg >= WORTH_A_MARK_FRAC * whole:
            found.setdefault(each.place, []).append(each.on)
    for place, on in sorted(found.items(), key=lambda each: each[1][-1]):
        yield tuple(on), place


def left_on(batch: Batch) -> date | None:
    """Return the day on which the vessel is empty again."""
    return None if batch.waits_for else batch.placed


def longest_rest(places: Iterable[Place]) -> int:
    """Return the most days that any ground rests: the scale of all rests."""
    return max((rest.days for each in places if each.ground.kind in RESTING for rest in each.rests), default=1)


def resting(rests: Sequence[Rest]) -> tuple[tuple[date, int], ...]:
    """Return each day on which ground rests, with the days that are still to go."""
    left: dict[date, int] = {}
    for rest in rests:
        for gone in range(rest.days):
            on = rest.on + timedelta(days=gone)
            left[on] = max(left.get(on, 0), rest.days - gone)
    return tuple(sorted(left.items()))


def sown(place: Place) -> tuple[Sown, ...]:
    """Return what is planted at a place."""
    return tuple(
        Sown(on, f"{crop}: too soon" if warning else crop, bool(warning))
        for crop, on, warning in place.ground.plantings
    )


def lots(view: PlanView) -> tuple[Lot, ...]:
    """Return the bran that is made or bought, by day."""
    found = [lot for each in view.bran for lot in _of(each, view.speech)]
    return tuple(sorted((each for each in found if each.begin <= view.last), key=lambda each: each.begin))


def _of(lot: BranLot, speech: Speech) -> Iterator[Lot]:
    for kind, on, _ in lot.steps:
        if kind == "buy":
            yield Lot(on, on, (f"buy {speech.kg(lot.bought_kg)}", day_words(on)))
    made = [on for kind, on, _ in lot.steps if kind != "buy"]
    if made:
        words = (f"begin {day_words(made[0])}", f"{speech.kg(lot.bran_kg)} dry {day_words(lot.usable_on)}")
        yield Lot(made[0], lot.usable_on, words)


def bag(view: PlanView) -> tuple[tuple[date, float], ...]:
    """Return the bran in the bag on the days on which it changes, and on the first and last."""
    kept = list(view.bran_on_hand[:1])
    for before, each in pairwise(view.bran_on_hand):
        if abs(each[1] - before[1]) > 1e-9:
            kept += [before, each] if kept[-1] != before else [each]
    last = view.bran_on_hand[-1:]
    return (*kept, *(each for each in last if kept[-1] != each))


def stalled_days(view: PlanView) -> int:
    """Return on how many days scraps have nowhere to go; a stall may hold days without any."""
    return round(view.reasons["stall_days_per_year"].number.value or 0.0)


def stall_words(view: PlanView) -> tuple[Span, str] | None:
    """Return the longest stall and what is said of all; nothing where there is none."""
    if not view.stalls:
        return None
    longest = max(view.stalls, key=lambda each: each.last - each.first)
    span = Span(longest.first, longest.last)
    why = BOUND_BY.get(longest.binding, longest.binding)
    if len(view.stalls) == 1:
        return span, f"{span_words(span.first, span.last)}, {why}"
    if stalled_days(view) == len(view.stalls) * span.days:
        return span, f"{len(view.stalls)} times {days(span.days)}, {why}"
    return span, f"the longest: {span_words(span.first, span.last)}, {why}"


def finding(view: PlanView) -> str:
    """Return the sentence that is true of this year."""
    return view.summary[0] if view.summary else f"The year of {view.site}"


def described(view: PlanView) -> str:
    """Return what the drawing holds, for someone who does not see it."""
    beds = sum(each.kind == "bed" for each in view.ground)
    stall = f"Scraps wait on {days(stalled_days(view))}. " if view.stalls else "No scraps wait. "
    return (
        f"{view.site}, {day_words(view.first)} {view.first.year} to {day_words(view.last)} {view.last.year}: "
        f"{len(view.batches)} fillings of {_counted(len(vessels(view)), 'vessel')}, as bands that rise while it fills; "
        f"{_counted(beds, 'bed')}; the bran in the bag. {stall}The table has the same data."
    )


def _counted(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"


def lanes(spans: Sequence[tuple[float, float]], *, gap: float = 8.0) -> tuple[int, ...]:
    """Return for each stretch the first lane in which it does not touch one before it."""
    taken: list[tuple[int, tuple[float, float]]] = []
    for each in spans:
        lane = next(
            at for at in range(len(spans)) if all(at != lane or _apart(each, span, gap) for lane, span in taken)
        )
        taken.append((lane, each))
    return tuple(lane for lane, _ in taken)


def _apart(one: tuple[float, float], other: tuple[float, float], gap: float) -> bool:
    return one[1] + gap <= other[0] or other[1] + gap <= one[0]


def spread(wanted: Sequence[float], *, gap: float, last: float) -> tuple[float, ...]:
    """Return places in the same order, each as near after its wanted one as a gap and a last place allow."""
    found: list[float] = []
    for each in wanted:
        found.append(max(each, found[-1] + gap) if found else each)
    limit = last
    for at in reversed(range(len(found))):
        found[at] = min(found[at], limit)
        limit = found[at] - gap
    return tuple(found)
