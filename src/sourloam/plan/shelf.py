"""The shelf on one day: what lies in each vessel, layer by layer, for a drawing cut open to scale."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Final

from sourloam.fleet.life import BatchLife, Life, Load
from sourloam.fleet.setting import medians, set_up
from sourloam.fleet.simulate import room_l, simulate
from sourloam.fleet.world import Numbers, World
from sourloam.plan.question import Question
from sourloam.science.vessel.geometry import floor_m2
from sourloam.science.vessel.settling import settled_frac
from sourloam.site.situation import Phase, VesselState
from sourloam.site.vessels import Vessel

NEARLY: Final = 0.9  # as good as the most, so that the first such day is shown and not one at the end of the year


@dataclass(frozen=True)
class Layer:
    """One addition to a vessel, as high as it has settled."""

    on: date
    scraps_kg: float
    bran_kg: float
    litres: float


@dataclass(frozen=True)
class OnShelf:
    """A vessel on the day: its body, and what is in it, the oldest layer first."""

    vessel: str
    volume_l: float
    width_m: float
    height_m: float
    below_grid_l: float  # room under the grid
    fill_limit_frac: float
    has_drain: bool
    stands: str
    phase: Phase
    batch: str
    mass_kg: float
    liquid_l: float  # under the grid, or standing where there is none
    ready: date | None  # where it is ready already
    layers: tuple[Layer, ...]


@dataclass(frozen=True)
class Shelf:
    """All vessels on one day."""

    on: date
    vessels: tuple[OnShelf, ...]


def busiest_shelf(question: Question, life: Life) -> Shelf:
    """Return the shelf on the first day on which it is about as full as ever, with as many vessels in use as ever."""
    day = _busiest_day(question, life)
    situation, world = set_up(question.site, question.year, medians(question.knowledge), situation=question.situation)
    until = simulate(situation, day + 1, world)
    on = question.first + timedelta(days=day)
    return Shelf(on, tuple(_on_shelf(question, each, until, world) for each in until.end.vessels))


def _busiest_day(question: Question, life: Life) -> int:
    last = question.first + timedelta(days=question.days)
    spans = [(each.first_layer_on, each.placed_on if each.is_placed else last) for each in life.batches]
    used = [
        sum(first <= on < (end or last) for first, end in spans)
        for on in (question.first + timedelta(days=each) for each in range(question.days))
    ]
    held = [each.held_kg if count == max(used) else 0.0 for each, count in zip(life.days, used, strict=True)]
    return next(day for day, mass in enumerate(held) if mass >= NEARLY * max(held))


def _on_shelf(question: Question, state: VesselState, life: Life, world: World) -> OnShelf:
    vessel = next(each for each in question.site.vessels if each.id == state.vessel)
    ratio = question.knowledge.vessel.height_to_width.value
    return on_shelf(vessel, state, _layers(state, life, world), height_to_width=ratio)


def on_shelf(vessel: Vessel, state: VesselState, layers: tuple[Layer, ...], *, height_to_width: float) -> OnShelf:
    """Return a vessel as it stands, its body as a usual one of its size."""
    width = math.sqrt(4.0 * float(floor_m2(vessel.volume_l, height_to_width)) / math.pi)
    return OnShelf(
        vessel=vessel.id,
        volume_l=vessel.volume_l,
        width_m=width,
        height_m=width * height_to_width,
        below_grid_l=vessel.below_grid_l,
        fill_limit_frac=vessel.fill_limit_frac,
        has_drain=vessel.has_drain,
        stands=vessel.stands,
        phase=state.phase,
        batch="" if state.phase == "empty" else state.batch,
        mass_kg=state.mass_kg,
        liquid_l=state.below_grid_l,
        ready=state.ready_on,
        layers=layers,
    )


def _layers(state: VesselState, life: Life, world: World) -> tuple[Layer, ...]:
    """Return the layers, scaled so that together they take up the room that the vessel's contents take.

    What was in it before the first day lies below as one layer.
    """
    batch = next((each for each in life.batches if each.id == state.batch and state.phase != "empty"), None)
    if batch is None or batch.contents.mass_kg == 0.0:
        return ()
    loads = [*_before(batch, life, world), *(each for each in life.loads if each.batch == state.batch)]
    left = state.contents.mass_kg / batch.contents.mass_kg  # after a part of it went to a place
    layers = settled(loads, world.numbers, on=life.days[-1].on, left_frac=left)
    heights = sum(each.litres for each in layers)
    times = room_l(state, world) / heights if heights else 0.0
    return tuple(replace(each, litres=each.litres * times) for each in layers)


def settled(loads: Iterable[Load], numbers: Numbers, *, on: date, left_frac: float = 1.0) -> tuple[Layer, ...]:
    """Return loads as layers, each as high as it has settled by a day; `left_frac` of them is still there."""
    return tuple(
        Layer(
            each.on,
            each.contents.scraps_kg * left_frac,
            each.contents.bran_kg * left_frac,
            each.contents.pressed_l
            * left_frac
            * float(settled_frac((on - each.on).days, numbers.settles_frac, numbers.settling_d)),
        )
        for each in loads
    )


def _before(batch: BatchLife, life: Life, world: World) -> tuple[Load, ...]:
    """Return what a batch held before the first day, as one load."""
    if batch.first_layer_on >= world.first:
        return ()
    held = batch.contents
    for load in life.loads:
        held = held.plus(load.contents.times(-1.0)) if load.batch == batch.id else held
    return (Load(batch.id, batch.first_layer_on, held, 0.0),)
