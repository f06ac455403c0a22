"""Growth of a living group: factors of temperature, pH, water, acid and food.

Plain functions of floats, so that a compiler can take them as they stand.
"""

import math

from sourloam.science.ferment.layer.state import Flora, Group

TEN: float = math.log(10.0)
NO_DEATH_PH: float = 5.5  # above, nothing of these groups dies of acid; judgement
DEATH_Z_C: float = 25.0  # K for ten times the death rate; breidt2007, 10 and 25 °C
RESTS: float = 0.1  # of upkeep, by cells that rest for want of air; judgement, 0.03 to 0.3
SPORES_G: float = 1e-4  # g to a kg of water: so little is spores, which wait; judgement
DEATH_Z_PH: float = 0.9  # pH for ten times the death rate; judgement


def temperature_factor(group: Group, temperature_c: float) -> float:
    """Return the pace at a temperature against the best one: cardinal values with inflection (rosso1993)."""
    low, best, high = group.least_c, group.best_c, group.most_c
    if temperature_c <= low or temperature_c >= high:
        return 0.0
    above = (temperature_c - high) * (temperature_c - low) ** 2
    below = (best - low) * ((best - low) * (temperature_c - best) - (best - high) * (best + low - 2.0 * temperature_c))
    return above / below


def warmed(flora: Flora, temperature_c: float) -> Flora:
    """Return the groups with their rates at a temperature, so that it is reckoned once and not at every step."""
    return Flora(
        at(flora.warm, temperature_c),
        at(flora.cold, temperature_c),
        at(flora.enteric, temperature_c),
        at(flora.sugar_putrid, temperature_c),
        at(flora.protein_putrid, temperature_c),
        at(flora.yeast, temperature_c),
        at(flora.film, temperature_c),
        at(flora.mould, temperature_c),
        flora.homolactic_frac,
    )


def at(g: Group, temperature_c: float) -> Group:
    """Return a group with its rates at a temperature."""
    pace = temperature_factor(g, temperature_c)
    return Group(
        g.least_c, g.best_c, g.most_c, g.least_ph, g.best_ph, g.most_ph, g.least_aw, g.per_h * pace, g.lactic_mol,
        g.acetic_mol, g.most_g, g.half_sugar_g, g.made_per_growth, g.made_per_h * pace, g.ceiling_times, g.dies_per_h,
    )  # fmt: skip


def ph_factor(group: Group, ph: float) -> float:
    """Return the pace at a pH against the best one: cardinal values (rosso1995)."""
    low, best, high = group.least_ph, group.best_ph, group.most_ph
    if ph <= low or ph >= high:
        return 0.0
    span = (ph - low) * (ph - high)
    return span / (span - (ph - best) ** 2)


def water_factor(group: Group, water_activity: float) -> float:
    """Return the pace at a water activity against that of pure water."""
    return max((water_activity - group.least_aw) / (1.0 - group.least_aw), 0.0)


def acid_factor(group: Group, lactic_mol: float, acetic_mol: float, times: float) -> float:
    """Return the pace beside undissociated acids, which fall to nothing at `times` their limits."""
    by_lactic = max(1.0 - lactic_mol / (times * group.lactic_mol), 0.0)
    by_acetic = max(1.0 - acetic_mol / (times * group.acetic_mol), 0.0)
    return by_lactic * by_acetic


def food_factor(half: float, amount: float) -> float:
    """Return the pace at an amount of food against that of plenty (monod1949)."""
    return max(amount, 0.0) / (half + max(amount, 0.0))


def starving(group: Group, cells_g: float, aired: float) -> float:
    """Return how fast cells that need air waste without it, 1/h: what they would burn to live, they are short of.

    Upkeep comes before growth (Pirt). Where it is not met, cells rest and live on
    themselves at a part of its pace; spores do not. Without this, mould would
    grow for ever on what little air leaks in, though that is spent on upkeep.
    """
    upkeep_per_h = group.made_per_h / group.made_per_growth
    return RESTS * upkeep_per_h * (1.0 - aired) * cells_g / (cells_g + SPORES_G)


def dying(temperature_c: float, ph: float) -> float:
    """Return how fast cells die of acid, against 25 °C and pH 4; nothing dies above pH 5.5."""
    if ph >= NO_DEATH_PH:
        return 0.0
    return math.exp(TEN * ((temperature_c - 25.0) / DEATH_Z_C + (4.0 - ph) / DEATH_Z_PH))
