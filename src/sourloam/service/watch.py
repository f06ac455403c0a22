"""Use case: what is going on in a vessel, by what its keeper saw and smelled; and the forecast corrected by it.

`watched` is the one way by which anything else gets a corrected forecast.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.base.figure import SEED
from sourloam.evidence.cautions import load_cautions
from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.evidence.signs import load_signs
from sourloam.evidence.sources import load_sources
from sourloam.plan.loads import ABSORBENT
from sourloam.plan.words import Speech
from sourloam.science.ferment.ensemble.changes import AtHand
from sourloam.science.ferment.ensemble.dates import dates_of
from sourloam.science.ferment.ensemble.forecast import Forecast, Limits
from sourloam.science.ferment.stack.life import Run
from sourloam.science.readings.kinds import Reading
from sourloam.science.readings.read import Setting, read_readings
from sourloam.science.readings.signs import Outcome, Signs
from sourloam.science.watch.acts import Acts, acts
from sourloam.science.watch.conflict import conflicts, red_flags
from sourloam.science.watch.corrected import corrected
from sourloam.science.watch.diagnosis import chance_amiss, diagnosis, fault_chances
from sourloam.science.watch.filter import Means, Weighed, watch, weigh
from sourloam.science.watch.next_look import looks
from sourloam.science.watch.parameters import WatchParameters
from sourloam.service.assemble import known_of, living_of
from sourloam.service.batch_of_book import readings_of
from sourloam.service.batches import AskedBatch, batch_of, named_of
from sourloam.service.named import site_named
from sourloam.service.portions import BRAN, SUGAR
from sourloam.views.batch import Batch
from sourloam.views.ferment import FermentView, ferment_view
from sourloam.views.ferment_vessel import cut_open
from sourloam.views.watch import Found, WatchView, watch_view

MEMBERS: Final = 600
USUAL_AMOUNT: Final = "10 kg mixed household scraps"
USUAL_C: Final = "18 C"
USUAL_DAY: Final = 14
BEYOND_D: Final = 21  # that are followed after the last reading
MOST_DAYS: Final = 90  # as long as the longest published ferment that the model was held to
STAYS: Final = (
    "The model is held to ferments of up to {last} days: from then on a shut and drained vessel is taken to stay as it "
    "is. By custom it does so for a year or two, and silage was as sour after a year."
)

Compiler = Callable[[], Run]
Says = Callable[[str], None]


@dataclass(frozen=True)
class AskedWatch:
    """What a watch is asked with: a batch, or plain facts, or nothing; and what was read."""

    batch: AskedBatch
    readings: tuple[str, ...] = ()
    day: int | None = None  # of what names no day, and on which the answer is given
    is_advised: bool = True


def watched(asked: AskedWatch, *, compiler: Compiler | None = None, says: Says | None = None) -> WatchView:
    """Return what is going on in a vessel, with its corrected forecast; `says` hears how far it is.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    tell = says or (lambda _: None)
    taken, assumed = _with_usual(asked.batch)
    known = known_of(taken.members)
    batch = batch_of(taken, known)
    signs = signs_of(batch, taken)
    laid_kg = sum(each.mass.value for layer in batch.filling.layers for each in layer.portions)
    setting = Setting(signs, batch.first, _day_of(asked), batch.filling.kept.volume_l, laid_kg, batch.last_d)
    recorded, unread = _recorded(asked.batch, batch)
    readings = read_readings((*recorded, *asked.readings), setting)
    day = _now(asked, readings)
    batch = _long_enough(batch, day)
    stays = (STAYS.format(last=MOST_DAYS),) if day > len(batch.filling.kept.room_c) else ()
    batch = replace(batch, assumptions=(*stays, *assumed, *unread, *batch.assumptions))
    means = Means(
        load_parameters(WatchParameters, "watch", members=taken.members),
        compiler,
        lambda done, of: tell(f"Followed {done} of {of}"),
    )
    weighed = watch(batch.filling, living_of(taken.members), readings, signs, means=means)
    limits = Limits(batch.least_d, known.load.critical_ph_scatter.members, batch.has_animal, batch.past)
    tell("Looking at what would help")
    tried = _acts(weighed, day, limits, compiler) if asked.is_advised else Acts((), ())
    tell("")
    found = _found(weighed, day, limits, tried=tried)
    before = corrected(weigh(weighed.ensemble, (), signs), limits).forecast
    after = corrected(weighed, limits).forecast
    sources, cautions = load_sources(), {each.id: each for each in load_cautions()}

    def seen(forecast: Forecast) -> FermentView:
        view = ferment_view(
            forecast, batch, beside={}, changes=(), sources=sources, cautions=cautions, vessel=known.vessel
        )
        shown = min(day, len(batch.filling.kept.room_c))
        inside = cut_open(
            forecast, batch, shown, f"as it is inside by all that was read, day {day}", vessel=known.vessel
        )
        return replace(view, vessels=(inside,))

    return watch_view(found, batch, seen(after), before=seen(before), signs=signs, sources=sources)


def _recorded(asked: AskedBatch, batch: Batch) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what the logbook holds of readings of a batch, and what of them says nothing to the model."""
    named = named_of(asked)
    record = named.batches.get(asked.batch[0]) if named else None
    if record is None or batch.first is None:
        return (), ()
    read, unread = readings_of(record, batch.first)
    return read, tuple(f'Nothing follows from "{each}": no such sign is known.' for each in unread)


def signs_of(batch: Batch, asked: AskedBatch) -> Signs:
    """Return the table of signs with what a site has seen so far counted on.

    Raises
    ------
    BadInput
        If a line of it names no sign that is known.
    """
    signs = load_signs()
    named = named_of(asked) or (site_named(asked.site) if asked.site is not None else None)
    past = named.site.past if named is not None else batch.past
    outcomes, problems = [], []
    for each in past.signs:
        sign = signs.find(each.kind, each.words)
        if sign is None:
            names = ", ".join(one.also[0] if one.also else one.id for one in signs.of(each.kind))
            found = f'"{each.words}" is no {each.kind} that is known;'
            problems.append(Problem(f'past.signs "{each.typed}"', found, f"take one of: {names}."))
        else:
            outcomes.append(Outcome(sign.id, each.column, each.seen, each.of))
    if problems:
        raise BadInput("--site", tuple(problems))
    return signs.updated(outcomes)


def _with_usual(asked: AskedBatch) -> tuple[AskedBatch, tuple[str, ...]]:
    """Return a batch where none was named: a bucket full of usual scraps, and say so."""
    if asked.batch:
        return asked, ()
    said = []
    if asked.at is None:
        said.append("It stands at 18 °C (--at).")
    said.append("Nothing is known of what lies in it: 10 kg of mixed household scraps are taken, in a bucket of 20 L.")
    speech = Speech(asked.units or "metric")
    said = [speech.told(each) for each in said]
    return replace(asked, batch=(USUAL_AMOUNT,), at=asked.at or USUAL_C), tuple(said)


def _day_of(asked: AskedWatch) -> float | None:
    """Return the day of a reading that names none, where one can be told."""
    if asked.day is not None:
        return float(asked.day)
    return None if asked.batch.batch else float(USUAL_DAY)


def _now(asked: AskedWatch, readings: tuple[Reading, ...]) -> int:
    """Return the day on which the answer is given: that of the last reading, unless another is named."""
    usual = float(USUAL_DAY if asked.day is None else asked.day)
    last = max((each.day for each in readings), default=usual)
    if asked.day is not None:
        if asked.day < last:
            found = f"day {asked.day} is before the last reading, of day {last:g};"
            raise BadInput("--day", (Problem("", found, "name a later day, or leave it out."),))
        return asked.day
    return round(last)


def _long_enough(batch: Batch, day: int) -> Batch:
    """Return a batch that is followed for some weeks after the last reading; the last day's warmth goes on.

    No longer than the model is known to hold: a leak that is too small to matter in a season would fill a vessel
    with mould in two years of it, though shut silage has next to none after a year (orosz2013). What is said of a
    later day is what was so on the last one.
    """
    kept = batch.filling.kept
    room = np.asarray(kept.room_c, dtype=float)
    wanted = max(room.size, min(day + BEYOND_D, MOST_DAYS))
    if wanted <= room.size:
        return batch
    longer = np.append(room, np.full(wanted - room.size, room[-1]))
    return replace(batch, filling=replace(batch.filling, kept=replace(kept, room_c=longer)))


def _acts(weighed: Weighed, day: int, limits: Limits, compiler: Compiler | None) -> Acts:
    table = load_materials()
    at_hand = AtHand(table[BRAN], table[SUGAR], table[ABSORBENT])
    return acts(weighed, day, limits.critical_scatter, at_hand, compiler=compiler, seed=SEED)


def _found(weighed: Weighed, day: int, limits: Limits, *, tried: Acts) -> Found:
    """Return all that the readings say."""
    ensemble = weighed.ensemble
    ready = dates_of(
        ensemble.followed,
        ensemble.filling,
        scatter=limits.critical_scatter,
        acid_m2_per_d=ensemble.living.model.acid_m2_per_d.members,
    ).ready_d
    return Found(
        day=day,
        readings=weighed.readings,
        diagnosis=diagnosis(weighed, day),
        faults=fault_chances(weighed),
        amiss=chance_amiss(weighed, day),
        is_known=weighed.is_known,
        effective=weighed.effective,
        conflicts=conflicts(weighed.readings, weighed.signs),
        red=red_flags(weighed.readings, weighed.signs),
        looks=looks(weighed, day, ready),
        acts=tried,
    )
