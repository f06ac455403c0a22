"""The life of vessels once more, compiled: the same days as `simulate`, bit for bit, some hundred times as fast.

Every line stands in the order of `simulate`, since sums of floats depend on it; `tests/fleet/test_kernel.py` holds the
two to each other. A situation lies in arrays, a row for each vessel, and is changed in place. Takers are asked here;
where a site has other places, the run stops at each batch that is due and gives the day back, so that it is placed by
the rules of those places themselves. This module alone imports the compiler for the fleet.
"""

import math
from collections.abc import Callable
from typing import Any, TypeVar, cast
from zlib import crc32

import numba

from sourloam.base.numbers import FloatArray
from sourloam.fleet import rows
from sourloam.fleet.rows import Held, Run, Still

# Nothing is made while the days pass, so no references are counted either: that count would cost ten times the days.
_njit: Any = numba.njit
F = TypeVar("F", bound=Callable[..., object])


def compiled(function: F) -> F:
    """Return the function compiled, to be put in where it is called."""
    return cast(F, _njit(error_model="numpy", forceinline=True, _nrt=False)(function))


def run_days(still: Still, held: Held, first: int, placed: int) -> int:
    """Let days pass from `first` on; return the day on which places must be asked, or -1 at the end.

    The day `placed` goes on from where its batches were placed; -1 stands for none.
    """
    for day in range(first, still.arrivals.shape[0]):
        if day != placed:
            _morning(still, held, day)
            if still.asks:
                if _is_taken_on(still, day) and _is_any_due(still, held, day):
                    return day
            else:
                _place_ready(still, held, day)
        _evening(still, held, day)
    return -1


@compiled
def _morning(still: Still, held: Held, day: int) -> None:
    came = still.arrivals[day]
    held.days[day, rows.D_SCRAPS_KG] = came[rows.SCRAPS]
    held.days[day, rows.D_SCRAPS_L] = came[rows.LOOSE]
    for each in range(10):
        held.waiting[each] += came[each]
    shrink, drains = still.plain[rows.P_SHRINKS], still.plain[rows.P_DRAINS]
    for vessel in range(held.marks.shape[0]):
        if held.marks[vessel, rows.PHASE] != rows.EMPTY:
            amounts = held.amounts[vessel]
            flows = amounts[rows.TO_COME] * drains
            amounts[rows.EXCESS] *= shrink
            amounts[rows.TO_COME] -= flows
            amounts[rows.BELOW] += flows
            if held.marks[vessel, rows.PHASE] == rows.FERMENTING:
                _sour(still, held, vessel, day)


@compiled
def _sour(still: Still, held: Held, vessel: int, day: int) -> None:
    amounts, marks = held.amounts[vessel], held.marks[vessel]
    amounts[rows.CLOCK] += still.paces[still.spot[vessel], day]
    if amounts[rows.CLOCK] < still.plain[rows.P_READY] * amounts[rows.TIMES]:
        return
    gas = still.plain[rows.P_DRY_LOSS] * held.contents[vessel, rows.DRY]
    held.days[day, rows.D_GAS] += gas
    amounts[rows.LOST] += gas
    marks[rows.PHASE], marks[rows.READY_ON] = rows.READY, day
    held.batches[marks[rows.WAS_BATCH], rows.B_READY] = day


@compiled
def _is_due(still: Still, held: Held, vessel: int, day: int) -> bool:
    marks = held.marks[vessel]
    if marks[rows.PHASE] != rows.READY or marks[rows.SEALED_ON] == rows.NEVER:
        return False
    return bool(float(day - marks[rows.SEALED_ON]) >= still.plain[rows.P_LEAST])


@compiled
def _is_taken_on(still: Still, day: int) -> bool:
    """Whether a batch may go anywhere on a day: there is time to dig, or somebody comes for it."""
    is_taken = bool(still.work[day] == 1)
    for taker in range(still.comes.shape[0]):
        is_taken |= bool(still.comes[taker, day] == 1)
    return is_taken


@compiled
def _is_any_due(still: Still, held: Held, day: int) -> bool:
    is_any = False
    for vessel in range(held.marks.shape[0]):
        is_any |= _is_due(still, held, vessel, day)
    return is_any


@compiled
def _place_ready(still: Still, held: Held, day: int) -> None:
    """Take what is due to takers, in the order in which it became ready, and of equals by their ids."""
    held.visit_l[:] = 0.0
    for vessel in still.by_id:
        if held.marks[vessel, rows.PHASE] == rows.READY and held.marks[vessel, rows.READY_ON] == day:
            held.queue[held.counts[rows.IN_QUEUE]] = vessel
            held.counts[rows.IN_QUEUE] += 1
    left = 0
    for at in range(held.counts[rows.IN_QUEUE]):
        vessel = held.queue[at]
        if _is_due(still, held, vessel, day):
            _take(still, held, vessel, day)
        if held.marks[vessel, rows.PHASE] == rows.READY:
            held.queue[left] = vessel
            left += 1
    held.counts[rows.IN_QUEUE] = left


@compiled
def _take(still: Still, held: Held, vessel: int, day: int) -> None:
    if not held.marks[vessel, rows.FAILS]:
        _hand_over(still, held, vessel, day)
    elif still.work[day]:
        held.days[day, rows.D_FAILED_KG] += _mass_kg(held, vessel)
        held.days[day, rows.D_FAILED_L] += held.contents[vessel, rows.LOOSE]
        held.batches[held.marks[vessel, rows.WAS_BATCH], rows.B_FAILED] = 1
        _empty(held, vessel, day)


@compiled
def _mass_kg(held: Held, vessel: int) -> float:
    return float(
        held.contents[vessel, rows.SCRAPS] + held.contents[vessel, rows.BRAN] - held.amounts[vessel, rows.LOST]
    )


@compiled
def _empty(held: Held, vessel: int, day: int) -> None:
    held.batches[held.marks[vessel, rows.WAS_BATCH], rows.B_GONE] = day
    fillings = held.marks[vessel, rows.FILLINGS]
    held.contents[vessel, :] = 0.0
    held.amounts[vessel, :] = 0.0
    held.amounts[vessel, rows.TIMES] = 1.0
    held.marks[vessel, :] = 0
    held.marks[vessel, rows.FIRST_ON : rows.WAS_BATCH] = rows.NEVER
    held.marks[vessel, rows.FAILS] = 0
    held.marks[vessel, rows.FILLINGS] = fillings
    held.counts[rows.EMPTY_FROM] = min(held.counts[rows.EMPTY_FROM], vessel)


@compiled
def _volume_l(still: Still, held: Held, vessel: int) -> float:
    pressed = held.contents[vessel, rows.PRESSED] / still.plain[rows.P_DENSITY]
    return float(pressed * (1.0 - still.plain[rows.P_SETTLES]) + held.amounts[vessel, rows.EXCESS])


@compiled
def _hand_over(still: Still, held: Held, vessel: int, day: int) -> None:
    """Give a batch whole to the first taker that takes it whole, else share it out."""
    takers, mass = still.agreed_l.shape[0], _mass_kg(held, vessel)
    loose = held.contents[vessel, rows.LOOSE]
    offered = held.offered_kg
    offered[:] = 0.0
    is_pressed = _open_vessel(held) < 0
    for taker in range(takers):
        if is_pressed or not still.last_resort[taker]:
            offered[taker] = _takes_kg(still, held, vessel, (taker, day))
    placed, left = 0.0, mass
    for taker in range(takers):
        is_asked = is_pressed or not still.last_resort[taker]
        if is_asked and offered[taker] >= left - still.plain[rows.P_CRUMBS] and left > 0.0:
            _give(still, held, vessel, (taker, day, left))
            held.days[day, rows.D_PLACED_KG] += left
            held.days[day, rows.D_PLACED_L] += loose - held.contents[vessel, rows.LOOSE]
            return
    for taker in range(takers):
        if offered[taker] >= still.plain[rows.P_PART] * mass and left > 0.0:
            part = min(offered[taker], left)
            left -= part
            _give(still, held, vessel, (taker, day, part))
            placed += part
    held.days[day, rows.D_PLACED_KG] += placed
    held.days[day, rows.D_PLACED_L] += loose - held.contents[vessel, rows.LOOSE]


@compiled
def _takes_kg(still: Still, held: Held, vessel: int, asked: tuple[int, int]) -> float:
    taker, day = asked
    if held.contents[vessel, rows.ANIMAL] > 0.0 and not still.takes_meat[taker]:
        return 0.0
    left_l = max(still.agreed_l[taker] - held.visit_l[taker], 0.0)
    if not still.comes[taker, day] or left_l <= 0.0:
        return 0.0
    mass, volume = _mass_kg(held, vessel), _volume_l(still, held, vessel)
    by_volume = mass * left_l / volume if volume > 0.0 else mass
    return min(by_volume, mass)


@compiled
def _give(still: Still, held: Held, vessel: int, given: tuple[int, int, float]) -> None:
    taker, day, mass_kg = given
    whole = _mass_kg(held, vessel)
    part = min(mass_kg, whole)
    held.visit_l[taker] += _volume_l(still, held, vessel) * (part / whole if whole else 0.0)
    share = mass_kg / whole
    if share > 1.0 - 1e-9:
        _empty(held, vessel, day)
        return
    for each in range(10):
        held.contents[vessel, each] *= 1.0 - share
    for each in (rows.EXCESS, rows.TO_COME, rows.BELOW, rows.LOST):
        held.amounts[vessel, each] *= 1.0 - share


@compiled
def _evening(still: Still, held: Held, day: int) -> None:
    plain, waiting = still.plain, held.waiting
    if day % int(plain[rows.P_EVERY]) == 0 or waiting[rows.LOOSE] > plain[rows.P_HOLDING]:
        _load(still, held, day)
        if waiting[rows.LOOSE] > plain[rows.P_HOLDING] + plain[rows.P_DUST] and _open_vessel(held) < 0:
            _turn_away(still, held, day)
    for vessel in range(held.marks.shape[0]):
        if still.has_drain[vessel] and held.amounts[vessel, rows.BELOW] >= 0.05:
            _draw_off(still, held, vessel, day)
    line = held.days[day]
    mass, litres, queue = 0.0, 0.0, 0
    for vessel in range(held.marks.shape[0]):
        mass += _mass_kg(held, vessel)
        litres += held.contents[vessel, rows.LOOSE]
        queue += held.marks[vessel, rows.PHASE] == rows.READY
    line[rows.D_HELD_KG] = waiting[rows.SCRAPS] + waiting[rows.BRAN] + mass
    line[rows.D_HELD_L] = waiting[rows.LOOSE] + litres
    line[rows.D_WAITING_L], line[rows.D_QUEUE] = waiting[rows.LOOSE], queue


@compiled
def _open_vessel(held: Held) -> int:
    """Return the vessel that is being filled, or the first empty one; it is not looked for below `EMPTY_FROM`."""
    if held.counts[rows.OPEN] >= 0:
        return int(held.counts[rows.OPEN])
    vessel, count = held.counts[rows.EMPTY_FROM], held.marks.shape[0]
    while vessel < count and held.marks[vessel, rows.PHASE] != rows.EMPTY:
        vessel += 1
    held.counts[rows.EMPTY_FROM] = vessel
    return int(vessel) if vessel < count else -1


@compiled
def _other_open(held: Held) -> int:
    for vessel in range(held.marks.shape[0]):
        if held.marks[vessel, rows.PHASE] == rows.FILLING:
            return vessel
    return -1


@compiled
def _load(still: Still, held: Held, day: int) -> None:
    waiting = held.waiting
    while waiting[rows.SCRAPS] > 1e-9:
        vessel = _open_vessel(held)
        if vessel < 0:
            return
        room = still.usable_l[vessel] - _volume_l(still, held, vessel)
        pressed = waiting[rows.PRESSED] / still.plain[rows.P_DENSITY]
        share = min(1.0, max(room, 0.0) / pressed)
        _add_layer(still, held, vessel, (day, share))
        if share < 1.0 or _volume_l(still, held, vessel) >= still.plain[rows.P_FULL] * still.usable_l[vessel]:
            _seal(still, held, vessel, day)
        rest = 1.0 - share if share < 1.0 else 0.0
        for each in range(10):
            waiting[each] *= rest


@compiled
def _add_layer(still: Still, held: Held, vessel: int, layer: tuple[int, float]) -> None:
    day, share = layer
    waiting, plain, marks = held.waiting, still.plain, held.marks[vessel]
    scraps = waiting[rows.SCRAPS] * share
    if scraps <= 0.0:
        return
    animal = waiting[rows.ANIMAL] * share
    bran = (scraps - animal) * plain[rows.P_PLANT] + animal * plain[rows.P_ANIMAL]
    free = _drains_l_per_kg(plain, waiting[rows.SCRAPS_DRY] * share / scraps, bran / scraps)
    if marks[rows.PHASE] != rows.FILLING:
        marks[rows.PHASE], marks[rows.FIRST_ON], marks[rows.WAS_BATCH] = rows.FILLING, day, held.counts[rows.BEGUN]
        marks[rows.FILLINGS] += 1
        held.counts[rows.OPEN] = vessel
        held.batches[held.counts[rows.BEGUN], rows.B_VESSEL], held.batches[held.counts[rows.BEGUN], rows.B_FIRST] = (
            vessel,
            day,
        )
        held.counts[rows.BEGUN] += 1
    for each in range(10):
        held.contents[vessel, each] += waiting[each] * share + still.bran[each] * bran
    held.amounts[vessel, rows.EXCESS] += waiting[rows.PRESSED] * share / plain[rows.P_DENSITY] * plain[rows.P_SETTLES]
    held.amounts[vessel, rows.TO_COME] += free * scraps
    held.days[day, rows.D_BRAN] += bran
    mass = held.contents[vessel, rows.SCRAPS] + held.contents[vessel, rows.BRAN]
    held.heaviest[0] = max(held.heaviest[0], mass)


@compiled
def _drains_l_per_kg(plain: FloatArray, dry_frac: float, bran_kg_per_kg: float) -> float:
    dry = max(dry_frac * 1000.0, plain[rows.P_WETTEST])
    if dry <= 285.0:
        flow = 0.767 - 0.00534 * dry + 9.36e-6 * (dry * dry)
    else:
        flow = max(0.0054 * (plain[rows.P_DRIEST] - dry) / (plain[rows.P_DRIEST] - 285.0), 0.0)
    free = min(min(flow, plain[rows.P_MOST_L]) * plain[rows.P_SOFT], plain[rows.P_MOST_L])
    return float(max(free - bran_kg_per_kg * plain[rows.P_BRAN_HOLDS], 0.0))


@compiled
def _seal(still: Still, held: Held, vessel: int, day: int) -> None:
    batch, marks = held.counts[rows.SEALED], held.marks[vessel]
    held.counts[rows.SEALED] += 1
    marks[rows.PHASE], marks[rows.SEALED_ON] = rows.FERMENTING, day
    held.counts[rows.OPEN] = _other_open(held) if held.counts[rows.SEALED] <= held.marks.shape[0] else -1
    held.amounts[vessel, rows.CLOCK] = 0.0
    held.batches[marks[rows.WAS_BATCH], rows.B_SEALED] = day
    if still.has_luck:
        turn = batch % still.steps.shape[0]
        held.amounts[vessel, rows.TIMES] = math.exp(still.log_sd[still.spot[vessel], day] * still.steps[turn])
        marks[rows.FAILS] = still.fails[turn]
    else:
        held.amounts[vessel, rows.TIMES], marks[rows.FAILS] = 1.0, 0


@compiled
def _turn_away(still: Still, held: Held, day: int) -> None:
    waiting = held.waiting
    kept = still.plain[rows.P_HOLDING] / waiting[rows.LOOSE]
    mass, loose = waiting[rows.SCRAPS] + waiting[rows.BRAN], waiting[rows.LOOSE]
    for each in range(10):
        waiting[each] *= kept
    held.days[day, rows.D_AWAY_KG] += mass - (waiting[rows.SCRAPS] + waiting[rows.BRAN])
    held.days[day, rows.D_AWAY_L] += loose - waiting[rows.LOOSE]
    held.days[day, rows.D_BINDS] = rows.BY_VESSELS
    for vessel in range(held.marks.shape[0]):
        if held.marks[vessel, rows.PHASE] == rows.READY:
            held.days[day, rows.D_BINDS] = rows.BY_PLACES


@compiled
def _draw_off(still: Still, held: Held, vessel: int, day: int) -> None:
    marks, amounts = held.marks[vessel], held.amounts[vessel]
    if marks[rows.PHASE] == rows.EMPTY:
        return
    since = marks[rows.DRAWN_ON] if marks[rows.DRAWN_ON] != rows.NEVER else marks[rows.FIRST_ON]
    if amounts[rows.BELOW] < 0.8 * still.below_grid_l[vessel] and float(day - since) < still.plain[rows.P_DRAW_OFF]:
        return
    held.days[day, rows.D_DRAWN] += amounts[rows.BELOW]
    amounts[rows.LOST] += amounts[rows.BELOW]
    amounts[rows.BELOW], marks[rows.DRAWN_ON] = 0.0, day


def serve_days(held: Held, times_d: FloatArray, takes_d: FloatArray) -> int:
    """Let demands for a whole vessel come, each at its time, and return how many found none and were lost.

    The same vessels are sealed and emptied; a vessel is taken at once and given back at its own time within the day.
    """
    lost, at, days = 0, 0, int(times_d[-1]) + 1
    for day in range(days):
        while at < times_d.shape[0] and times_d[at] < day + 1.0:
            _free_until(held, times_d[at], day)
            vessel = _open_vessel(held)
            if vessel < 0:
                lost += 1
            else:
                held.marks[vessel, rows.PHASE] = rows.FERMENTING
                held.amounts[vessel, rows.CLOCK] = times_d[at] + takes_d[at]
            at += 1
        _free_until(held, day + 1.0, day)
    return lost


@compiled
def _free_until(held: Held, time_d: float, day: int) -> None:
    for vessel in range(held.marks.shape[0]):
        if held.marks[vessel, rows.PHASE] == rows.FERMENTING and held.amounts[vessel, rows.CLOCK] <= time_d:
            _empty(held, vessel, day)


serve: Callable[[Held, FloatArray, FloatArray], int] = _njit(error_model="numpy", cache=True, _nrt=False)(serve_days)


def _kept(columns: int) -> Run:
    """Return the compiled run; on disk it goes by the columns too, so that other columns never find it."""
    run_days.__qualname__ = f"run_days_{columns:08x}"
    run: Run = _njit(error_model="numpy", cache=True, _nrt=False)(run_days)
    return run


run = _kept(crc32(repr(sorted((name, value) for name, value in vars(rows).items() if isinstance(value, int))).encode()))
