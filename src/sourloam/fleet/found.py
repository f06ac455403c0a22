"""How a vessel is found on the first day: what a site file says of it, settled, drained and soured since."""

import math
from datetime import timedelta

from sourloam.base.days import before
from sourloam.fleet.world import Numbers, World
from sourloam.science.vessel.contents import Contents
from sourloam.science.vessel.leachate import drained_frac, leachate_l_per_kg
from sourloam.science.vessel.settling import holds_kg
from sourloam.site.situation import VesselState


def as_found(state: VesselState, world: World, *, clock_d: float) -> VesselState:
    """Return a vessel of the first day as its days so far have made it; `clock_d` passed at 20 °C since it was sealed.

    One that is being filled takes up the room that was written; a sealed one was full when it was sealed.
    """
    if state.phase == "empty" or state.first_layer_on is None:
        return state
    if state.is_weighed:
        return _weighed(state, world, clock_d=clock_d)
    numbers = world.numbers
    state = _sealed_in_time(state, world)
    closed_on = state.sealed_on or world.first
    filling_d = max((closed_on - (state.first_layer_on or closed_on)).days, 0)
    sealed_d = max((world.first - closed_on).days, 0)
    settling = {"settles_frac": numbers.settles_frac, "settling_d": numbers.settling_d}
    held = state.contents.times(float(holds_kg(1.0, numbers.density_times, filling_d=filling_d, **settling)))
    settled_l = held.pressed_l / numbers.density_times * (1.0 - numbers.settles_frac)
    found = state._replace(
        contents=held,
        excess_l=(state.contents.pressed_l - settled_l) * math.exp(-sealed_d / numbers.settling_d),
        clock_d=clock_d,
        lost_kg=numbers.dry_loss_frac * held.dry_kg if state.phase == "ready" else 0.0,
    )
    return _drained(found, sealed_d + filling_d / 2.0, world)


def _weighed(state: VesselState, world: World, *, clock_d: float) -> VesselState:
    """Return a vessel whose layers were written down: settled and drained by their mean age, less what was drawn."""
    numbers = world.numbers
    began = state.first_layer_on or world.first
    closed_on = state.sealed_on or world.first
    age_d = max((world.first - began).days - max((closed_on - began).days, 0) / 2.0, 0.0)
    liquid_l = _liquid_l(state.contents, numbers)
    come_l = liquid_l * float(drained_frac(age_d, numbers.draining_d))
    gas_kg = numbers.dry_loss_frac * state.contents.dry_kg if state.phase == "ready" else 0.0
    pressed_l = state.contents.pressed_l / numbers.density_times
    return state._replace(
        excess_l=pressed_l * numbers.settles_frac * math.exp(-age_d / numbers.settling_d),
        clock_d=clock_d,
        liquid_to_come_l=liquid_l - come_l,
        below_grid_l=max(come_l - state.lost_kg, 0.0),
        lost_kg=state.lost_kg + gas_kg,
    )


def _sealed_in_time(state: VesselState, world: World) -> VesselState:
    """Return a vessel that is called ready as sealed long enough ago to be emptied."""
    latest = before(world.first, world.habits.least_d)
    if state.phase != "ready" or state.sealed_on is None or state.first_layer_on is None or state.sealed_on <= latest:
        return state
    sooner = state.sealed_on - latest
    return state._replace(sealed_on=latest, first_layer_on=state.first_layer_on - sooner)


def _drained(state: VesselState, age_d: float, world: World) -> VesselState:
    """Return a vessel whose liquid has come as far as its mean age lets it, drawn off where it can be."""
    liquid_l = _liquid_l(state.contents, world.numbers)
    come_l = liquid_l * float(drained_frac(age_d, world.numbers.draining_d))
    state = state._replace(liquid_to_come_l=liquid_l - come_l)
    if not world.vessels[state.vessel].has_drain:
        return state._replace(below_grid_l=come_l)
    return state._replace(drawn_on=world.first - timedelta(days=1), lost_kg=state.lost_kg + come_l)


def _liquid_l(held: Contents, numbers: Numbers) -> float:
    bran_ratio = held.bran_kg / held.scraps_kg if held.scraps_kg else 0.0
    per_kg = leachate_l_per_kg(held.scraps_dry_wb_frac, numbers.softness, bran_ratio, numbers.bran_holds_kg_per_kg)
    return float(per_kg) * held.scraps_kg
