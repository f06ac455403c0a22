"""Each batch of the rotation with the interval of its ready date."""

from datetime import date, timedelta

from sourloam.fleet.life import BatchLife, Life
from sourloam.fleet.setting import temperatures_c
from sourloam.plan.answer import Batch
from sourloam.plan.question import Question
from sourloam.science.ferment.ferment import ferment
from sourloam.science.ferment.outcome import Filling, Outcome
from sourloam.science.inoculum.keeping import BranLot
from sourloam.site.vessels import Vessel

LOOK_AHEAD_D = 240  # a batch that is not ready by then waits for warmer days than this year has


def batches(question: Question, life: Life) -> tuple[Batch, ...]:
    """Return the batches of a rotation with their forecasts, in the order of their first layers."""
    vessels = {each.id: each for each in question.site.vessels}
    planned = (_batch(question, vessels[each.vessel], each) for each in life.batches)
    return tuple(sorted(planned, key=lambda each: (each.first_layer, each.id)))


def outcome(question: Question, vessel: Vessel, batch: BatchLife) -> Outcome | None:
    """Return the ensemble of a sealed batch, or nothing while it is being filled."""
    if batch.sealed_on is None:
        return None
    series = temperatures_c(vessel, batch.sealed_on + timedelta(days=1), LOOK_AHEAD_D, question.climate)
    filling = Filling(batch.id, batch.first_layer_on, batch.sealed_on, batch.contents)
    bran = BranLot(batch.first_layer_on, batch.contents.bran_kg) if batch.contents.bran_kg > 0.0 else None
    return ferment(filling, series, bran, question.knowledge.ferment, vessel=question.knowledge.vessel)


def _ready(question: Question, vessel: Vessel, batch: BatchLife) -> tuple[date | None, date | None, date | None]:
    """Return the interval of the ready date around that of the rotation, which is the one that tasks go by."""
    if batch.ready_on is not None and batch.ready_on <= question.first:
        return batch.ready_on, batch.ready_on, batch.ready_on
    end = outcome(question, vessel, batch)
    low, middle, high = (end.ready_on(each) if end else None for each in (0.05, 0.5, 0.95))
    ready = batch.ready_on or middle
    if ready is None:
        return low, None, high
    return min(low or ready, ready), ready, None if high is None else max(high, ready)


def _batch(question: Question, vessel: Vessel, batch: BatchLife) -> Batch:
    low, ready, high = _ready(question, vessel, batch)
    return Batch(
        id=batch.id,
        vessel=batch.vessel,
        first_layer=batch.first_layer_on,
        sealed=batch.sealed_on,
        ready=ready,
        ready_low=low,
        ready_high=high,
        scraps_kg=batch.contents.scraps_kg,
        bran_kg=batch.contents.bran_kg,
        placings=batch.placings,
        waits_for=question.speech.told(batch.waits_for),
    )
