"""One layer in time: what every living group takes and makes, added up into the change of its state.

Plain functions of tuples of floats: Python runs them as they stand, and
`kernel.py` compiles them as they stand. Rates are per hour.
"""

import math

from sourloam.science.ferment.layer.acidity import ln_protons
from sourloam.science.ferment.layer.growth import dying, ph_factor, starving
from sourloam.science.ferment.layer.species import (
    ACETIC_MOL_PER_PROTEIN_G,
    AMMONIA_MOL_PER_PROTEIN_G,
    CO2_MOL_PER_PROTEIN_G,
    GLUCOSE_PER_STARCH,
)
from sourloam.science.ferment.layer.state import Cells, Flora, Group, Place, State
from sourloam.science.ferment.layer.work import (
    Surroundings,
    Work,
    breathing,
    cells_of,
    enteric_work,
    film_work,
    lactic_work,
    mould_work,
    protein_putrid_work,
    sugar_putrid_work,
    surroundings,
    yeast_work,
)

HOURS: float = 24.0
LN_2: float = math.log(2.0)
SPLIT_PH: float = 4.6  # at which enzymes of starch have lost half of their pace; judgement
SPLIT_LEAST: float = 0.1  # of that pace, which acid leaves; judgement


def warmth(temperature_c: float) -> float:
    """Return how fast enzymes work against 20 °C: twice as fast for ten degrees more."""
    return math.exp(LN_2 * (temperature_c - 20.0) / 10.0)


def starch_gate(ph: float) -> float:
    """Return the pace of starch release: enzymes of plants and bran give up as it sours."""
    return SPLIT_LEAST + (1.0 - SPLIT_LEAST) / (1.0 + math.exp(4.605170185988092 * (SPLIT_PH - ph)))


def readied(group: Group, ready: float, s: Surroundings) -> float:
    """Return how fast a group gets over its lag (baranyi1994): at the pace at which it could grow."""
    return group.per_h * ph_factor(group, s.ph) * ready * (1.0 - ready)


def works(state: State, cells: Cells, place: Place, flora: Flora, *, s: Surroundings, pace: float) -> tuple[Work, ...]:
    """Return what each group does, in the order of `GROUPS`, and last what breathes without need of air."""
    hom = flora.homolactic_frac
    return (
        lactic_work(flora.warm, cells.warm, s, ready=state.warm_ready, homolactic_frac=1.0),
        lactic_work(flora.cold, cells.cold, s, ready=state.cold_ready, homolactic_frac=hom),
        enteric_work(flora.enteric, cells.enteric, s, ready=state.enteric_ready),
        sugar_putrid_work(flora.sugar_putrid, cells.sugar_putrid, s),
        protein_putrid_work(flora.protein_putrid, cells.protein_putrid, s),
        yeast_work(flora.yeast, cells.yeast, s),
        film_work(flora.film, cells.film, s),
        mould_work(flora.mould, cells.mould, s),
        breathing(cells, place, pace, s),
    )


def added(all_works: tuple[Work, ...]) -> Work:
    """Return the sum of what all do."""
    grown = sugar = protein = lactic = acetic = butyric = ethanol = ammonium = co2 = oxygen = 0.0
    for each in all_works:
        grown += each.grown_g
        sugar += each.sugar_g
        protein += each.protein_g
        lactic += each.lactic_mol
        acetic += each.acetic_mol
        butyric += each.butyric_mol
        ethanol += each.ethanol_mol
        ammonium += each.ammonium_mol
        co2 += each.co2_mol
        oxygen += each.oxygen_mol
    return Work(0.0, grown, sugar, protein, lactic, acetic, butyric, ethanol, ammonium, co2, oxygen)


def change(state: State, place: Place, flora: Flora, near: float) -> tuple[State, float]:
    """Return the change of a layer in an hour, and the logarithm of its protons, looked for near `near`.

    `flora` holds the rates at the temperature of the place (`growth.warmed`).
    Every gram of cells grown takes its nitrogen as protein and the rest of its
    carbon as food; every mole of product comes by a pathway whose carbon
    closes. So carbon and nitrogen of the whole do not change.
    """
    ln_h = ln_protons(state, place, near)
    cells = cells_of(state)
    s = surroundings(state, cells, place, flora, ln_h=ln_h)
    pace = warmth(place.temperature_c)
    done = works(state, cells, place, flora, s=s, pace=pace)
    warm, cold, enteric, put, rot, yeast, film, mould, _ = done
    total = added(done)
    freed = place.release_per_d * pace / HOURS * state.cell_sugar_g
    split = place.starch_per_d * pace / HOURS * starch_gate(s.ph) * state.starch_g
    digested = place.proteolysis_per_d * pace / HOURS * state.protein_g
    reacted = place.alkali_per_d / HOURS * state.alkali_eq * max((7.0 - s.ph) / 3.0, 0.0)
    death = dying(place.temperature_c, s.ph)
    lost_w, lost_c = flora.warm.dies_per_h * death, flora.cold.dies_per_h * death
    lost_e, lost_s = flora.enteric.dies_per_h * death, flora.sugar_putrid.dies_per_h * death
    lost_p = flora.protein_putrid.dies_per_h * death
    lost_f, lost_m = starving(flora.film, cells.film, s.aired), starving(flora.mould, cells.mould, s.aired)
    moved = State(
        freed + GLUCOSE_PER_STARCH * split + total.sugar_g,
        -freed,
        -split,
        total.protein_g - digested,
        total.lactic_mol,
        total.acetic_mol + ACETIC_MOL_PER_PROTEIN_G * digested,
        total.butyric_mol,
        total.ethanol_mol,
        total.ammonium_mol + AMMONIA_MOL_PER_PROTEIN_G * digested,
        total.co2_mol + CO2_MOL_PER_PROTEIN_G * digested,
        -reacted,
        reacted,
        total.grown_g,
        total.oxygen_mol,
        warm.growth_per_h - lost_w,
        cold.growth_per_h - lost_c,
        enteric.growth_per_h - lost_e,
        put.growth_per_h - lost_s,
        rot.growth_per_h - lost_p,
        yeast.growth_per_h,
        film.growth_per_h - lost_f,
        mould.growth_per_h - lost_m,
        readied(flora.warm, state.warm_ready, s),
        readied(flora.cold, state.cold_ready, s),
        readied(flora.enteric, state.enteric_ready, s),
    )
    return moved, ln_h
