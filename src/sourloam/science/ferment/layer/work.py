"""What each living group takes and makes in an hour; every one closes its own carbon and nitrogen."""

import math
from typing import NamedTuple

from sourloam.science.ferment.layer.acidity import ACETIC_K, LACTIC_K, ph_of, undissociated
from sourloam.science.ferment.layer.growth import (
    acid_factor,
    food_factor,
    ph_factor,
    water_factor,
)
from sourloam.science.ferment.layer.reactions import (
    ALCOHOLIC,
    BUTYRIC,
    BUTYRIC_OF_LACTIC,
    HETEROLACTIC,
    HOMOLACTIC,
    MIXED_ACID,
    OXYGEN_PER_CO2,
    RESPIRATION,
    RESPIRED_LACTIC,
)
from sourloam.science.ferment.layer.species import (
    ACETIC_MOL_PER_PROTEIN_G,
    AMMONIA_MOL_PER_CELLS,
    AMMONIA_MOL_PER_PROTEIN_G,
    CO2_MOL_PER_PROTEIN_G,
    G_PER_MOL,
    LACTIC_MOL_PER_CELLS,
    PROTEIN_ONLY_PER_CELLS,
    PROTEIN_PER_CELLS,
    SUGAR_PER_CELLS,
)
from sourloam.science.ferment.layer.state import Cells, Flora, Group, Place, State

GLUCOSE_G: float = G_PER_MOL["glucose"]
LACTIC_G: float = G_PER_MOL["lactic"]
LACTIC_K_OF_LIMITS: float = 10.0**-3.40  # in the medium in which the limits of clostridia were measured [-] thylin1995
HALF_PROTEIN_G: float = 1.0  # g per kg water at which groups feel the want of it; judgement
HALF_LACTIC_MOL: float = 0.02  # at which those that eat lactic acid take half of their fill; judgement
HALF_OXYGEN: float = 0.05  # of what was let in, left, at which those that need it take half of their fill; judgement
ENTERIC_ON_PROTEIN: float = 0.3  # of the pace on sugar, when that is gone; judgement
SUGAR_G_PER_OSMOL: float = 236.0  # half of it as sucrose, by mass; judgement
OSMOL_TO_ACTIVITY: float = 0.018015  # kg of water to a mol [-] iupac_masses
HOM_LACTIC: float = HOMOLACTIC.lactic
HET_LACTIC, HET_ACETIC = HETEROLACTIC.lactic, HETEROLACTIC.acetic
HET_ETHANOL, HET_CO2 = HETEROLACTIC.ethanol, HETEROLACTIC.co2
MIX_LACTIC, MIX_ACETIC, MIX_ETHANOL, MIX_CO2 = MIXED_ACID.lactic, MIXED_ACID.acetic, MIXED_ACID.ethanol, MIXED_ACID.co2
BUT_BUTYRIC, BUT_CO2 = BUTYRIC.butyric, BUTYRIC.co2
OFL_BUTYRIC, OFL_CO2 = BUTYRIC_OF_LACTIC.butyric, BUTYRIC_OF_LACTIC.co2
ALC_ETHANOL, ALC_CO2 = ALCOHOLIC.ethanol, ALCOHOLIC.co2
RES_CO2: float = RESPIRATION.co2
RLA_CO2: float = RESPIRED_LACTIC.co2


class Surroundings(NamedTuple):
    """What the groups of a layer meet; concentrations to a kg of the water that is there."""

    ph: float
    water: float  # kg now, to a kg at first
    water_activity: float
    sugar_g: float
    lactic: float  # 0 to 1, as food
    fed: float  # 0 to 1, by protein
    lactic_mol: float  # undissociated
    lactic_of_limits_mol: float  # the same, by the exponent of the limits of clostridia
    acetic_mol: float  # undissociated
    room: float  # that lactic bacteria leave enteric ones, 0 to 1
    aired: float  # 0 to 1


class Work(NamedTuple):
    """What one group does in an hour, to a kilogram of first water; what it takes is below nothing."""

    growth_per_h: float
    grown_g: float
    sugar_g: float
    protein_g: float
    lactic_mol: float
    acetic_mol: float
    butyric_mol: float
    ethanol_mol: float
    ammonium_mol: float
    co2_mol: float
    oxygen_mol: float


def cells_of(state: State) -> Cells:
    """Return the grams of all groups."""
    return Cells(
        math.exp(state.warm_ln_g),
        math.exp(state.cold_ln_g),
        math.exp(state.enteric_ln_g),
        math.exp(state.sugar_putrid_ln_g),
        math.exp(state.protein_putrid_ln_g),
        math.exp(state.yeast_ln_g),
        math.exp(state.film_ln_g),
        math.exp(state.mould_ln_g),
    )


def surroundings(state: State, cells: Cells, place: Place, flora: Flora, *, ln_h: float) -> Surroundings:
    """Return what the groups meet at a pH."""
    ph, protons, per = ph_of(ln_h), math.exp(ln_h), 1.0 / place.water
    protein, lactic = max(state.protein_g, 0.0) * per, max(state.lactic_mol, 0.0)
    taken = (cells.warm + cells.cold) / (flora.warm.most_g + flora.cold.most_g)
    solutes = (
        max(state.sugar_g, 0.0) / SUGAR_G_PER_OSMOL + lactic + state.acetic_mol + state.butyric_mol + state.ethanol_mol
    )
    osmol = (solutes + state.ammonium_mol + place.salt_osmol) * per
    let_in = max(state.oxygen_mol, 0.0)
    return Surroundings(
        ph,
        place.water,
        1.0 / (1.0 + OSMOL_TO_ACTIVITY * osmol),
        max(state.sugar_g, 0.0) * per,
        food_factor(HALF_LACTIC_MOL, lactic * per),
        food_factor(HALF_PROTEIN_G, protein),
        undissociated(lactic * per, protons, LACTIC_K * place.salt_times),
        undissociated(lactic * per, protons, LACTIC_K_OF_LIMITS),
        undissociated(max(state.acetic_mol, 0.0) * per, protons, ACETIC_K * place.salt_times),
        max(1.0 - taken * per, 0.0),
        place.aired * food_factor(HALF_OXYGEN * place.oxygen_mol, let_in) if place.oxygen_mol > 0.0 else 0.0,
    )


def pace_of(group: Group, s: Surroundings) -> float:
    """Return the pace of a group by pH and water, before acid, food and room; its rates hold its warmth."""
    return ph_factor(group, s.ph) * water_factor(group, s.water_activity)


def own_room(group: Group, cells_g: float, s: Surroundings) -> float:
    """Return the room that a group leaves itself.

    Each keeps room of its own: in one room with the lactic groups putrefiers
    would be shut out for ever, and no batch could fail; and the first lactic
    group would shut out the second, which takes over when it stops. Enteric
    bacteria alone give way to all lactic ones (jameson1962).
    """
    return max(1.0 - cells_g / (group.most_g * s.water), 0.0)


def lactic_work(group: Group, cells_g: float, s: Surroundings, *, ready: float, homolactic_frac: float) -> Work:
    """Return growth and acid of a lactic group: acid comes with growth, and beside it until acid itself stops that."""
    pace, sweet = pace_of(group, s), food_factor(group.half_sugar_g, s.sugar_g)
    unstopped = acid_factor(group, s.lactic_mol, s.acetic_mol, 1.0)
    growth = group.per_h * pace * unstopped * sweet * s.fed * own_room(group, cells_g, s) * ready
    beside = group.made_per_h * pace * acid_factor(group, s.lactic_mol, s.acetic_mol, group.ceiling_times) * sweet
    used = (group.made_per_growth * growth + beside) * cells_g / GLUCOSE_G
    hom, het = homolactic_frac * used, (1.0 - homolactic_frac) * used
    grown = growth * cells_g
    sugar = -used * GLUCOSE_G - SUGAR_PER_CELLS * grown
    lactic, acetic, ethanol = HOM_LACTIC * hom + HET_LACTIC * het, HET_ACETIC * het, HET_ETHANOL * het
    return Work(growth, grown, sugar, -PROTEIN_PER_CELLS * grown, lactic, acetic, 0.0, ethanol, 0.0, HET_CO2 * het, 0.0)


def enteric_work(group: Group, cells_g: float, s: Surroundings, *, ready: float) -> Work:
    """Return growth and mixed acids of enteric bacteria; they go on with amino acids where sugar is gone."""
    unstopped = acid_factor(group, s.lactic_mol, s.acetic_mol, 1.0)
    pace = group.per_h * pace_of(group, s) * unstopped * s.room * own_room(group, cells_g, s) * ready * s.fed
    sweet = food_factor(group.half_sugar_g, s.sugar_g)
    by_sugar, by_protein = pace * sweet, pace * ENTERIC_ON_PROTEIN * (1.0 - sweet)
    used = group.made_per_growth * by_sugar * cells_g / GLUCOSE_G
    eaten = group.made_per_growth * by_protein * cells_g
    on_sugar, on_protein = by_sugar * cells_g, by_protein * cells_g
    return Work(
        by_sugar + by_protein,
        on_sugar + on_protein,
        -used * GLUCOSE_G - SUGAR_PER_CELLS * on_sugar,
        -eaten - PROTEIN_PER_CELLS * on_sugar - PROTEIN_ONLY_PER_CELLS * on_protein,
        MIX_LACTIC * used,
        MIX_ACETIC * used + ACETIC_MOL_PER_PROTEIN_G * eaten,
        0.0,
        MIX_ETHANOL * used,
        AMMONIA_MOL_PER_PROTEIN_G * eaten + AMMONIA_MOL_PER_CELLS * on_protein,
        MIX_CO2 * used + CO2_MOL_PER_PROTEIN_G * eaten,
        0.0,
    )


def sugar_putrid_work(group: Group, cells_g: float, s: Surroundings) -> Work:
    """Return butyric acid of sugar, and of lactic acid where sugar is gone; they turn over without growth too."""
    pace = pace_of(group, s) * acid_factor(group, s.lactic_of_limits_mol, s.acetic_mol, 1.0)
    sweet = food_factor(group.half_sugar_g, s.sugar_g)
    by_sugar, by_lactic = pace * sweet, pace * s.lactic * (1.0 - sweet)
    growing = group.per_h * s.fed * own_room(group, cells_g, s)
    turns = (group.made_per_growth * growing + group.made_per_h) * cells_g
    of_sugar, of_lactic = turns * by_sugar / GLUCOSE_G, turns * by_lactic / LACTIC_G
    on_sugar, on_lactic = growing * by_sugar * cells_g, growing * by_lactic * cells_g
    return Work(
        growing * (by_sugar + by_lactic),
        on_sugar + on_lactic,
        -of_sugar * GLUCOSE_G - SUGAR_PER_CELLS * on_sugar,
        -PROTEIN_PER_CELLS * (on_sugar + on_lactic),
        -of_lactic - LACTIC_MOL_PER_CELLS * on_lactic,
        0.0,
        BUT_BUTYRIC * of_sugar + OFL_BUTYRIC * of_lactic,
        0.0,
        0.0,
        BUT_CO2 * of_sugar + OFL_CO2 * of_lactic,
        0.0,
    )


def protein_putrid_work(group: Group, cells_g: float, s: Surroundings) -> Work:
    """Return what rots of the protein: ammonia, acetic acid and gas."""
    pace = pace_of(group, s) * acid_factor(group, s.lactic_of_limits_mol, s.acetic_mol, 1.0) * s.fed
    growth = group.per_h * pace * own_room(group, cells_g, s)
    grown = growth * cells_g
    eaten = group.made_per_growth * grown + group.made_per_h * pace * cells_g
    acetic, gas = ACETIC_MOL_PER_PROTEIN_G * eaten, CO2_MOL_PER_PROTEIN_G * eaten
    ammonium = AMMONIA_MOL_PER_PROTEIN_G * eaten + AMMONIA_MOL_PER_CELLS * grown
    taken = -eaten - PROTEIN_ONLY_PER_CELLS * grown
    return Work(growth, grown, 0.0, taken, 0.0, acetic, 0.0, 0.0, ammonium, gas, 0.0)


def yeast_work(group: Group, cells_g: float, s: Surroundings) -> Work:
    """Return what yeasts brew, growing or not."""
    unstopped = acid_factor(group, s.lactic_mol, s.acetic_mol, 1.0)
    pace = pace_of(group, s) * unstopped * food_factor(group.half_sugar_g, s.sugar_g)
    growth = group.per_h * pace * s.fed * own_room(group, cells_g, s)
    grown = growth * cells_g
    used = (group.made_per_growth * growth + group.made_per_h * pace) * cells_g / GLUCOSE_G
    sugar, protein = -used * GLUCOSE_G - SUGAR_PER_CELLS * grown, -PROTEIN_PER_CELLS * grown
    return Work(growth, grown, sugar, protein, 0.0, 0.0, 0.0, ALC_ETHANOL * used, 0.0, ALC_CO2 * used, 0.0)


def film_work(group: Group, cells_g: float, s: Surroundings) -> Work:
    """Return what a film of yeasts burns of the lactic acid, where there is air."""
    unstopped = acid_factor(group, s.lactic_mol, s.acetic_mol, 1.0)
    pace = pace_of(group, s) * unstopped * s.lactic * s.aired
    growth = group.per_h * pace * s.fed * own_room(group, cells_g, s)
    grown = growth * cells_g
    burnt = (group.made_per_growth * growth + group.made_per_h * pace) * cells_g / LACTIC_G
    lactic, gas = -burnt - LACTIC_MOL_PER_CELLS * grown, RLA_CO2 * burnt
    return Work(growth, grown, 0.0, -PROTEIN_PER_CELLS * grown, lactic, 0.0, 0.0, 0.0, 0.0, gas, -OXYGEN_PER_CO2 * gas)


def mould_work(group: Group, cells_g: float, s: Surroundings) -> Work:
    """Return what mould burns where there is air: sugar, and lactic acid where sugar is gone."""
    unstopped = acid_factor(group, s.lactic_mol, s.acetic_mol, 1.0)
    pace, sweet = pace_of(group, s) * unstopped * s.aired, food_factor(group.half_sugar_g, s.sugar_g)
    by_sugar, by_lactic = pace * sweet, pace * s.lactic * (1.0 - sweet)
    growing = group.per_h * s.fed * own_room(group, cells_g, s)
    turns = (group.made_per_growth * growing + group.made_per_h) * cells_g
    of_sugar, of_lactic = turns * by_sugar / GLUCOSE_G, turns * by_lactic / LACTIC_G
    on_sugar, on_lactic = growing * by_sugar * cells_g, growing * by_lactic * cells_g
    gas = RES_CO2 * of_sugar + RLA_CO2 * of_lactic
    return Work(
        growing * (by_sugar + by_lactic),
        on_sugar + on_lactic,
        -of_sugar * GLUCOSE_G - SUGAR_PER_CELLS * on_sugar,
        -PROTEIN_PER_CELLS * (on_sugar + on_lactic),
        -of_lactic - LACTIC_MOL_PER_CELLS * on_lactic,
        0.0,
        0.0,
        0.0,
        0.0,
        gas,
        -OXYGEN_PER_CO2 * gas,
    )


def breathing(cells: Cells, place: Place, warmth: float, s: Surroundings) -> Work:
    """Return what raw tissue, and cells that do not need air, breathe while there is any."""
    cells_g = cells.warm + cells.cold + cells.enteric + cells.yeast
    burnt = (
        (place.respiration_g_per_h + place.breath_per_h * cells_g)
        * warmth
        * s.aired
        * food_factor(1.0, s.sugar_g)
        / GLUCOSE_G
    )
    gas = RES_CO2 * burnt
    return Work(0.0, 0.0, -burnt * GLUCOSE_G, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, gas, -OXYGEN_PER_CO2 * gas)
