"""A situation and its world as rows of numbers, for the compiled life; and what a life of rows comes to."""

import math
from collections.abc import Callable
from datetime import date, timedelta
from typing import Any, Final, NamedTuple

import numpy as np

from sourloam.base.days import daily, weekday
from sourloam.base.numbers import FloatArray
from sourloam.fleet.placing import CRUMBS_KG, LEAST_PART
from sourloam.fleet.simulate import DUST_L, FULL_FRAC
from sourloam.fleet.world import World
from sourloam.science.places.taker import TakerPlace
from sourloam.science.vessel.contents import Contents
from sourloam.science.vessel.leachate import DRIEST_DRY_G_PER_KG, MOST_L_PER_KG, WETTEST_DRY_G_PER_KG
from sourloam.site.situation import Situation, VesselState

EMPTY, FILLING, FERMENTING, READY = range(4)
SCRAPS, BRAN, SCRAPS_DRY, DRY, CARBON, NITROGEN, SODIUM, ANIMAL, LOOSE, PRESSED = range(10)
EXCESS, CLOCK, TO_COME, BELOW, LOST, TIMES = range(6)
PHASE, FILLINGS, FIRST_ON, SEALED_ON, READY_ON, DRAWN_ON, FAILS, WAS_BATCH = range(8)
(D_SCRAPS_KG, D_SCRAPS_L, D_BRAN, D_AWAY_KG, D_AWAY_L, D_DRAWN, D_GAS, D_PLACED_KG, D_PLACED_L) = range(9)
(D_FAILED_KG, D_FAILED_L, D_HELD_KG, D_HELD_L, D_WAITING_L, D_QUEUE, D_BINDS) = range(9, 16)
BEGUN, SEALED, OPEN, EMPTY_FROM, IN_QUEUE = range(5)  # OPEN: the vessel that is being filled, or -1
B_VESSEL, B_FIRST, B_SEALED, B_READY, B_GONE, B_FAILED = range(6)
COLUMNS: Final = 16
NEVER: Final = -(10**9)
BY_VESSELS, BY_PLACES = 1, 2  # what binds on a stalled day

IntArray = np.ndarray[Any, np.dtype[np.int64]]


class Still(NamedTuple):
    """What does not change while the days pass."""

    arrivals: FloatArray  # day, amount
    paces: FloatArray  # spot, day
    log_sd: FloatArray  # spot, day
    spot: IntArray  # of each vessel
    by_id: IntArray  # vessels in the order of their ids
    usable_l: FloatArray
    below_grid_l: FloatArray
    has_drain: IntArray
    bran: FloatArray  # what a kilogram of bran brings
    work: IntArray  # whether a day has time to dig
    steps: FloatArray  # luck of each batch
    fails: IntArray
    comes: IntArray  # taker, day
    agreed_l: FloatArray  # of each taker, at a visit
    takes_meat: IntArray
    last_resort: IntArray
    plain: FloatArray  # P_... below
    has_luck: bool
    asks: bool  # whether places are asked outside


(P_READY, P_DRY_LOSS, P_SETTLES, P_SHRINKS, P_SOFT, P_DRAINS, P_BRAN_HOLDS, P_DRAW_OFF, P_DENSITY) = range(9)
(P_PLANT, P_ANIMAL, P_EVERY, P_HOLDING, P_LEAST, P_FULL, P_DUST, P_CRUMBS, P_PART) = range(9, 18)
(P_MOST_L, P_WETTEST, P_DRIEST) = range(18, 21)


class Held(NamedTuple):
    """What changes: the vessels, what waits, and what is written down."""

    contents: FloatArray  # vessel, amount
    amounts: FloatArray  # vessel, EXCESS ...
    marks: IntArray  # vessel, PHASE ...
    waiting: FloatArray
    visit_l: FloatArray  # of each taker: litres taken today
    offered_kg: FloatArray  # by each taker, for the batch in hand
    days: FloatArray  # day, D_...
    batches: IntArray  # batch, B_...
    heaviest: FloatArray  # one number: what the fullest vessel held
    queue: IntArray  # finished vessels, the oldest first
    counts: IntArray  # BEGUN ...


Run = Callable[[Still, Held, int, int], int]  # day to begin with, day that is placed already
PHASES: Final = ("empty", "filling", "fermenting", "ready")
NO_LOT: Final = 0.0


def still_of(situation: Situation, world: World) -> Still:
    """Return what does not change in a world; the vessels in the order of the situation."""
    first, days = world.first, len(world.arrivals)
    spots = _spots(situation, world)
    takers = [each for name in world.order if isinstance(each := world.places[name], TakerPlace)]
    names = [each.vessel for each in situation.vessels]
    owned = [world.vessels[each] for each in names]
    dates = list(daily(first, days))
    return Still(
        arrivals=np.array(world.arrivals, dtype=float).reshape(days, 10),
        paces=np.array([world.paces[each] for each in spots], dtype=float),
        log_sd=np.array([world.scatter.get(each, (NO_LOT,) * days) for each in spots], dtype=float),
        spot=_whole([_spot_of(each, spots, world) for each in names]),
        by_id=_whole(sorted(range(len(names)), key=names.__getitem__)),
        usable_l=np.array([each.usable_l for each in owned], dtype=float),
        below_grid_l=np.array([each.below_grid_l for each in owned], dtype=float),
        has_drain=_whole([each.has_drain for each in owned]),
        bran=np.array(world.bran_per_kg, dtype=float),
        work=_whole([weekday(each) in world.habits.work_days for each in dates]),
        steps=np.array(world.luck.steps or (0.0,), dtype=float),
        fails=_whole(world.luck.fails or (False,)),
        comes=_whole([[each.taker.comes_on(on) for on in dates] for each in takers]).reshape(len(takers), days),
        agreed_l=np.array([each.agreed_l for each in takers], dtype=float),
        takes_meat=_whole([each.taker.takes_meat for each in takers]),
        last_resort=_whole([each.id in world.last_resorts for each in takers]),
        plain=_plain(world),
        has_luck=bool(world.luck.steps),
        asks=is_asking(world),
    )


def is_asking(world: World) -> bool:
    """Whether the site has places that the compiled life does not know, so that it stops and asks."""
    return not all(isinstance(each, TakerPlace) for each in world.places.values())


def held_of(situation: Situation, days: int, least_d: float) -> Held:
    """Return the vessels of a situation as rows that are changed in place; none is begun twice within `least_d`."""
    count = len(situation.vessels)
    takers = sum(1 for _ in situation.places)
    held = Held(
        contents=np.zeros((count, 10)),
        amounts=np.zeros((count, 6)),
        marks=np.zeros((count, 8), dtype=np.int64),
        waiting=np.array(situation.waiting, dtype=float),
        visit_l=np.zeros(takers),
        offered_kg=np.zeros(takers),
        days=np.zeros((days, COLUMNS)),
        batches=np.full((count * (int(days / max(1.0, least_d)) + 2), 6), NEVER, dtype=np.int64),
        heaviest=np.zeros(1),
        queue=np.zeros(count, dtype=np.int64),
        counts=np.zeros(5, dtype=np.int64),
    )
    held.batches[:, B_FAILED] = 0
    for row, state in enumerate(situation.vessels):
        write_vessel(held, row, state, situation.on)
        if state.phase != "empty":
            held.marks[row, WAS_BATCH] = batch = int(held.counts[BEGUN])
            held.counts[BEGUN] += 1
            held.batches[batch, :B_GONE] = (row, *held.marks[row, FIRST_ON:DRAWN_ON])
            held.heaviest[0] = max(held.heaviest[0], state.contents.mass_kg)
    filling = [row for row, state in enumerate(situation.vessels) if state.phase == "filling"]
    held.counts[OPEN] = filling[0] if filling else -1
    before = [(each.ready_on or situation.on, each.vessel, row) for row, each in _ready(situation)]
    held.queue[: len(before)] = [row for _, _, row in sorted(before)]
    held.counts[IN_QUEUE] = len(before)
    return held


def _ready(situation: Situation) -> list[tuple[int, VesselState]]:
    """Return the vessels that were finished before the first day; those of the day itself join the queue on it."""
    states = enumerate(situation.vessels)
    return [(row, each) for row, each in states if each.phase == "ready" and each.ready_on != situation.on]


def write_vessel(held: Held, row: int, state: VesselState, first: date) -> None:
    """Write a vessel into its row; days are counted from `first`."""
    held.contents[row] = state.contents
    held.amounts[row] = (
        state.excess_l,
        state.clock_d,
        state.liquid_to_come_l,
        state.below_grid_l,
        state.lost_kg,
        state.takes_times,
    )
    days = (_day(on, first) for on in (state.first_layer_on, state.sealed_on, state.ready_on, state.drawn_on))
    batch = held.marks[row, WAS_BATCH]
    held.marks[row] = (PHASES.index(state.phase), state.fillings, *days, state.is_failing, batch)


def read_vessel(held: Held, row: int, name: str, first: date) -> VesselState:
    """Return the vessel that stands in a row."""
    marks, amounts = held.marks[row].tolist(), held.amounts[row].tolist()
    began, closed, ready, drawn = (
        None if each == NEVER else first + timedelta(days=each) for each in marks[FIRST_ON:FAILS]
    )
    return VesselState(
        name,
        PHASES[marks[PHASE]],
        marks[FILLINGS],
        Contents(*held.contents[row].tolist()),
        amounts[EXCESS],
        amounts[CLOCK],
        began,
        closed,
        ready,
        amounts[TO_COME],
        amounts[BELOW],
        drawn,
        amounts[LOST],
        amounts[TIMES],
        bool(marks[FAILS]),
    )


def _day(on: date | None, first: date) -> int:
    return NEVER if on is None else (on - first).days


def _whole(values: Any) -> IntArray:  # noqa: ANN401 - whatever an array is made of
    return np.array(values, dtype=np.int64)


def _spots(situation: Situation, world: World) -> list[str]:
    """Return one vessel for each series of warmth; vessels that stand together share one."""
    found: dict[tuple[int, int], str] = {}
    for each in situation.vessels:
        found.setdefault(_series(each.vessel, world), each.vessel)
    return list(found.values())


def _series(name: str, world: World) -> tuple[int, int]:
    return id(world.paces[name]), id(world.scatter.get(name))


def _spot_of(name: str, spots: list[str], world: World) -> int:
    return next(index for index, each in enumerate(spots) if _series(each, world) == _series(name, world))


def _plain(world: World) -> FloatArray:
    numbers, habits = world.numbers, world.habits
    return np.array(
        (
            numbers.ready_at_20c_d,
            numbers.dry_loss_frac,
            numbers.settles_frac,
            math.exp(-1.0 / numbers.settling_d),
            numbers.softness,
            -math.expm1(-1.0 / numbers.draining_d),
            numbers.bran_holds_kg_per_kg,
            numbers.draw_off_d,
            numbers.density_times,
            world.plant_dose_kg_per_kg,
            world.animal_dose_kg_per_kg,
            habits.loads_every_d,
            habits.holding_l,
            habits.least_d,
            FULL_FRAC,
            DUST_L,
            CRUMBS_KG,
            LEAST_PART,
            MOST_L_PER_KG,
            WETTEST_DRY_G_PER_KG,
            DRIEST_DRY_G_PER_KG,
        ),
        dtype=float,
    )
