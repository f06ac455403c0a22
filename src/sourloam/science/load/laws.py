"""What a load comes to, from what it is made of. Amounts are of the whole load, shares of its fresh mass."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.charge import Protolytes, lactic_to_reach_mol, ph_of
from sourloam.science.chem.elements import mass_share
from sourloam.science.materials.buffering import EACH_ACID_EQ_PER_MOL
from sourloam.science.materials.fermentability import (
    LINE_FROM_PCT,
    LINE_TO_PCT,
    critical_ph_by_acid,
    critical_ph_by_dry,
)
from sourloam.science.vessel.leachate import MOST_L_PER_KG, effluent_l_per_kg

SHARE: Final = Range(0.0, 1.0)
STARCH_TO_SUGAR: Final = mass_share("C", "C6H10O5") / mass_share(
    "C", "C6H12O6"
)  # starch takes up water when it is split
MOST_LOST: Final = 0.4  # of the water, in a caddy; judgement
SALT_PER_SODIUM: Final = 1.0 / mass_share("Na", "NaCl")


@law("mass × share of each, added up", unit="kg")
def sum_kg(**parts: ArrayLike) -> float | FloatArray:
    """Return the sum over materials of `mass_N` times `share_N`."""
    return keep_shape(np.asarray(sum(_products(parts)), dtype=float))


@law("mass × charge per mass of each, added up", unit="eq")
def sum_eq(**parts: ArrayLike) -> float | FloatArray:
    """Return the sum over materials of `mass_N` times `share_N`, for charges."""
    return keep_shape(np.asarray(sum(_products(parts)), dtype=float))


@law("masses added up", unit="kg")
def total_kg(**masses: ArrayLike) -> float | FloatArray:
    """Return the sum of masses."""
    return keep_shape(np.asarray(sum(np.asarray(each, dtype=float) for each in masses.values()), dtype=float))


@law("mass of each ÷ its pressed density, added up", unit="L")
def pressed_l(**parts: ArrayLike) -> float | FloatArray:
    """Return the room of a load when it is pressed: `mass_N` over `density_N`, added up."""
    masses = _of(parts, "mass_")
    return keep_shape(np.asarray(sum(masses[n] / np.asarray(parts[f"density_{n}"]) for n in masses), dtype=float))


@law("whole − part", unit="kg")
def rest_kg(whole_kg: ArrayLike, part_kg: ArrayLike) -> float | FloatArray:
    """Return what is left of a whole."""
    return keep_shape(np.asarray(np.asarray(whole_kg, dtype=float) - np.asarray(part_kg, dtype=float)))


@law("count × mass of one piece", unit="kg")
def counted_kg(count: ArrayLike, piece_kg: ArrayLike) -> float | FloatArray:
    """Return the mass of so many pieces."""
    return keep_shape(np.asarray(np.asarray(count, dtype=float) * np.asarray(piece_kg, dtype=float)))


@law("handfuls × volume of one", unit="L")
def handfuls_l(count: ArrayLike, handful_l: ArrayLike) -> float | FloatArray:
    """Return the loose volume of so many handfuls."""
    return keep_shape(np.asarray(np.asarray(count, dtype=float) * np.asarray(handful_l, dtype=float)))


@law("weighed ÷ (1 − loss a day × days), at constant dry matter", unit="kg")
def fresh_kg(weighed_kg: ArrayLike, loss_frac_per_d: ArrayLike, days: ArrayLike, dry_wb_frac: ArrayLike) -> FloatArray:
    """Return the mass that scraps had before they lay in a vented caddy.

    They lose water only, and never more than two fifths of it, however long they lay.
    """
    most = MOST_LOST * (1.0 - np.asarray(dry_wb_frac, dtype=float))
    lost = np.minimum(np.asarray(loss_frac_per_d, dtype=float) * np.asarray(days, dtype=float), most)
    return np.asarray(np.asarray(weighed_kg, dtype=float) / (1.0 - lost))


@law("100 × part ÷ whole", unit="%")
def percent(part_kg: ArrayLike, whole_kg: ArrayLike) -> float | FloatArray:
    """Return a part of a whole in per cent; 0 where there is no whole."""
    return keep_shape(100.0 * _quotient(part_kg, whole_kg))


@law("part ÷ whole", unit="1")
def share(part_kg: ArrayLike, whole_kg: ArrayLike) -> float | FloatArray:
    """Return a part of a whole; 0 where there is no whole."""
    return keep_shape(_quotient(part_kg, whole_kg))


@law("100 × sugar ÷ dry matter", unit="g/(100.g)")
def sugar_g_per_100g_dry(sugars_kg: ArrayLike, dry_kg: ArrayLike) -> float | FloatArray:
    """Return the water-soluble carbohydrate of the dry matter."""
    return keep_shape(100.0 * _quotient(sugars_kg, dry_kg))


@law("1000 × charge that tissue and acids take up between pH 4 and 6 ÷ dry matter", unit="meq/kg")
def buffering_meq_per_kg_dm(tissue_eq: ArrayLike, acids_eq: ArrayLike, dry_kg: ArrayLike) -> float | FloatArray:
    """Return the buffering of a load, to a kilogram of its dry matter."""
    whole = np.asarray(tissue_eq, dtype=float) + np.asarray(acids_eq, dtype=float)
    return keep_shape(1000.0 * _quotient(whole, dry_kg))


@law("2.54 × sodium, to a kilogram", unit="g/kg", source="iupac_masses", place="NaCl by its sodium")
def salt_g_per_kg(sodium_kg: ArrayLike, whole_kg: ArrayLike) -> float | FloatArray:
    """Return the common salt that the sodium of a load stands for."""
    return keep_shape(1000.0 * SALT_PER_SODIUM * _quotient(sodium_kg, whole_kg))


@law(
    "pH at which tissue, acids and water carry the charge that the strong ions leave",
    unit="[pH]",
    source="tissue_groups",
)
def start_ph(
    tissue_eq: ArrayLike, strong_eq: ArrayLike, water_kg: ArrayLike, **acids_kg: ArrayLike
) -> float | FloatArray:
    """Return the pH of a load as it is mixed; shells and ash have not reacted yet.

    Raises
    ------
    OutOfRange
        If an amount is negative.
    """
    return ph_of(Protolytes(tissue_eq, moles(acids_kg)), strong_eq, water_kg)


@law(
    "what the wet part sets free (by its dry matter, × softness), and all liquid, less what the dry part soaks up",
    unit="L",
    source="bastiman1976",
    place="effluent by dry matter",
    basis=Basis.MEMORY,
)
def free_water_l(
    *, wet_kg: ArrayLike, wet_dry_kg: ArrayLike, liquid_kg: ArrayLike, soaks_kg: ArrayLike, softness: ArrayLike
) -> float | FloatArray:
    r"""Liquid that a load sets free in some weeks under its own weight.

    .. math:: V = m_{wet} \min(s\,E(D), 0.40) + m_{liquid} - m_{soaks}

    Parameters
    ----------
    wet_kg, wet_dry_kg : float or array
        Mass of what holds more water than it keeps under pressure, and its dry matter. [kg]
    liquid_kg : float or array
        What was poured in: all of it is free. [kg]
    soaks_kg : float or array
        What the dry part can take up under the same pressure. [kg]
    softness : float or array
        Liquid against forage of the same dry matter. [-]

    Returns
    -------
    free : float or array
        Never below nothing; a kilogram counts as a litre. [L]

    Notes
    -----
    More bran does not cure wetness: 20 g of it keep 50 ml.

    References
    ----------
    bastiman1976: effluent of forage by its dry matter.
    degueurce2019: the upper bound.
    """
    wet = np.asarray(wet_kg, dtype=float)
    dry_frac = np.clip(_quotient(wet_dry_kg, wet), 0.0, 1.0)
    per_kg = np.minimum(np.asarray(effluent_l_per_kg(dry_frac)) * np.asarray(softness, dtype=float), MOST_L_PER_KG)
    free = wet * per_kg + np.asarray(liquid_kg, dtype=float) - np.asarray(soaks_kg, dtype=float)
    return keep_shape(np.asarray(np.maximum(free, 0.0)))


@law("dry matter ÷ (mass − liquid that drains)", unit="%")
def kept_dry_pct(dry_kg: ArrayLike, mass_kg: ArrayLike, drained_l: ArrayLike) -> float | FloatArray:
    """Return the dry matter of the layer that stays when its liquid has drained."""
    kept = np.asarray(mass_kg, dtype=float) - np.asarray(drained_l, dtype=float)
    return keep_shape(np.minimum(100.0 * _quotient(dry_kg, kept), 100.0))


@law(
    "by the line through published points from 15 % dry matter up, with its scatter; below, the pH at which "
    "undissociated lactic acid stops clostridia and enteric bacteria",
    unit="[pH]",
    source="weissbach1974",
    place="critical pH by dry matter; thylin1995 and presser1998 below 15 %",
    basis=Basis.MEMORY,
)
def critical_ph(
    *,
    kept_dry_pct: ArrayLike,
    scatter: ArrayLike,
    tissue_eq: ArrayLike,
    strong_eq: ArrayLike,
    water_kg: ArrayLike,
    **acids_kg: ArrayLike,
) -> float | FloatArray:
    """Return the greatest pH at which a load keeps.

    Above 50 % dry matter, where the line ends, its end stands: such a load is
    too dry to sour anyway.

    Raises
    ------
    OutOfRange
        If an amount is negative.
    """
    dry = np.asarray(kept_dry_pct, dtype=float)
    line = np.asarray(critical_ph_by_dry(np.clip(dry, LINE_FROM_PCT, LINE_TO_PCT))) + np.asarray(scatter, dtype=float)
    if np.all(dry >= LINE_FROM_PCT):
        return keep_shape(np.asarray(line))
    by_acid = critical_ph_by_acid(tissue_eq, strong_eq, water_kg, **moles(acids_kg))
    return keep_shape(np.where(dry >= LINE_FROM_PCT, line, np.asarray(by_acid)))


@law(
    "lactic acid whose charge takes the load, its lime and its ash to the critical pH",
    unit="kg",
    source="tissue_groups",
)
def lactic_needed_kg(
    *,
    critical_ph: ArrayLike,
    tissue_eq: ArrayLike,
    strong_eq: ArrayLike,
    alkali_eq: ArrayLike,
    water_kg: ArrayLike,
    **acids_kg: ArrayLike,
) -> float | FloatArray:
    """Return the lactic acid that a load needs; nothing where it is acid enough already.

    Raises
    ------
    OutOfRange
        If an amount is negative.
    """
    strong = np.asarray(strong_eq, dtype=float) + np.asarray(alkali_eq, dtype=float)
    needed = np.asarray(lactic_to_reach_mol(Protolytes(tissue_eq, moles(acids_kg)), strong, water_kg, critical_ph))
    return keep_shape(np.maximum(needed, 0.0) * ACIDS["lactic"].kg_per_mol)


@law("yield × (sugar + 1.11 × starch × (1 − exp(−release × days)))", unit="kg")
def lactic_possible_kg(
    *,
    sugars_kg: ArrayLike,
    starch_kg: ArrayLike,
    lactic_yield: ArrayLike,
    release_per_d: ArrayLike,
    days: ArrayLike,
) -> float | FloatArray:
    """Return the lactic acid that sugar and released starch can make in so many days."""
    given = -np.expm1(-np.asarray(release_per_d, dtype=float) * np.asarray(days, dtype=float))
    sugar = np.asarray(sugars_kg, dtype=float) + STARCH_TO_SUGAR * np.asarray(starch_kg, dtype=float) * given
    return keep_shape(np.asarray(np.asarray(lactic_yield, dtype=float) * sugar))


@law("1000 × amount ÷ mass", unit="g/kg")
def g_per_kg(amount_kg: ArrayLike, whole_kg: ArrayLike) -> float | FloatArray:
    """Return an amount to a kilogram of a load."""
    return keep_shape(1000.0 * _quotient(amount_kg, whole_kg))


@law("1 − mass ÷ (pressed volume × density of the solid)", unit="1", source="judgement", basis=Basis.JUDGEMENT)
def air_frac(mass_kg: ArrayLike, volume_l: ArrayLike, solid_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the air between the pieces of a pressed load."""
    filled = _quotient(mass_kg, np.asarray(volume_l, dtype=float) * np.asarray(solid_kg_per_l, dtype=float))
    return keep_shape(np.clip(1.0 - filled, 0.0, 1.0))


@law("volume ÷ (area × depth of a layer)", unit="{layer}")
def layers(volume_l: ArrayLike, area_m2: ArrayLike, layer_m: ArrayLike) -> float | FloatArray:
    """Return how many layers a load makes in a vessel, at least one."""
    depth = np.asarray(volume_l, dtype=float) / 1000.0 / np.asarray(area_m2, dtype=float)
    return keep_shape(np.maximum(depth / np.asarray(layer_m, dtype=float), 1.0))


def dose_times(animal_frac: ArrayLike, animal_times: ArrayLike) -> FloatArray:
    """Return how many times the bran of plants a load gets for its animal part."""
    more = np.asarray(animal_times, dtype=float) - 1.0
    return np.asarray(1.0 + more * np.asarray(animal_frac, dtype=float))


@law(
    "the largest of: live bacteria for all, cover for every layer, and the practice floor; more on animal matter",
    unit="g",
)
def bran_g(
    *,
    mass_kg: ArrayLike,
    animal_frac: ArrayLike,
    animal_times: ArrayLike,
    floor_g_per_kg: ArrayLike,
    least_log10_per_g: ArrayLike,
    bran_log10_per_g: ArrayLike,
    layers: ArrayLike,
    area_m2: ArrayLike,
    cover_kg_per_m2: ArrayLike,
) -> float | FloatArray:
    """Return the bran that a load needs at least.

    Raises
    ------
    OutOfRange
        If the share of animal matter is outside 0 to 1.
    """
    animal = within(animal_frac, SHARE, name="animal_frac", why="it is a share of the load.")
    mass = np.asarray(mass_kg, dtype=float) * dose_times(animal, animal_times)
    floor = mass * np.asarray(floor_g_per_kg, dtype=float)
    live = (
        1000.0 * mass * 10.0 ** (np.asarray(least_log10_per_g, dtype=float) - np.asarray(bran_log10_per_g, dtype=float))
    )
    cover = 1000.0 * np.asarray(layers, dtype=float) * np.asarray(area_m2, dtype=float) * np.asarray(cover_kg_per_m2)
    return keep_shape(np.maximum(np.maximum(floor, live), cover))


@law("free liquid ÷ what a gram of the absorbent takes up", unit="g")
def absorbent_g(free_l: ArrayLike, dry_wb_frac: ArrayLike, held_kg_per_kg_dry: ArrayLike) -> float | FloatArray:
    """Return the dry absorbent that soaks up the free liquid; infinite where it takes up none."""
    dry = np.asarray(dry_wb_frac, dtype=float)
    takes = dry * np.asarray(held_kg_per_kg_dry, dtype=float) - (1.0 - dry)
    free, takes = np.broadcast_arrays(1000.0 * np.asarray(free_l, dtype=float), takes)
    return keep_shape(np.divide(free, takes, out=np.full(free.shape, np.inf), where=takes > 0.0))


@law("moles of each × its change of charge from pH 4 to 6", unit="eq", source="martell_smith1976")
def acids_eq(**acids_kg: ArrayLike) -> float | FloatArray:
    """Return what the organic acids of a load take up between pH 4 and 6."""
    held = moles(acids_kg)
    return keep_shape(np.asarray(sum(held[name] * EACH_ACID_EQ_PER_MOL[name] for name in held), dtype=float))


def moles(acids_kg: dict[str, ArrayLike]) -> dict[str, FloatArray]:
    """Return moles of acids from their masses, by name."""
    return {name: np.asarray(mass, dtype=float) / ACIDS[name].kg_per_mol for name, mass in acids_kg.items()}


def _products(parts: dict[str, ArrayLike]) -> list[FloatArray]:
    masses = _of(parts, "mass_")
    return [mass * np.asarray(parts[f"share_{number}"], dtype=float) for number, mass in masses.items()]


def _of(parts: dict[str, ArrayLike], prefix: str) -> dict[str, FloatArray]:
    found = {name: value for name, value in parts.items() if name.startswith(prefix)}
    return {name.removeprefix(prefix): np.asarray(value, dtype=float) for name, value in found.items()}


def _quotient(part: ArrayLike, whole: ArrayLike) -> FloatArray:
    above, below = np.broadcast_arrays(np.asarray(part, dtype=float), np.asarray(whole, dtype=float))
    return np.asarray(np.divide(above, below, out=np.zeros(above.shape), where=below > 0.0))
