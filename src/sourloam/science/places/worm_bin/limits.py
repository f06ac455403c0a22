"""How much of a sour batch a fed corner of a worm bin bears, by each limit alone.

A feed lies on a tenth of the bed and mixes with the bed right below. What it
brings of salt, ammonia and acid is judged in that corner, where worms meet it,
and in the whole bed. Each law gives the most that one limit allows; the
smallest of them is the ration.
"""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.places.worm_bin.lime import CARBONATE_G_PER_MOL
from sourloam.science.places.worm_bin.ration import Warmth, appetite_frac

MUCH_KG: Final = 1e4  # what no limit stands in the way of
SALT_PER_EC: Final = 0.8  # g/L of salts for each dS/m, in a strong liquid; memory
BURNING_J_PER_KG: Final = 16e6  # J/kg; dry matter that is eaten, less than of food fresh; haug1993
DAY_S: Final = 86400.0


@law("area × part that is fed × depth × density", unit="kg")
def bed_kg(area_m2: ArrayLike, part: ArrayLike, depth_m: ArrayLike, kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the mass of a part of the bed."""
    return keep_shape(1000.0 * _f(area_m2) * _f(part) * _f(depth_m) * _f(kg_per_l))


@law("conductivity of its liquid × 0.8 g/L × its water", unit="g/kg", source="memory", place="800 mg/L for each dS/m")
def salts_g_per_kg(conductivity_ds_per_m: ArrayLike, dry_wb_frac: ArrayLike) -> float | FloatArray:
    """Return the soluble salts of a batch, of all ions together."""
    return keep_shape(SALT_PER_EC * _f(conductivity_ds_per_m) * (1.0 - _f(dry_wb_frac)))


@law("corner × (limit − what is there) ÷ (what the feed holds − limit)", unit="kg")
def by_mixing_kg(
    corner_kg: ArrayLike, *, limit_g_per_kg: ArrayLike, bed_g_per_kg: ArrayLike, feed_g_per_kg: ArrayLike
) -> float | FloatArray:
    """Return the most feed whose mix with the corner keeps a limit; none binds where the feed itself is under it."""
    over = _f(feed_g_per_kg) - _f(limit_g_per_kg)
    room = np.maximum(_f(limit_g_per_kg) - _f(bed_g_per_kg), 0.0) * _f(corner_kg)
    return keep_shape(np.where(over > 0.0, room / np.maximum(over, 1e-12), MUCH_KG))


@law("corner × its buffer × steps of pH that it may fall ÷ acid left in a kilogram of feed", unit="kg")
def by_acid_kg(
    corner_kg: ArrayLike,
    *,
    buffer_mol_per_kg: ArrayLike,
    bed_ph: ArrayLike,
    least_ph: ArrayLike,
    acid_mol_per_kg: ArrayLike,
) -> float | FloatArray:
    """Return the most feed that leaves the corner no more acid than worms bear."""
    takes = _f(corner_kg) * _f(buffer_mol_per_kg) * np.maximum(_f(bed_ph) - _f(least_ph), 0.0)
    return keep_shape(np.minimum(takes / np.maximum(_f(acid_mol_per_kg), 1e-9), MUCH_KG))


@law("warming that is borne × what the corner gives off ÷ heat of a kilogram of feed in a day", unit="kg")
def by_heat_kg(
    area_m2: ArrayLike,
    *,
    part: ArrayLike,
    rise_k: ArrayLike,
    sheds_w_per_m2_k: ArrayLike,
    burnt_frac_per_d: ArrayLike,
    dry_wb_frac: ArrayLike,
) -> float | FloatArray:
    """Return the most feed that does not heat the corner, above and below, by more than is borne."""
    sheds = 2.0 * _f(area_m2) * _f(part) * _f(sheds_w_per_m2_k) * _f(rise_k)
    makes = _f(burnt_frac_per_d) * _f(dry_wb_frac) * BURNING_J_PER_KG / DAY_S
    return keep_shape(sheds / np.maximum(makes, 1e-12))


@law("depth of a feed × area that is fed × mass of a litre", unit="kg")
def by_layer_kg(area_m2: ArrayLike, part: ArrayLike, layer_m: ArrayLike, kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the most feed that lies no deeper than it should."""
    return bed_kg(area_m2, part, layer_m, kg_per_l)


@law("acid × what airing left of it × (1 − what is neutralised)", unit="mol/kg")
def acid_left_mol_per_kg(
    acid_mol_per_kg: ArrayLike, aired_frac: ArrayLike, neutralised_frac: ArrayLike
) -> float | FloatArray:
    """Return the acid of a kilogram of feed that the bed has to take up."""
    return keep_shape(_f(acid_mol_per_kg) * _f(aired_frac) * (1.0 - _f(neutralised_frac)))


@law("e^(−rate × days × 2^((T − 20) ÷ 10))", unit="1")
def aired_frac(rate_per_d: ArrayLike, days: ArrayLike, temperature_c: ArrayLike) -> float | FloatArray:
    """Return the part of the acid that is left after some days in the air, none going under 0 °C."""
    warm = np.where(_f(temperature_c) > 0.0, 2.0 ** ((_f(temperature_c) - 20.0) / 10.0), 0.0)
    return keep_shape(np.exp(-_f(rate_per_d) * _f(days) * warm))


@law("the smallest that any limit allows", unit="g")
def least_g(**limits_kg: ArrayLike) -> float | FloatArray:
    """Return the ration: the tightest of the limits, each named."""
    return keep_shape(1000.0 * np.minimum.reduce([_f(each) for each in limits_kg.values()]))


@law("ration × acid of a kilogram × 50.04 g/mol × part neutralised ÷ (carbonate in shell × part that acts)", unit="g")
def eggshell_g(
    ration_g: ArrayLike,
    *,
    acid_mol_per_kg: ArrayLike,
    share_frac: ArrayLike,
    carbonate_frac: ArrayLike,
    acts_frac: ArrayLike,
) -> float | FloatArray:
    """Return the ground shell for a ration; none does where nothing of it acts."""
    acid = _f(ration_g) / 1000.0 * _f(acid_mol_per_kg)
    acts = _f(carbonate_frac) * _f(acts_frac)
    return keep_shape(
        np.where(acts > 0.0, acid * CARBONATE_G_PER_MOL / 2.0 * _f(share_frac) / np.maximum(acts, 1e-9), np.inf)
    )


@law("ration ÷ (worms × what they eat × appetite)", unit="d")
def next_feed_days(
    ration_g: ArrayLike, worms_kg: ArrayLike, eats_kg_per_kg_d: ArrayLike, appetite: ArrayLike
) -> float | FloatArray:
    """Return after how many days a ration is eaten; two at the least, since a bin wants rest."""
    eaten = 1000.0 * _f(worms_kg) * _f(eats_kg_per_kg_d) * _f(appetite)
    return keep_shape(np.where(eaten > 0.0, np.maximum(_f(ration_g) / np.maximum(eaten, 1e-9), 2.0), np.inf))


@law("(salt of corner + salt of feed) ÷ both masses, and so of anything that mixes", unit="g/kg")
def mixed_g_per_kg(
    corner_kg: ArrayLike, *, bed_g_per_kg: ArrayLike, ration_g: ArrayLike, feed_g_per_kg: ArrayLike
) -> float | FloatArray:
    """Return what a kilogram of the fed corner holds."""
    feed, corner = _f(ration_g) / 1000.0, _f(corner_kg)
    return keep_shape((corner * _f(bed_g_per_kg) + feed * _f(feed_g_per_kg)) / (corner + feed))


@law("pH of the bed − acid that is left ÷ (mass × buffer)", unit="[pH]")
def corner_ph(
    corner_kg: ArrayLike,
    *,
    bed_ph: ArrayLike,
    buffer_mol_per_kg: ArrayLike,
    ration_g: ArrayLike,
    acid_mol_per_kg: ArrayLike,
) -> float | FloatArray:
    """Return the pH of what was fed, mixed with the bed below it; 3.5 at the least."""
    acid = _f(ration_g) / 1000.0 * _f(acid_mol_per_kg)
    return keep_shape(np.maximum(_f(bed_ph) - acid / (_f(corner_kg) * _f(buffer_mol_per_kg)), 3.5))


@law("volume of the bed × what a litre bears", unit="mL", source="practice", place="one breeder")
def bran_most_ml(area_m2: ArrayLike, depth_m: ArrayLike, ml_per_l: ArrayLike) -> float | FloatArray:
    """Return the most starter bran that may be mixed into bedding."""
    return keep_shape(1000.0 * _f(area_m2) * _f(depth_m) * _f(ml_per_l))


@law("2^(30 days ÷ doubling × appetite × room left), less what hunger takes", unit="1")
def month_times(
    worms_kg: ArrayLike,
    *,
    area_m2: ArrayLike,
    most_kg_per_m2: ArrayLike,
    doubles_d: ArrayLike,
    appetite: ArrayLike,
    fed_kg_per_kg_d: ArrayLike,
    upkeep_kg_per_kg_d: ArrayLike,
) -> float | FloatArray:
    """Return by how many times the worms are more after a month; a sketch, told only as grows, holds or shrinks."""
    room = 1.0 - _f(worms_kg) / (_f(area_m2) * _f(most_kg_per_m2))
    fed = np.clip((_f(fed_kg_per_kg_d) - _f(upkeep_kg_per_kg_d)) / _f(upkeep_kg_per_kg_d), -1.0, 1.0)
    pace = np.where(fed < 0.0, fed, np.minimum(fed, 1.0) * _f(appetite) * np.clip(room, -1.0, 1.0))
    return keep_shape(2.0 ** (30.0 / _f(doubles_d) * pace))


@law("depth of bed × density × its buffer × half a step of pH × 50.04 g/mol ÷ what of it acts", unit="g")
def lime_for_bed_g(
    area_m2: ArrayLike, depth_m: ArrayLike, *, kg_per_l: ArrayLike, buffer_mol_per_kg: ArrayLike, acts_frac: ArrayLike
) -> float | FloatArray:
    """Return the ground shell or lime that lifts the upper part of a bed by half a step of pH."""
    acid = 0.5 * 1000.0 * _f(area_m2) * _f(depth_m) * _f(kg_per_l) * _f(buffer_mol_per_kg)
    return keep_shape(acid * CARBONATE_G_PER_MOL / 2.0 / _f(acts_frac))


@law("amount ÷ mass", unit="g/kg")
def per_kg(amount_g: ArrayLike, mass_kg: ArrayLike) -> FloatArray:
    """Return what a kilogram holds of something."""
    return np.asarray(np.asarray(amount_g, dtype=float) / np.asarray(mass_kg, dtype=float))


@law("the beta curve between the temperatures at which it stops", unit="1", source="yan_hunt1999")
def appetite(temperature_c: ArrayLike, low_c: ArrayLike, best_c: ArrayLike, high_c: ArrayLike) -> FloatArray:
    """Return the part of the greatest appetite that is left, member by member."""
    warm, low, best, high = (np.asarray(each, dtype=float) for each in (temperature_c, low_c, best_c, high_c))
    return np.asarray(appetite_frac(np.clip(warm, -50.0, 60.0), Warmth(low, best, high)))  # type: ignore[arg-type]


@law("worms × what they eat × appetite × days", unit="kg")
def eaten_kg(worms_kg: ArrayLike, eats_kg_per_kg_d: ArrayLike, appetite: ArrayLike, days: ArrayLike) -> FloatArray:
    """Return what worms eat in some days."""
    held = (np.asarray(each, dtype=float) for each in (worms_kg, eats_kg_per_kg_d, appetite, days))
    return np.asarray(np.prod(np.broadcast_arrays(*held), axis=0))


@law("whole × part", unit="kg")
def part_kg(whole_kg: ArrayLike, part: ArrayLike) -> FloatArray:
    """Return a part of a whole."""
    return np.asarray(np.asarray(whole_kg, dtype=float) * np.asarray(part, dtype=float))


@law("ration ÷ days ÷ worms", unit="kg/(kg.d)")
def fed_kg_per_kg_d(ration_g: ArrayLike, days: ArrayLike, worms_kg: ArrayLike) -> FloatArray:
    """Return the feed of a day to a kilogram of worms."""
    held = np.asarray(ration_g, dtype=float) / 1000.0 / np.asarray(worms_kg, dtype=float)
    return np.asarray(held / np.maximum(np.asarray(days, dtype=float), 1e-9))


def _f(values: ArrayLike) -> FloatArray:
    return np.asarray(values, dtype=float)
