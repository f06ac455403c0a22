"""What one filling gives, worked out from what was laid in and from the course of its vessel."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, derived, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.batch.content import ContentParameters
from sourloam.science.chem.elements import molar_mass_g_per_mol
from sourloam.science.load import laws
from sourloam.science.load.assess import Portion
from sourloam.science.load.members import members_of, value_figure

ELEMENTS: Final = ("dry", "carbon", "nitrogen", "phosphorus", "potassium", "sodium", "calcium", "magnesium", "sugars")
MOST_LIQUID: Final = 0.6  # of a filling: no member is left with less; a limit of the arithmetic
DS_PER_M_PER_MEQ_PER_L: Final = 0.075  # 0.1 in thin solutions, less in strong ones and where tissue binds; judgement
LIME: Final = ("calcium", "magnesium", "phosphorus")
HARD: Final = ("mineral", "bone")  # what of shells and bones does not dissolve in weeks
CHARGES: Final = MappingProxyType(
    {"potassium": ("K", 1), "sodium": ("Na", 1), "calcium": ("Ca", 2), "magnesium": ("Mg", 2)}
)
MEQ_PER_G: Final = MappingProxyType(
    {name: 1000.0 * charge / molar_mass_g_per_mol(symbol) for name, (symbol, charge) in CHARGES.items()}
)


@dataclass(frozen=True)
class Course:
    """What the course of a vessel says of what stays in it."""

    leachate_l: Figure
    dry_loss_pct: Figure
    nitrogen_loss_pct: Figure
    lactic_g_per_kg: Figure


def content_made(
    portions: Sequence[Portion], course: Course, usual: ContentParameters
) -> tuple[Figure, ContentParameters]:
    """Return the mass that a filling gives, and what a kilogram of it holds.

    What the course does not tell (ammonia, acetic acid) is that of a usual
    batch; salts leave with the liquid in proportion to water.
    """
    sums = _sums(portions)
    mass = derive(
        "mass_kg",
        stays_kg,
        words="the batch, once its liquid is drawn off",
        laid_kg=sums["mass"],
        dry_kg=sums["dry"],
        leachate_l=course.leachate_l,
        dry_loss_pct=course.dry_loss_pct,
    )
    dissolved, bound = _dissolved(sums, mass, course), _bound(sums, mass, course)
    salts = {f"{name}_g_per_kg": dissolved[name] for name in CHARGES}
    conductivity = derived(
        "conductivity_ds_per_m",
        conductivity_ds_per_m,
        {"dry_wb_frac": bound["dry"]} | salts,
        words="conductivity of its liquid, by all ions",
    )
    held = ContentParameters(
        dry_wb_frac=bound["dry"],
        carbon_g_per_kg=bound["carbon"],
        nitrogen_g_per_kg=bound["nitrogen"],
        ammonia_frac=usual.ammonia_frac,
        phosphorus_g_per_kg=dissolved["phosphorus"],
        potassium_g_per_kg=dissolved["potassium"],
        sodium_g_per_kg=dissolved["sodium"],
        conductivity_ds_per_m=conductivity,
        titratable_mol_per_kg=derive(
            "titratable_mol_per_kg",
            titratable_mol_per_kg,
            words="acid of it by titration, to a kilogram",
            lactic_g_per_kg=course.lactic_g_per_kg,
            acetic_g_per_kg=usual.acetic_g_per_kg,
        ),
        lactic_g_per_kg=course.lactic_g_per_kg,
        acetic_g_per_kg=usual.acetic_g_per_kg,
        sugar_g_per_kg=derive(
            "sugar_g_per_kg",
            sugar_left_g_per_kg,
            words="sugar that is left in it, to a kilogram",
            sugars_kg=sums["sugars"],
            lactic_g_per_kg=course.lactic_g_per_kg,
            mass_kg=mass,
        ),
        kg_per_l=usual.kg_per_l,
    )
    return mass, held


def _dissolved(sums: Mapping[str, Figure], mass: Figure, course: Course) -> dict[str, Figure]:
    """Return what is dissolved in the water of a batch, to a kilogram: it leaves as the water does."""
    water = derive("laid_water_kg", laws.rest_kg, words="water laid in", whole_kg=sums["mass"], part_kg=sums["dry"])
    drains = derive(
        "drained_frac",
        drained_frac,
        words="part of the water that ran off",
        water_kg=water,
        leachate_l=course.leachate_l,
    )
    return {
        name: derive(
            f"{name}_g_per_kg",
            dissolved_g_per_kg,
            words=f"{name} of it, to a kilogram",
            laid_kg=sums[name],
            drained_frac=drains,
            mass_kg=mass,
        )
        for name in ("phosphorus", *CHARGES)
    }


def _bound(sums: Mapping[str, Figure], mass: Figure, course: Course) -> dict[str, Figure]:
    """Return what is bound in the dry matter of a batch, to a kilogram."""
    lost = {"carbon": course.dry_loss_pct, "nitrogen": course.nitrogen_loss_pct}
    held = {
        name: derive(
            f"{name}_g_per_kg",
            bound_g_per_kg,
            words=f"{name} of it, to a kilogram",
            laid_kg=sums[name],
            loss_pct=loss,
            mass_kg=mass,
        )
        for name, loss in lost.items()
    }
    dry = derive(
        "dry_wb_frac",
        dry_wb_frac,
        words="dry matter of it",
        dry_kg=sums["dry"],
        loss_pct=course.dry_loss_pct,
        mass_kg=mass,
    )
    return held | {"dry": dry}


def _sums(portions: Sequence[Portion]) -> Mapping[str, Figure]:
    """Return the mass of all that was laid in, and of each element."""
    masses = {f"mass_{number}": each.mass for number, each in enumerate(portions)}
    found = {"mass": derived("laid_kg", laws.total_kg, masses, words="all that was laid in")}
    for name in ELEMENTS:
        parts = [(n, each) for n, each in enumerate(portions) if name not in LIME or each.material.kind not in HARD]
        shares = {
            f"share_{number}": value_figure(each.material, name, members_of(each.material, each.mass.members.size))
            for number, each in parts
        }
        laid = {f"mass_{number}": each.mass for number, each in parts}
        found[name] = derived(f"laid_{name}_kg", laws.sum_kg, laid | shares, words=f"{name} laid in")
    return found


@law("laid in − liquid that ran off − dry matter that left as gas", unit="kg")
def stays_kg(
    laid_kg: ArrayLike, dry_kg: ArrayLike, leachate_l: ArrayLike, dry_loss_pct: ArrayLike
) -> float | FloatArray:
    """Return what stays in a vessel; a litre of its liquid is taken as a kilogram."""
    laid = np.asarray(laid_kg, dtype=float)
    gas = np.asarray(dry_kg, dtype=float) * np.asarray(dry_loss_pct, dtype=float) / 100.0
    liquid = np.minimum(np.asarray(leachate_l, dtype=float), MOST_LIQUID * laid)
    return keep_shape(np.asarray(laid - gas - liquid))


@law("liquid that ran off ÷ water laid in", unit="1")
def drained_frac(water_kg: ArrayLike, leachate_l: ArrayLike) -> float | FloatArray:
    """Return the part of the water that ran off."""
    share = np.asarray(leachate_l, dtype=float) / np.maximum(np.asarray(water_kg, dtype=float), 1e-9)
    return keep_shape(np.clip(share, 0.0, MOST_LIQUID))


@law("laid in × (1 − part of the water that ran off) ÷ mass", unit="g/kg")
def dissolved_g_per_kg(laid_kg: ArrayLike, drained_frac: ArrayLike, mass_kg: ArrayLike) -> float | FloatArray:
    """Return what stays of something that is dissolved in the water, to a kilogram."""
    kept = np.asarray(laid_kg, dtype=float) * (1.0 - np.asarray(drained_frac, dtype=float))
    return keep_shape(1000.0 * kept / np.asarray(mass_kg, dtype=float))


@law("laid in × (1 − loss) ÷ mass", unit="g/kg")
def bound_g_per_kg(laid_kg: ArrayLike, loss_pct: ArrayLike, mass_kg: ArrayLike) -> float | FloatArray:
    """Return what stays of something that is bound in the dry matter, to a kilogram."""
    kept = np.asarray(laid_kg, dtype=float) * (1.0 - np.asarray(loss_pct, dtype=float) / 100.0)
    return keep_shape(1000.0 * kept / np.asarray(mass_kg, dtype=float))


@law("dry matter × (1 − loss) ÷ mass", unit="1")
def dry_wb_frac(dry_kg: ArrayLike, loss_pct: ArrayLike, mass_kg: ArrayLike) -> float | FloatArray:
    """Return the dry matter of what stays."""
    kept = np.asarray(dry_kg, dtype=float) * (1.0 - np.asarray(loss_pct, dtype=float) / 100.0)
    return keep_shape(np.clip(kept / np.asarray(mass_kg, dtype=float), 0.0, 1.0))


@law("0.075 dS/m × milliequivalents of K, Na, Ca and Mg in a litre of its water", unit="dS/m", source="judgement")
def conductivity_ds_per_m(
    dry_wb_frac: ArrayLike,
    *,
    potassium_g_per_kg: ArrayLike,
    sodium_g_per_kg: ArrayLike,
    calcium_g_per_kg: ArrayLike,
    magnesium_g_per_kg: ArrayLike,
) -> float | FloatArray:
    """Return the conductivity of the liquid of a batch from its cations: acid keeps all of them dissolved."""
    given = (potassium_g_per_kg, sodium_g_per_kg, calcium_g_per_kg, magnesium_g_per_kg)
    meq = sum(np.asarray(each, dtype=float) * MEQ_PER_G[name] for each, name in zip(given, CHARGES, strict=True))
    return keep_shape(np.asarray(DS_PER_M_PER_MEQ_PER_L * meq / (1.0 - np.asarray(dry_wb_frac, dtype=float))))


@law("lactic acid ÷ 90.08 + acetic acid ÷ 60.05", unit="mol/kg")
def titratable_mol_per_kg(lactic_g_per_kg: ArrayLike, acetic_g_per_kg: ArrayLike) -> float | FloatArray:
    """Return the acid of a batch by titration: what the tissue has taken up comes back when it is titrated."""
    lactic = np.asarray(lactic_g_per_kg, dtype=float) / molar_mass_g_per_mol("C3H6O3")
    return keep_shape(lactic + np.asarray(acetic_g_per_kg, dtype=float) / molar_mass_g_per_mol("C2H4O2"))


@law("sugar laid in ÷ mass − lactic acid, never under 0", unit="g/kg")
def sugar_left_g_per_kg(sugars_kg: ArrayLike, lactic_g_per_kg: ArrayLike, mass_kg: ArrayLike) -> float | FloatArray:
    """Return the sugar that no acid was made of; what starch gave off besides is not counted."""
    laid = 1000.0 * np.asarray(sugars_kg, dtype=float) / np.asarray(mass_kg, dtype=float)
    return keep_shape(np.maximum(laid - np.asarray(lactic_g_per_kg, dtype=float), 0.0))
