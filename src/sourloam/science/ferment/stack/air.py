"""Air in a vessel: how much oxygen is over the layers, and how deep it goes into them.

It is quasi-steady: oxygen reaches as deep as it diffuses against what uses it
up, and no deeper; a layer is given what it may use until the next exchange.
"""

import math

from sourloam.science.ferment.layer.change import warmth
from sourloam.science.ferment.layer.state import OXYGEN, Flora, Place
from sourloam.science.ferment.layer.step import state_of
from sourloam.science.ferment.layer.work import breathing, cells_of, film_work, mould_work, surroundings
from sourloam.science.ferment.stack.given import Laid, Stack, Vessel, laid_of

OXYGEN_OF_AIR: float = 0.2095  # by volume; recalled
L_PER_MOL: float = 24.055  # of a gas at 20 °C and 101.325 kPa; ideal gas
IN_AIR_M2_PER_H: float = 0.0726  # diffusion of oxygen in air at 20 °C, 2.02e-5 m2/s; recalled
IN_WATER_M2_PER_H: float = 2.3e-7  # of oxygen in water, times its solubility there (0.032): recalled
LEAST_AIR: float = 1e-4  # of a layer, that counts as air
LEAST_USE: float = 1e-9  # mol/h to a kg of water


def effective_m2_per_h(air_frac: float, water_frac: float) -> float:
    """Return the diffusion of oxygen through pores, by their air and all their room (millington1961)."""
    if air_frac < LEAST_AIR:
        return IN_WATER_M2_PER_H
    room = min(air_frac + water_frac, 1.0)
    return IN_AIR_M2_PER_H * math.pow(air_frac, 10.0 / 3.0) / (room * room) + IN_WATER_M2_PER_H


def use_per_h(stack: Stack, i: int, place: Place, flora: Flora) -> float:
    """Return what a layer would use of oxygen if all of it were aired, mol/h to a kg of its first water."""
    y = stack.y[i]
    kept = y[OXYGEN]
    y[OXYGEN] = 1e3 * place.oxygen_mol
    state = state_of(y)
    y[OXYGEN] = kept
    cells = cells_of(state)
    s = surroundings(state, cells, place, flora, ln_h=stack.ln_h[i])
    film = film_work(flora.film, cells.film, s)
    mould = mould_work(flora.mould, cells.mould, s)
    breath = breathing(cells, place, warmth(place.temperature_c), s)
    return -(film.oxygen_mol + mould.oxygen_mol + breath.oxygen_mol)


def air_frac_now(laid: Laid, water: float) -> float:
    """Return the air of a layer as a part of its volume: water that comes fills it; as water goes it sinks together."""
    came = max(water - 1.0, 0.0) * laid.water_kg
    return max(laid.air_frac - came / laid.volume_l, 0.0)


def reached_frac(laid: Laid, water: float, *, use: float, over_mol_per_m3: float, floor_m2: float) -> float:
    """Return the part of a layer that oxygen reaches: √(2 D c ÷ use) of its depth."""
    depth_m = laid.volume_l / 1000.0 / floor_m2
    per_m3 = use * laid.water_kg / (laid.volume_l / 1000.0)
    if per_m3 * depth_m * depth_m < LEAST_USE:
        return 1.0
    pores = effective_m2_per_h(air_frac_now(laid, water), laid.water_kg * water / laid.volume_l)
    return min(math.sqrt(2.0 * pores * over_mol_per_m3 / per_m3) / depth_m, 1.0)


def breathe(stack: Stack, vessel: Vessel, hours: float) -> None:
    """Let air leak in for some hours; the headspace never holds more oxygen than air does."""
    full = OXYGEN_OF_AIR * stack.air[1] / L_PER_MOL
    leaks = OXYGEN_OF_AIR * vessel.leak_l_per_d * hours / 24.0 / L_PER_MOL
    stack.air[0] = min(stack.air[0] + leaks, max(full, stack.air[0]))


def displace(stack: Stack, headspace: float) -> None:
    """Let the air over the layers make room for what was laid: it leaves with its oxygen."""
    stack.air[0] *= min(headspace / stack.air[1], 1.0)
    stack.air[1] = headspace


def open_lid(stack: Stack, vessel: Vessel) -> None:
    """Swap a part of the headspace for fresh air."""
    full = OXYGEN_OF_AIR * stack.air[1] / L_PER_MOL
    stack.air[0] += vessel.swapped_frac * (full - stack.air[0])


def headspace_l(stack: Stack, vessel: Vessel, present: int) -> float:
    """Return the room over the layers; a little is always left under a lid."""
    filled = 0.0
    for i in range(present):
        filled += laid_of(stack.laid[i]).volume_l
    return max(vessel.volume_l - filled, 0.02 * vessel.volume_l)
