"""What a record says of its site: values of its own beside the usual ones, with their interval from the first one on.

Nothing of it is taken by itself: each is offered, with what to write in the site file.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law, leaf
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.logbook.entries import LayerAdded, Stocked
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import BatchRecord, State
from sourloam.logbook.stocks import BRAN, IN

NINETY: Final = 1.645  # standard deviations from the middle to the end of a 90 % interval, of the normal law
WEEK_D: Final = 7
ENOUGH: Final = 3  # values from which on their own scatter is taken
LEAST_SD: Final = 0.02


class Usual(NamedTuple):
    """The usual values, each as a figure, and what they weigh against what was seen."""

    week_kg: Figure
    kg_per_l: Figure
    fill_d: Figure
    ready_d: Figure
    leachate_l_per_kg: Figure
    bran_g_per_kg: Figure
    handful_g: Figure
    failing: Figure
    weighs: Figure  # batches that a usual value stands for


@dataclass(frozen=True)
class Lesson:
    """A value of this site beside the usual one."""

    site: Figure
    usual: Figure
    count: int  # of what was seen
    of: str  # what was counted: batches, weeks
    write: str = ""  # what to write in the site file, where a key takes it


@law("(usual ^ its weight x middle of what was seen ^ their number) ^ (1 / both); the geometric mean", unit="1")
def pooled(usual: ArrayLike, seen: ArrayLike, weighs: ArrayLike, count: ArrayLike) -> float | FloatArray:
    """Return a value between the usual one and what was seen: nearer to what was seen, the more there is of it."""
    weight, many = np.asarray(weighs, dtype=float), np.asarray(count, dtype=float)
    whole = weight * np.log(np.asarray(usual, dtype=float)) + many * np.log(np.asarray(seen, dtype=float))
    return keep_shape(np.exp(whole / (weight + many)))


@law("(usual share x its weight + failed) / (its weight + batches), with the scatter of so few, on odds", unit="1")
def failing_after(
    usual: ArrayLike, weighs: ArrayLike, *, failed: ArrayLike, count: ArrayLike, scatter: ArrayLike
) -> float | FloatArray:
    """Return the part of batches that fails, after some were seen to their end.

    The mean of a Beta distribution that weighs as much as some batches; its
    scatter is taken on the logarithm of the odds, so that it stays a part.
    """
    whole = np.asarray(weighs, dtype=float) + np.asarray(count, dtype=float)
    mean = (np.asarray(usual) * np.asarray(weighs) + np.asarray(failed)) / whole
    sd = np.sqrt(1.0 / ((whole + 1.0) * mean * (1.0 - mean)))
    odds = np.log(mean / (1.0 - mean)) + np.asarray(scatter) * sd
    return keep_shape(1.0 / (1.0 + np.exp(-odds)))


def lessons(state: State, entries: Iterable[Entry], usual: Usual) -> tuple[Lesson, ...]:
    """Return what the record says, value by value; one of which nothing was seen yet is the usual one."""
    site, _ = state.must()
    rooms = {each.id: each.usable_l for each in site.vessels}
    drains = {each.id for each in site.vessels if each.has_drain}
    records = tuple(state.batches.values())
    sealed = [each for each in records if each.sealed_on and each.laid]
    ended = [each for each in records if each.ended_on and each.scraps_kg > 0.0]
    drained = [each for each in ended if each.vessel in drains and each.drawn_l > 0.0]
    ready = [each for each in records if each.sealed_on and each.ready_on and each.ready_on > each.sealed_on]
    dense = [(each.scraps_kg + each.bran_kg) / rooms[each.vessel] for each in sealed if each.vessel in rooms]
    weeks = weeks_kg(records)
    handfuls = [usual.handful_g.value * each for each in handful_times(entries)]
    found = (
        (usual.week_kg, weeks, "weeks", _amount(site.streams, weeks)),
        (usual.kg_per_l, dense, "batches", ""),
        (usual.fill_d, [_days(each.first_layer_on, each.sealed_on) for each in sealed], "batches", ""),
        (usual.ready_d, [_days(each.sealed_on, each.ready_on) for each in ready], "batches", ""),
        (usual.leachate_l_per_kg, [each.drawn_l / each.scraps_kg for each in drained], "batches", ""),
        (usual.bran_g_per_kg, [1000.0 * each.bran_kg / each.scraps_kg for each in ended], "batches", ""),
        (usual.handful_g, handfuls, "counts of the bran", '[keeper] handful = "{value:.0f} g"'),
    )
    told = [_lesson(figure, seen, usual.weighs, of=of, write=write) for figure, seen, of, write in found]
    return (*told, _failing(state, usual))


def weeks_kg(records: Iterable[BatchRecord]) -> list[float]:
    """Return what was laid in each whole week, Monday to Sunday, from the first to the last layer."""
    by_week: dict[date, float] = defaultdict(float)
    days = []
    for record in records:
        for each in record.laid:
            mass = sum(kg for _, kg in each.parts)
            if mass > 0.0:
                days.append(each.on)
                by_week[_monday(each.on)] += mass
    if not days:
        return []
    first, last = min(days), max(days)
    begin = _monday(first) if first == _monday(first) else _monday(first) + timedelta(days=WEEK_D)
    end = _monday(last + timedelta(days=1))
    count = max((end - begin).days // WEEK_D, 0)
    weeks = [by_week.get(begin + timedelta(days=WEEK_D * each), 0.0) for each in range(count)]
    return [each for each in weeks if each > 0.0]


def handful_times(entries: Iterable[Entry]) -> list[float]:
    """Return how many times a handful was what it is taken to be, by each count of the bran since the one before.

    Between two counts the bag lost so much; what was weighed of it is known, the rest went by the handful.
    """
    found: list[float] = []
    counted: float | None = None
    by_hand, change = 0.0, 0.0
    for entry in sorted(entries, key=lambda each: each.at):
        value = entry.value
        if isinstance(value, LayerAdded) and value.bran_kg:
            is_by_hand = "hand" in entry.typed.casefold()
            by_hand += value.bran_kg if is_by_hand else 0.0
            change -= 0.0 if is_by_hand else value.bran_kg
        elif isinstance(value, Stocked) and value.thing == BRAN and value.mass_kg is not None:
            if value.act != "counted":
                change += value.mass_kg if value.act in IN else -value.mass_kg
                continue
            if counted is not None and by_hand > 0.0 and (gone := counted + change - value.mass_kg) > 0.0:
                found.append(gone / by_hand)
            counted, by_hand, change = value.mass_kg, 0.0, 0.0
    return found


def _lesson(usual: Figure, seen: Sequence[float], weighs: Figure, *, of: str, write: str) -> Lesson:
    values = [each for each in seen if each > 0.0]
    if not values:
        return Lesson(usual, usual, 0, of)
    members = usual.members.size
    middle = float(np.exp(np.mean(np.log(values))))
    own_sd = float(np.std(np.log(values), ddof=1)) if len(values) >= ENOUGH else 0.0
    usual_sd = float(np.log(max(usual.high, usual.value * 1.0001) / max(usual.low, 1e-12))) / (2.0 * NINETY)
    sd = max(own_sd or usual_sd, LEAST_SD) / np.sqrt(len(values))
    spread = Spread(middle, middle * float(np.exp(-NINETY * sd)), middle * float(np.exp(NINETY * sd)), "lognormal")
    words = f"what was seen: {len(values)} {of}"
    name = f"{usual.name}.seen"
    seen_figure = leaf(name, spread, usual.unit, words=words, source="keeper", basis=Basis.READ, members=members)
    inputs: Mapping[str, Figure] = {
        "usual": usual,
        "seen": seen_figure,
        "weighs": weighs,
        "count": _exactly("count", len(values), of, members),
    }
    site = derive(f"{usual.name}.site", pooled, words=usual.words, **inputs)
    site = replace(site, unit=usual.unit)
    return Lesson(site, usual, len(values), of, write.format(value=site.value))


def _failing(state: State, usual: Usual) -> Lesson:
    past, members = state.past, usual.failing.members.size
    if not past.batches:
        return Lesson(usual.failing, usual.failing, 0, "batches")
    normal = Spread(0.0, -NINETY, NINETY, "normal")
    site = derive(
        "failing.site",
        failing_after,
        words=usual.failing.words,
        usual=usual.failing,
        weighs=usual.weighs,
        failed=_exactly("failed", past.failed, "batches", members),
        count=_exactly("batches", past.batches, "batches", members),
        scatter=leaf("scatter", normal, "1", words="scatter of so few batches", source="judgement", members=members),
    )
    return Lesson(site, usual.failing, past.batches, "batches")


def _exactly(name: str, value: float, words: str, members: int) -> Figure:
    exactly = Spread.exactly(float(value))
    return leaf(name, exactly, "1", words=words, source="keeper", basis=Basis.READ, members=members)


def _amount(streams: Sequence[object], weeks: Sequence[float]) -> str:
    if len(streams) != 1 or not weeks:
        return ""
    return '[[stream]] amount = "{value:.1f} kg/week"'


def _days(first: date | None, last: date | None) -> float:
    assert first is not None and last is not None  # noqa: PT018, S101 - only such batches are asked about
    return float((last - first).days)


def _monday(on: date) -> date:
    return on - timedelta(days=on.weekday())


def offered(found: Iterable[Lesson]) -> Iterator[Lesson]:
    """Give the lessons that differ from the usual: whose middle lies outside the usual interval or that a key takes."""
    for each in found:
        if each.count and (each.write or not each.usual.low <= each.site.value <= each.usual.high):
            yield each
