"""Water on its way down: what broken cells let go and solids do not keep runs from layer to layer and out.

It carries what is dissolved in it. Strong ions that face the charge of the
tissue stay with it, so that draining by itself changes no pH.
"""

import math
from typing import NamedTuple

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.layer.acidity import held_by_tissue
from sourloam.science.ferment.layer.state import SIZE, STRONG, State
from sourloam.science.ferment.stack.given import Laid, Stack, Vessel, laid_of

MOVES: int = State._fields.index("strong_eq") + 1  # of the state: what comes after stays where it is
CARRIED: tuple[bool, ...] = tuple(
    name in ("sugar_g", "lactic_mol", "acetic_mol", "butyric_mol", "ethanol_mol", "ammonium_mol")
    for name in State._fields[:MOVES]
)
SOLUBLE: int = Laid._fields.index("soluble_frac")
TISSUE: int = Laid._fields.index("tissue_eq")
TIMES: int = 8  # to run in each half of an exchange
LITTLE_KG: float = 1e-2  # runs at once
LEAST_KG: float = 1e-5  # less does not run
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


class Stands(NamedTuple):
    """What does not change while water runs: arrays by layer."""

    first_kg: FloatArray  # water as it was laid
    kept_kg: FloatArray  # that is not let go yet
    most_kg: FloatArray  # with pores full


def stands_of(stack: Stack, vessel: Vessel, present: int) -> Stands:
    """Return what holds for the layers while water runs."""
    first, kept, most = np.empty(present), np.empty(present), np.empty(present)
    for i in range(present):
        laid = laid_of(stack.laid[i])
        first[i] = laid.water_kg
        kept[i] = kept_kg(laid, stack.y[i, CELL_SUGAR], vessel.drains_times)
        most[i] = laid.water_kg + laid.air_frac * laid.volume_l
    return Stands(first, kept, most)


def run_down(stack: Stack, vessel: Vessel, present: int, hours: float) -> int:
    """Let water run for some hours, a little at a time; return how many layers from the bottom stand in it."""
    at, water, flooded = stands_of(stack, vessel, present), stack.water, 0
    most = 0.0
    for i in range(present):
        most = max(most, water[i] * at.first_kg[i] - at.kept_kg[i])
    times = TIMES if most > LITTLE_KG else 1
    part = 1.0 - math.exp(-hours / times / vessel.runs_in_h)
    for _ in range(times):
        flooded, stands = 0, True
        for i in range(present):
            wants = (water[i] * at.first_kg[i] - at.kept_kg[i]) * part
            if wants < LEAST_KG:
                stands = False
                continue
            below = vessel.sump_l - stack.sump[0] if i == 0 else at.most_kg[i - 1] - water[i - 1] * at.first_kg[i - 1]
            runs = min(wants, max(below, 0.0))
            stands = stands and runs < 0.5 * wants
            flooded += 1 if stands else 0
            if runs > 0.0:
                carry(stack, i, runs, at.first_kg)
    return flooded


def carry(stack: Stack, i: int, runs_kg: float, first_kg: FloatArray) -> None:
    """Move water from a layer to the one below, or out of the lowest, with what is dissolved in it."""
    y, solutes, sump, laid = stack.y, stack.solutes, stack.sump, stack.laid[i]
    part = runs_kg / (stack.water[i] * first_kg[i])
    per = first_kg[i] / first_kg[i - 1] if i > 0 else first_kg[i]
    for at in range(MOVES):
        loses = part * y[i, at] if CARRIED[at] else 0.0
        if at == PROTEIN:
            loses = part * laid[SOLUBLE] * y[i, at]
        elif at == STRONG:
            bound, _ = held_by_tissue(laid[TISSUE], math.exp(stack.ln_h[i]))
            loses = part * (y[i, at] - bound)
        y[i, at] -= loses
        if i > 0:
            y[i - 1, at] += loses * per
        else:
            sump[1 + at] += loses * per
    for at in range(solutes.shape[1]):
        loses = part * solutes[i, at]
        solutes[i, at] -= loses
        if i > 0:
            solutes[i - 1, at] += loses * per
        else:
            sump[1 + SIZE + at] += loses * per
    stack.water[i] -= runs_kg / first_kg[i]
    if i > 0:
        stack.water[i - 1] += runs_kg / first_kg[i - 1]
    else:
        sump[0] += runs_kg


def draw_off(stack: Stack, drawn: FloatArray) -> None:
    """Empty the room below the grid into `drawn`."""
    for at in range(stack.sump.size):
        drawn[at] += stack.sump[at]
        stack.sump[at] = 0.0
