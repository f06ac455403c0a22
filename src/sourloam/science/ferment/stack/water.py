"""Water on its way down: what broken cells let go and solids do not keep runs from layer to layer and out.

It carries what is dissolved in it. Strong ions that face the charge of the
tissue stay with it, so that draining by itself changes no pH.
"""

import math

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.layer.acidity import held_by_tissue
from sourloam.science.ferment.layer.state import SIZE, STRONG, State
from sourloam.science.ferment.stack.given import Laid, Stack, Vessel, laid_of

CARRIED: tuple[int, ...] = tuple(
    State._fields.index(name)
    for name in ("sugar_g", "lactic_mol", "acetic_mol", "butyric_mol", "ethanol_mol", "ammonium_mol")
)
TIMES: int = 12  # to run between two exchanges
PROTEIN: int = State._fields.index("protein_g")
CELL_SUGAR: int = State._fields.index("cell_sugar_g")


def kept_kg(laid: Laid, cell_sugar_g: float, drains_times: float) -> float:
    """Return the water that a layer does not let go yet.

    Of the water beyond what pressed solids keep, as large a part runs as that
    is of all water: a closure of our own, which follows the published effluent
    of forage from 12 to 25 % of dry matter when the factor is 0.67 (bastiman1976).
    A dry layer keeps more than it has: it soaks up what comes from above.
    """
    beyond = laid.water_kg - laid.held_kg
    if beyond <= 0.0:
        return laid.held_kg
    whole = laid.raw_frac * cell_sugar_g / laid.cell_sugar_g if laid.cell_sugar_g > 0.0 else 0.0
    runs = min(drains_times * beyond / laid.water_kg, 1.0) * (1.0 - whole)
    return laid.water_kg - runs * beyond


def room_kg(laid: Laid, water: float) -> float:
    """Return how much more water a layer can take before its pores are full."""
    return max(laid.air_frac * laid.volume_l + (1.0 - water) * laid.water_kg, 0.0)


def run_down(stack: Stack, vessel: Vessel, present: int, hours: float) -> int:
    """Let water run for some hours, a little at a time; return how many layers from the bottom stand in it."""
    flooded = 0
    for _ in range(TIMES):
        flooded = run_once(stack, vessel, present, 1.0 - math.exp(-hours / TIMES / vessel.runs_in_h))
    return flooded


def run_once(stack: Stack, vessel: Vessel, present: int, part: float) -> int:
    """Let a part of the free water of each layer run, from below up; return how many layers stand in it."""
    flooded, stands = 0, True
    for i in range(present):
        layer = laid_of(stack.laid[i])
        free = stack.water[i] * layer.water_kg - kept_kg(layer, stack.y[i, CELL_SUGAR], vessel.drains_times)
        wants = max(free, 0.0) * part
        if i == 0:
            runs = min(wants, max(vessel.sump_l - stack.sump[0], 0.0))
        else:
            runs = min(wants, room_kg(laid_of(stack.laid[i - 1]), stack.water[i - 1]))
        stands = stands and runs < 0.5 * wants and free > 0.0
        flooded += 1 if stands else 0
        if runs > 0.0:
            carry(stack, i, layer, runs)
    return flooded


def carry(stack: Stack, i: int, layer: Laid, runs_kg: float) -> None:
    """Move water from a layer to the one below, or out of the lowest, with what is dissolved in it."""
    part = runs_kg / (stack.water[i] * layer.water_kg)
    into_kg = laid_of(stack.laid[i - 1]).water_kg if i > 0 else 1.0
    y, per = stack.y[i], layer.water_kg / into_kg
    for at in CARRIED:
        give(stack, i, at, moved=part * y[at], per=per)
    give(stack, i, PROTEIN, moved=part * layer.soluble_frac * y[PROTEIN], per=per)
    bound, _ = held_by_tissue(layer.tissue_eq, math.exp(stack.ln_h[i]))
    give(stack, i, STRONG, moved=part * (y[STRONG] - bound), per=per)
    for at in range(stack.solutes.shape[1]):
        moved = part * stack.solutes[i, at]
        stack.solutes[i, at] -= moved
        if i > 0:
            stack.solutes[i - 1, at] += moved * per
        else:
            stack.sump[1 + SIZE + at] += moved * per
    stack.water[i] -= runs_kg / layer.water_kg
    if i > 0:
        stack.water[i - 1] += runs_kg / into_kg
    else:
        stack.sump[0] += runs_kg


def give(stack: Stack, i: int, at: int, *, moved: float, per: float) -> None:
    """Move one dissolved amount a layer down; `per` turns it to a kg of the first water there."""
    stack.y[i, at] -= moved
    if i > 0:
        stack.y[i - 1, at] += moved * per
    else:
        stack.sump[1 + at] += moved * per


def draw_off(stack: Stack, drawn: FloatArray) -> None:
    """Empty the room below the grid into `drawn`."""
    for at in range(stack.sump.size):
        drawn[at] += stack.sump[at]
        stack.sump[at] = 0.0
