"""The liquid of a load through its days: when the first of it comes, how much, how sour, how often to draw it off."""

from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, derived, law, written
from sourloam.base.numbers import FloatArray, halved, keep_shape
from sourloam.base.source import Basis
from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.charge import Protolytes, ph_of
from sourloam.science.load.assess import Known, Load
from sourloam.science.load.laws import moles
from sourloam.science.load.members import members_of
from sourloam.science.materials.composition import Material
from sourloam.science.vessel.leachate import MOST_L_PER_KG, drained_while_filling_frac, effluent_l_per_kg

LONGEST_D: Final = 365.0  # after the filling; what has not come by then never comes
TRICKLE_L_PER_D: Final = 1e-6


@law("liquid that it sets free − bran × what it holds", unit="L")
def runs_off_l(free_l: ArrayLike, bran_g: ArrayLike, bran_holds_kg_per_kg: ArrayLike) -> float | FloatArray:
    """Return what of the free liquid runs off beside the bran."""
    held = np.asarray(bran_g, dtype=float) / 1000.0 * np.asarray(bran_holds_kg_per_kg, dtype=float)
    return keep_shape(np.maximum(np.asarray(free_l, dtype=float) - held, 0.0))


@law("day on which so much has come that it is seen; scraps come in evenly", unit="d")
def first_liquid_d(
    runs_off_l: ArrayLike, filling_d: ArrayLike, draining_d: ArrayLike, seen_l: ArrayLike
) -> float | FloatArray:
    """Return the days from the first layer to the first liquid; infinite where so much never comes."""
    whole, filling, draining, seen = np.broadcast_arrays(
        *(np.asarray(each, dtype=float) for each in (runs_off_l, filling_d, draining_d, seen_l))
    )
    low, high = np.zeros(whole.shape), filling + LONGEST_D
    found = halved(lambda day: whole * drained_while_filling_frac(day, filling, draining) >= seen, low, high)
    return keep_shape(np.where(whole > seen, found, np.inf))


@law("what has come by the first draw-off: so many days after the first liquid", unit="L")
def first_draw_l(
    runs_off_l: ArrayLike,
    first_liquid_d: ArrayLike,
    draw_off_d: ArrayLike,
    *,
    filling_d: ArrayLike,
    draining_d: ArrayLike,
) -> float | FloatArray:
    """Return what is drawn off the first time; nothing where no liquid is ever seen."""
    first = np.asarray(first_liquid_d, dtype=float)
    day = np.where(np.isfinite(first), first, 0.0) + np.asarray(draw_off_d, dtype=float)
    come = np.asarray(runs_off_l, dtype=float) * drained_while_filling_frac(day, filling_d, draining_d)
    return keep_shape(np.where(np.isfinite(first), come, 0.0))


@law(
    "room below the grid ÷ the fastest that liquid comes in a full vessel, but no longer than it may stand there",
    unit="d",
)
def draw_off_d(
    full_liquid_l: ArrayLike,
    below_grid_l: ArrayLike,
    *,
    filling_d: ArrayLike,
    draining_d: ArrayLike,
    longest_d: ArrayLike,
) -> float | FloatArray:
    """Return the longest time between two draw-offs at which liquid never reaches the scraps and does not spoil."""
    filling, draining = np.asarray(filling_d, dtype=float), np.asarray(draining_d, dtype=float)
    fastest = np.asarray(full_liquid_l, dtype=float) / filling * -np.expm1(-filling / draining)
    days = np.asarray(below_grid_l, dtype=float) / np.maximum(fastest, TRICKLE_L_PER_D)
    return keep_shape(np.minimum(days, np.asarray(longest_d, dtype=float)))


@law(
    "pH that all the acid which it can make would bring it to, but no lower than liquids of soured scraps have",
    unit="[pH]",
    source="barnes_burt2009",
    basis=Basis.DERIVED,
)
def liquid_ph(
    *,
    soured_ph: ArrayLike,
    lactic_possible_kg: ArrayLike,
    tissue_eq: ArrayLike,
    strong_eq: ArrayLike,
    alkali_eq: ArrayLike,
    water_kg: ArrayLike,
    **acids_kg: ArrayLike,
) -> float | FloatArray:
    """Return the pH of the liquid once the load has soured; what starts sourer than that stays so.

    Raises
    ------
    OutOfRange
        If an amount is negative.
    """
    strong = np.asarray(strong_eq, dtype=float) + np.asarray(alkali_eq, dtype=float)
    start = np.asarray(ph_of(Protolytes(tissue_eq, moles(acids_kg)), strong, water_kg))
    made = acids_kg | {"lactic": np.asarray(acids_kg["lactic"], dtype=float) + np.asarray(lactic_possible_kg)}
    reached = np.asarray(ph_of(Protolytes(tissue_eq, moles(made)), strong, water_kg))
    return keep_shape(np.minimum(start, np.maximum(reached, np.asarray(soured_ph, dtype=float))))


@law("liquid × parts of water to one of it", unit="L")
def watering_l(runs_off_l: ArrayLike, dilution: ArrayLike) -> float | FloatArray:
    """Return the water that thins the liquid enough for soil."""
    return keep_shape(np.asarray(runs_off_l, dtype=float) * np.asarray(dilution, dtype=float))


def thinned(known: Known, parts: float | None, *, members: int) -> Figure:
    """Return the parts of water to one of the liquid: as the keeper said if that is weak enough, else the least."""
    least = known.load.dilution
    if parts is not None and parts > least.value:
        return written("dilution", parts, "1", words="parts of water to one of the liquid", members=members)
    return replace(least, members=np.full(members, least.value))


def liquid_figures(
    load: Load, known: Known, *, bran: Figure, filling: Figure, full: Figure, parts: Figure
) -> dict[str, Figure]:
    """Return the liquid of a load that is filled in over some days and drains; `full` is that of the full vessel."""
    vessel = known.vessel
    runs_off = derive(
        "runs_off_l",
        runs_off_l,
        words="liquid that runs off",
        free_l=load.figures["free_water_l"],
        bran_g=bran,
        bran_holds_kg_per_kg=vessel.bran_holds_kg_per_kg,
    )
    first = derive(
        "first_liquid_d",
        first_liquid_d,
        words="first liquid, after the first layer",
        runs_off_l=runs_off,
        filling_d=filling,
        draining_d=vessel.draining_d,
        seen_l=known.load.seen_l,
    )
    between = derive(
        "draw_off_d",
        draw_off_d,
        words="longest time between two draw-offs",
        full_liquid_l=full,
        below_grid_l=load.setting.below_grid,
        filling_d=filling,
        draining_d=vessel.draining_d,
        longest_d=vessel.draw_off_d,
    )
    amount = derive(
        "first_draw_l",
        first_draw_l,
        words="liquid drawn off the first time",
        runs_off_l=runs_off,
        first_liquid_d=first,
        draw_off_d=between,
        filling_d=filling,
        draining_d=vessel.draining_d,
    )
    water = derive("watering_l", watering_l, words="water to thin it with", runs_off_l=runs_off, dilution=parts)
    return {each.name: each for each in (runs_off, first, between, amount, _ph(load, known), water)}


def _ph(load: Load, known: Known) -> Figure:
    names = ("lactic_possible_kg", "tissue_eq", "strong_eq", "alkali_eq", "water_kg")
    held = {name: load.figures[name] for name in names} | {name: load.figures[f"{name}_kg"] for name in ACIDS}
    return derived("liquid_ph", liquid_ph, {"soured_ph": known.load.soured_ph} | held, words="pH of the liquid")


def liquid_shares(load: Load, known: Known) -> dict[Material, float]:
    """Return of which materials the liquid comes, as shares at the middle values; empty where none does."""
    softness = known.vessel.softness.value
    free: dict[Material, float] = {}
    for each in load.portions:
        held = {name: float(members_of(each.material, 1)[name][0]) for name in ("wet", "wet_dry", "pours")}
        per_kg = min(float(effluent_l_per_kg(held["wet_dry"])) * softness, MOST_L_PER_KG) * held["wet"] + held["pours"]
        free[each.material] = free.get(each.material, 0.0) + each.mass.value * per_kg
    whole = sum(free.values())
    return {each: part / whole for each, part in free.items() if part > 0.0}
