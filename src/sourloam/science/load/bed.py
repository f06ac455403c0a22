"""The dry stuff of a vessel without a drain: what lies as a bed, and what is mixed in."""

from dataclasses import replace
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.load.advice import Advice, Do, Step
from sourloam.science.load.assess import Known, Load
from sourloam.science.load.members import members_of, value_figure

ENOUGH_IN: Final = 0.95  # of cases; judgement: what is too little is seen when it is too late
LIQUID: Final = "liquid"  # the limit that the dry stuff is for


@law("depth of the bed × floor × density as it lies × 1000", unit="g")
def bed_g(bed_m: ArrayLike, area_m2: ArrayLike, loose_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return what a dry bed on the floor of a vessel weighs."""
    litres = 1000.0 * np.asarray(bed_m, dtype=float) * np.asarray(area_m2, dtype=float)
    return keep_shape(1000.0 * litres * np.asarray(loose_kg_per_l, dtype=float))


@law("dry matter × what it holds − its own water", unit="L")
def bed_soaks_l(bed_g: ArrayLike, dry_wb_frac: ArrayLike, held_kg_per_kg_dry: ArrayLike) -> float | FloatArray:
    """Return the liquid that a bed takes up."""
    dry = np.asarray(dry_wb_frac, dtype=float)
    takes = dry * np.asarray(held_kg_per_kg_dry, dtype=float) - (1.0 - dry)
    return keep_shape(np.asarray(bed_g, dtype=float) / 1000.0 * np.maximum(takes, 0.0))


@law("what soaks all of it up ÷ mass, in the case that wants more than 19 of 20 others", unit="g/kg")
def enough_g_per_kg(absorbent_g: ArrayLike, mass_kg: ArrayLike) -> float | FloatArray:
    """Return what is enough of an absorbent for a kilogram in 19 of 20 of all cases together."""
    each = np.asarray(absorbent_g, dtype=float) / np.asarray(mass_kg, dtype=float)
    finite = each[np.isfinite(each)]
    enough = float(np.quantile(finite, ENOUGH_IN, method="nearest")) if finite.size else 0.0
    return keep_shape(np.full(each.shape, enough))


@law("enough less what lies as the bed", unit="g/kg")
def mixed_g_per_kg(
    *,
    enough_g_per_kg: ArrayLike,
    bed_g: ArrayLike,
    bare_kg: ArrayLike,
    room_l: ArrayLike,
    pressed_kg_per_l: ArrayLike,
) -> float | FloatArray:
    """Return what is mixed into a kilogram, so that a full vessel has enough with its bed and all of it fits."""
    enough, bed = (np.asarray(each, dtype=float) / 1000.0 for each in (enough_g_per_kg, bed_g))
    room, pressed = np.asarray(room_l, dtype=float), np.asarray(pressed_kg_per_l, dtype=float)
    scraps = (room + bed / pressed) / (room / np.asarray(bare_kg, dtype=float) + enough / pressed)
    return keep_shape(np.maximum(1000.0 * (enough - bed / scraps), 0.0))


@law("room ÷ (room of a kilogram + room of what is mixed into it)", unit="kg")
def full_with_kg(
    bare_kg: ArrayLike, room_l: ArrayLike, mixed_g_per_kg: ArrayLike, pressed_kg_per_l: ArrayLike
) -> float | FloatArray:
    """Return the scraps in a full vessel, where something dry is mixed in; `bare_kg` are those without it."""
    room = np.asarray(room_l, dtype=float)
    mixed_l = np.asarray(mixed_g_per_kg, dtype=float) / 1000.0 / np.asarray(pressed_kg_per_l, dtype=float)
    return keep_shape(room / (room / np.asarray(bare_kg, dtype=float) + mixed_l))


@law("scraps × what is mixed into a kilogram", unit="g")
def full_mixed_g(full_kg: ArrayLike, mixed_g_per_kg: ArrayLike) -> float | FloatArray:
    """Return what is mixed into a whole filling."""
    return keep_shape(np.asarray(full_kg, dtype=float) * np.asarray(mixed_g_per_kg, dtype=float))


def dry_figures(load: Load, known: Known, *, room: Figure, bare: Figure) -> dict[str, Figure]:
    """Return the bed, what is mixed in, and the scraps that a full vessel holds with both."""
    material, count = load.setting.absorbent, load["mass_kg"].size
    drawn = members_of(material, count)
    held = {name: value_figure(material, name, drawn) for name in ("loose", "pressed", "dry", "held")}
    bed = derive(
        "bed_g",
        bed_g,
        words=f"bed of {material.name}",
        bed_m=known.vessel.bed_m,
        area_m2=load.figures["area_m2"],
        loose_kg_per_l=held["loose"],
    )
    soaks = derive(
        "bed_soaks_l",
        bed_soaks_l,
        words="liquid that the bed takes up",
        bed_g=bed,
        dry_wb_frac=held["dry"],
        held_kg_per_kg_dry=held["held"],
    )
    mixed = derive(
        "mixed_g_per_kg",
        mixed_g_per_kg,
        words=f"{material.name} to mix into a kilogram",
        enough_g_per_kg=derive(
            "enough_g_per_kg",
            enough_g_per_kg,
            words=f"{material.name} that is enough for a kilogram in 19 cases of 20",
            absorbent_g=load.figures["absorbent_g"],
            mass_kg=load.figures["mass_kg"],
        ),
        bed_g=bed,
        bare_kg=bare,
        room_l=room,
        pressed_kg_per_l=held["pressed"],
    )
    holds = derive(
        "full_kg",
        full_with_kg,
        words="scraps in a full vessel",
        bare_kg=bare,
        room_l=room,
        mixed_g_per_kg=mixed,
        pressed_kg_per_l=held["pressed"],
    )
    whole = derive(
        "full_mixed_g",
        full_mixed_g,
        words=f"{material.name} mixed into a full vessel",
        full_kg=holds,
        mixed_g_per_kg=mixed,
    )
    return {each.name: each for each in (bed, soaks, mixed, holds, whole)}


def as_planned(advice: Advice | None, load: Load) -> Advice | None:
    """Return an advice that mixes in as much as the plan of the filling does: the bed takes up its part."""
    mixed = load.figures.get("mixed_g_per_kg")
    if advice is None or mixed is None:
        return advice
    amount_kg = mixed.value / 1000.0 * _goes_in_kg(advice, load)
    steps = tuple(replace(each, amount_kg=amount_kg) if _is_for_liquid(each, load) else each for each in advice.steps)
    return replace(advice, steps=steps)


def _is_for_liquid(step: Step, load: Load) -> bool:
    return step.do is Do.SOAK and step.because == LIQUID and step.material == load.setting.absorbent


def _goes_in_kg(advice: Advice, load: Load) -> float:
    """Return what of a load goes in at once."""
    held_back = sum(each.amount_kg for each in advice.steps if each.do is Do.HOLD_BACK)
    return load.figures["mass_kg"].value - held_back
