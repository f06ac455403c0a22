"""The only life of vessels, day by day.

One day: scraps arrive; sealed vessels sour; what is ready goes to a place if
the keeper has time; the caddy is emptied into the vessel that is being filled;
liquid is drawn off. Everything is a value: a situation goes in, a situation
comes out. The order of the steps is the order of a keeper's day.
"""

import math
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import lru_cache

from sourloam.base.days import weekday
from sourloam.fleet.life import BatchLife, Binding, DayLine, DrawOff, Life, Load, check_balance
from sourloam.fleet.placing import place_batch
from sourloam.fleet.world import World
from sourloam.science.vessel.contents import Contents
from sourloam.science.vessel.leachate import leachate_l_per_kg
from sourloam.site.situation import Situation, VesselState

FULL_FRAC = 0.98  # of its room: what is left takes no further load
NO_TIME = "the next day with time to dig"
DUST_L = 1e-6  # less than that is a rounding of the arithmetic and nothing that would be turned away


@dataclass
class Diary:
    """What is written down while the days pass."""

    batches: dict[str, BatchLife] = field(default_factory=dict)
    days: list[DayLine] = field(default_factory=list)
    loads: list[Load] = field(default_factory=list)
    draw_offs: list[DrawOff] = field(default_factory=list)
    today: dict[str, float] = field(default_factory=dict)
    stalled_by: Binding = ""
    sealed: int = 0  # batches sealed so far

    def add(self, name: str, amount: float) -> None:
        """Add an amount to the ledger of the day."""
        self.today[name] = self.today.get(name, 0.0) + amount

    def end_day(self, situation: Situation) -> None:
        """Close the ledger of the day and open that of the next."""
        line = DayLine(
            situation.on,
            held_kg=held_kg(situation),
            held_l=held_l(situation),
            waiting_l=situation.waiting.loose_l,
            queue=sum(each.phase == "ready" for each in situation.vessels),
            is_stalled=bool(self.stalled_by),
            binding=self.stalled_by,
        )
        self.days.append(line._replace(**self.today))  # type: ignore[arg-type]
        self.today, self.stalled_by = {}, ""

    def batch(self, state: VesselState, **changes: object) -> None:
        """Write down what happened to the batch in a vessel."""
        if state.first_layer_on is None:
            raise ValueError(f"{state.vessel} holds no batch")
        known = self.batches.get(state.batch) or BatchLife(
            state.batch, state.vessel, state.first_layer_on, state.contents, state.sealed_on, state.ready_on
        )
        self.batches[state.batch] = replace(known, **changes)  # type: ignore[arg-type]


def simulate(situation: Situation, days: int, world: World) -> Life:
    """Let `days` days pass from `situation`.

    Raises
    ------
    BalanceError
        If a kilogram is lost on the way.
    """
    diary = Diary()
    for state in situation.vessels:
        if state.phase != "empty":
            diary.batch(state)
    at_start_kg, at_start_l = held_kg(situation), held_l(situation)
    for index in range(days):
        situation = live_a_day(situation, index, world, diary)
        diary.end_day(situation)
        situation = situation._replace(on=situation.on + timedelta(days=1))
    check_balance(diary.days, at_start_kg, at_start_l)
    return Life(tuple(diary.batches.values()), tuple(diary.days), tuple(diary.loads), tuple(diary.draw_offs), situation)


def held_kg(situation: Situation) -> float:
    """Return the mass in vessels, caddy and cold."""
    return situation.waiting.mass_kg + sum(each.mass_kg for each in situation.vessels)


def held_l(situation: Situation) -> float:
    """Return the litres in vessels, caddy and cold, as they came in the caddy."""
    return situation.waiting.loose_l + sum(each.contents.loose_l for each in situation.vessels)


def live_a_day(situation: Situation, index: int, world: World, diary: Diary) -> Situation:
    """Let one day pass; `index` counts from the first day of the world's series."""
    arrived = world.arrivals[index]
    diary.add("scraps_kg", arrived.scraps_kg)
    diary.add("scraps_l", arrived.loose_l)
    situation = situation._replace(waiting=situation.waiting.plus(arrived))
    situation = situation._replace(vessels=tuple(_age(each, index, world, diary) for each in situation.vessels))
    situation = place_ready(situation, world, diary)
    if _is_loading_day(situation, index, world):
        situation = _load(situation, world, diary)
        situation = _turn_away(situation, world, diary)
    return situation._replace(vessels=tuple(_draw_off(each, situation.on, world, diary) for each in situation.vessels))


def room_l(state: VesselState, world: World) -> float:
    """Return the room that the contents of a vessel take up now."""
    pressed = state.contents.pressed_l / world.numbers.density_times
    return pressed * (1.0 - world.numbers.settles_frac) + state.excess_l


def _age(state: VesselState, index: int, world: World, diary: Diary) -> VesselState:
    """Let a vessel settle, drain and sour for a day."""
    if state.phase == "empty":
        return state
    numbers = world.numbers
    flows = state.liquid_to_come_l * -math.expm1(-1.0 / numbers.draining_d)
    state = state._replace(
        excess_l=state.excess_l * math.exp(-1.0 / numbers.settling_d),
        liquid_to_come_l=state.liquid_to_come_l - flows,
        below_grid_l=state.below_grid_l + flows,
    )
    return _sour(state, index, world, diary) if state.phase == "fermenting" else state


def _sour(state: VesselState, index: int, world: World, diary: Diary) -> VesselState:
    on = world.first + timedelta(days=index)
    clock = state.clock_d + world.paces[state.vessel][index]
    if clock < world.numbers.ready_at_20c_d * state.takes_times:
        return state._replace(clock_d=clock)
    gas = world.numbers.dry_loss_frac * state.contents.dry_kg
    diary.add("gas_kg", gas)
    ready = state._replace(clock_d=clock, phase="ready", ready_on=on, lost_kg=state.lost_kg + gas)
    diary.batch(ready, ready_on=on)
    return ready


def place_ready(situation: Situation, world: World, diary: Diary) -> Situation:
    """Take what is due to places, the oldest first."""
    due = [
        each
        for each in situation.vessels
        if each.phase == "ready" and each.sealed_on and (situation.on - each.sealed_on).days >= world.habits.least_d
    ]
    for state in sorted(due, key=lambda each: (each.ready_on or situation.on, each.vessel)):
        if state.is_failing:
            situation = _throw_away(situation, state, world, diary)
            continue
        situation, placings, limit = place_batch(situation, state, world)
        known = diary.batches[state.batch]
        is_left = any(each.batch == state.batch and each.phase == "ready" for each in situation.vessels)
        waits_for = (limit or known.waits_for or NO_TIME) if is_left else ""
        diary.batch(state, placings=(*known.placings, *placings), waits_for=waits_for)
        diary.add("placed_kg", sum(each.mass_kg for each in placings))
        diary.add("placed_l", state.contents.loose_l - _held_of(situation, state))
    return situation


def _held_of(situation: Situation, state: VesselState) -> float:
    """Return the litres of a batch that are still in its vessel."""
    return sum(
        each.contents.loose_l for each in situation.vessels if each.batch == state.batch and each.phase == "ready"
    )


def _throw_away(situation: Situation, state: VesselState, world: World, diary: Diary) -> Situation:
    """Empty a vessel whose batch went wrong, on a day with time to carry: it goes to waste, and is counted."""
    if weekday(situation.on) not in world.habits.work_days:
        diary.batch(state, waits_for=NO_TIME)
        return situation
    diary.add("failed_kg", state.mass_kg)
    diary.add("failed_l", state.contents.loose_l)
    diary.batch(state, failed_on=situation.on, waits_for="")
    return situation.with_vessel(state.emptied())


def _is_loading_day(situation: Situation, index: int, world: World) -> bool:
    return index % world.habits.loads_every_d == 0 or situation.waiting.loose_l > world.habits.holding_l


def _load(situation: Situation, world: World, diary: Diary) -> Situation:
    """Empty the caddy into the vessel that is being filled, and into the next ones where it does not go in whole."""
    while situation.waiting.scraps_kg > 1e-9:
        state = _open_vessel(situation)
        if state is None:
            return situation
        room = world.vessels[state.vessel].usable_l - room_l(state, world)
        pressed = situation.waiting.pressed_l / world.numbers.density_times
        share = min(1.0, max(room, 0.0) / pressed)
        state = _add_layer(state, situation.waiting.times(share), situation.on, world=world, diary=diary)
        if share < 1.0 or room_l(state, world) >= FULL_FRAC * world.vessels[state.vessel].usable_l:
            state = _seal(state, situation.on, world, diary)
        rest = situation.waiting.times(1.0 - share) if share < 1.0 else Contents()
        situation = situation.with_vessel(state)._replace(waiting=rest)
    return situation


def _open_vessel(situation: Situation) -> VesselState | None:
    """Return the vessel that is being filled, or the first empty one."""
    filling = (each for each in situation.vessels if each.phase == "filling")
    empty = (each for each in situation.vessels if each.phase == "empty")
    return next(filling, None) or next(empty, None)


def _add_layer(state: VesselState, scraps: Contents, on: date, *, world: World, diary: Diary) -> VesselState:
    if scraps.scraps_kg <= 0.0:
        return state
    numbers = world.numbers
    bran = world.dose_kg(scraps)
    layer = scraps.plus(world.bran_per_kg.times(bran))
    drains = _drains_l_per_kg(
        scraps.scraps_dry_wb_frac, numbers.softness, bran / scraps.scraps_kg, numbers.bran_holds_kg_per_kg
    )
    begun = (
        state
        if state.phase == "filling"
        else state._replace(phase="filling", fillings=state.fillings + 1, first_layer_on=on)
    )
    filled = begun._replace(
        contents=begun.contents.plus(layer),
        excess_l=begun.excess_l + scraps.pressed_l / numbers.density_times * numbers.settles_frac,
        liquid_to_come_l=begun.liquid_to_come_l + drains * scraps.scraps_kg,
    )
    diary.add("bran_kg", bran)
    level = room_l(filled, world) / world.vessels[state.vessel].usable_l
    diary.loads.append(Load(filled.batch, on, layer, level))
    diary.batch(filled, contents=filled.contents)
    return filled


@lru_cache(maxsize=4096)  # the same loads come in every one of the years that a plan lives
def _drains_l_per_kg(dry_wb_frac: float, softness: float, bran_kg_per_kg: float, bran_holds_kg_per_kg: float) -> float:
    return float(leachate_l_per_kg(dry_wb_frac, softness, bran_kg_per_kg, bran_holds_kg_per_kg))


def _seal(state: VesselState, on: date, world: World, diary: Diary) -> VesselState:
    batch, diary.sealed = diary.sealed, diary.sealed + 1
    scatter = world.scatter.get(state.vessel)
    log_sd = scatter[(on - world.first).days] if scatter else 0.0
    sealed = state._replace(
        phase="fermenting",
        sealed_on=on,
        clock_d=0.0,
        takes_times=world.luck.times(batch, log_sd),
        is_failing=world.luck.is_failing(batch),
    )
    diary.batch(sealed, sealed_on=on)
    return sealed


def _turn_away(situation: Situation, world: World, diary: Diary) -> Situation:
    """Send away what neither vessel nor caddy nor cold can hold: the day is stalled."""
    waiting = situation.waiting
    if waiting.loose_l <= world.habits.holding_l + DUST_L or _open_vessel(situation) is not None:
        return situation
    kept = waiting.times(world.habits.holding_l / waiting.loose_l)
    diary.add("turned_away_kg", waiting.mass_kg - kept.mass_kg)
    diary.add("turned_away_l", waiting.loose_l - kept.loose_l)
    diary.stalled_by = _binding(situation)
    return situation._replace(waiting=kept)


def _binding(situation: Situation) -> Binding:
    """Say what holds the chain up: a batch that waits for a place, or vessels that still ferment."""
    return "places" if any(each.phase == "ready" for each in situation.vessels) else "vessels"


def _draw_off(state: VesselState, on: date, world: World, diary: Diary) -> VesselState:
    """Empty the space below the grid when it is nearly full, or when the liquid has stood long enough."""
    vessel = world.vessels[state.vessel]
    if not vessel.has_drain or state.below_grid_l < 0.05 or state.first_layer_on is None:
        return state
    stood = (on - (state.drawn_on or state.first_layer_on)).days
    if state.below_grid_l < 0.8 * vessel.below_grid_l and stood < world.numbers.draw_off_d:
        return state
    diary.add("drawn_kg", state.below_grid_l)
    diary.draw_offs.append(DrawOff(state.batch, on, state.below_grid_l))
    return state._replace(below_grid_l=0.0, drawn_on=on, lost_kg=state.lost_kg + state.below_grid_l)
