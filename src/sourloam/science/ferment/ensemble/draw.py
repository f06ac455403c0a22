"""From what is laid into a vessel to the members that the model follows.

Each draws its own composition, counts, rates and room.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from sourloam.base.figure import SEED
from sourloam.base.numbers import FloatArray
from sourloam.science.chem.acids import ACIDS
from sourloam.science.chem.elements import molar_mass_g_per_mol
from sourloam.science.ferment.ensemble.counts import cells_g
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.parameters import ModelParameters
from sourloam.science.ferment.ensemble.parts import LEAST_KG, Parts, per_kg, share
from sourloam.science.ferment.layer.acidity import salt_times
from sourloam.science.ferment.layer.state import GROUPS, State
from sourloam.science.ferment.stack.given import SOLUTES, Laid, Vessel
from sourloam.science.ferment.stack.life import Starts

PIECE_MM: Final = 30.0  # at which the release is given
LEAST_PIECE_MM: Final = 1.0
SOLID_KG_PER_L: Final = 1.05  # of tissue without air; judgement
LEAST_AIR: Final = 0.02  # of a pressed layer; judgement
CP_J_PER_KG_K: Final = 3800.0  # of wet scraps; recalled
OPEN_TIMES: Final = 400.0  # air that comes to an open vessel against a closed one: 20 L a day; judgement
IN_A_FORTNIGHT: Final = 0.75  # of the lime, as the table of materials counts it, reacts in that time
IONS: Final = MappingProxyType({"phosphorus": "P", "sodium": "Na", "potassium": "K"})


def draw(filling: Filling, living: Living, *, seed: int = SEED) -> Starts:
    """Return all members of a filling as they are laid: arrays by member and layer.

    Raises
    ------
    OutOfRange
        If an amount of an acid is negative.
    """
    layers = [_layer(each, living, seed) for each in filling.layers]
    model, count = living.model, living.members
    return Starts(
        y=np.stack([each.y for each in layers], axis=1),
        solutes=np.stack([each.solutes for each in layers], axis=1),
        laid=_weighed(np.stack([each.laid for each in layers], axis=1), filling.kept, model),
        ph=np.stack([each.ph for each in layers], axis=1),
        vessel=_vessel(filling.kept, np.sum([each.mass_kg for each in layers], axis=0), model),
        groups=living.groups,
        homolactic_frac=share(model.homolactic_frac),
        warmer_c=model.warmer_c.members[:count],
        dry_kg=np.stack([each.dry_kg for each in layers], axis=1),
    )


def _weighed(laid: FloatArray, kept: Kept, model: ModelParameters) -> FloatArray:
    """Return the layers with the air between the pieces that a weight on them leaves."""
    if kept.on_top == "weight":
        laid[..., Laid._fields.index("air_frac")] *= model.weighed_air_times.members[: laid.shape[0], None]
    return laid


@dataclass(frozen=True)
class _Drawn:
    """The members of one layer."""

    y: FloatArray
    solutes: FloatArray
    laid: FloatArray
    ph: FloatArray
    mass_kg: FloatArray
    dry_kg: FloatArray


def _layer(layer: Layer, living: Living, seed: int) -> _Drawn:
    parts = Parts.of(layer, living.members, seed)
    moles = {name: 1000.0 * parts.kg(name) / molar_mass_g_per_mol(symbol) for name, symbol in IONS.items()}
    moles |= {name: parts.kg(name) / acid.kg_per_mol for name, acid in ACIDS.items()}
    moles = {name: each / parts.water_kg for name, each in moles.items()}
    foods = per_kg(_foods(parts, living.model), parts.water_kg)
    cells = {name: each / parts.water_kg for name, each in cells_g(parts, living).items()}
    salts = moles["sodium"] + moles["potassium"]
    solutes = {
        "malic_mol": moles["malic"],
        "citric_mol": moles["citric"],
        "phosphate_mol": moles["phosphorus"] * share(living.model.phosphate_frac),
        "salt_osmol": 2.0 * salts,  # as many anions as cations
        "potassium_mol": moles["potassium"],
    }
    return _Drawn(
        _state(parts, living.model, foods, moles=moles, cells=cells),
        _rows(solutes, SOLUTES),
        _rows(_laid(parts, living.model, foods, salts=salts, added_g=cells["added"]), Laid._fields),
        parts.start_ph,
        parts.mass_kg,
        parts.mass_kg - parts.water_kg,
    )


def _rows(values: Mapping[str, FloatArray], names: Sequence[str]) -> FloatArray:
    return np.stack([values[name] for name in names], axis=1)


def _state(
    parts: Parts,
    model: ModelParameters,
    foods: Mapping[str, FloatArray],
    *,
    moles: Mapping[str, FloatArray],
    cells: Mapping[str, FloatArray],
) -> FloatArray:
    """Return the states of a layer as it begins; what is not named is nothing yet."""
    wild = np.exp(-model.lag_wild.members)
    given = {
        **foods,
        "lactic_mol": moles["lactic"],
        "acetic_mol": moles["acetic"],
        "alkali_eq": parts.bare_kg("alkali") / parts.water_kg / IN_A_FORTNIGHT,
        "cells_g": np.sum([cells[group] for group in GROUPS], axis=0),
        **{f"{group}_ln_g": np.log(cells[group]) for group in GROUPS},
        **{f"{group}_ready": wild for group in ("warm", "cold", "enteric")},
    }
    nothing = np.zeros(parts.members)
    return np.stack([given.get(name, nothing) for name in State._fields], axis=1)


def _foods(parts: Parts, model: ModelParameters) -> dict[str, FloatArray]:
    """Return free sugar, sugar in cells, starch within reach and protein, kg."""
    in_cells = parts.kg("sugars", raw=True) * share(model.cell_sugar_frac)
    raw, cooked = parts.kg("starch", raw=True), parts.kg("starch", raw=False)
    return {
        "sugar_g": parts.kg("sugars") - in_cells,
        "cell_sugar_g": in_cells,
        "starch_g": raw * share(model.starch_raw_frac) + cooked * share(model.starch_cooked_frac),
        "protein_g": parts.kg("protein"),
    }


def _laid(
    parts: Parts, model: ModelParameters, foods: Mapping[str, FloatArray], *, salts: FloatArray, added_g: FloatArray
) -> dict[str, FloatArray]:
    """Return what a layer is while it ferments."""
    layer, count, water = parts.layer, parts.members, parts.water_kg
    return {
        "laid_h": np.full(count, 24.0 * layer.laid_d),
        "water_kg": water,
        "held_kg": parts.held_kg,
        "raw_frac": parts.raw_frac("water"),
        "cell_sugar_g": foods["cell_sugar_g"],
        "tissue_eq": parts.kg("tissue") / water * model.buffer_times.members,
        "salt_times": np.array([salt_times(each) for each in salts]),
        "release_per_d": _release_per_d(parts, model) * (1.0 + model.brine_times.members * added_salt(parts)),
        "starch_per_d": model.starch_per_d.members,
        "proteolysis_per_d": model.proteolysis_per_d.members * parts.raw_frac("protein"),
        "alkali_per_d": model.alkali_per_d.members,
        "respiration_g_per_h": model.respiration_g_per_h.members * parts.raw_frac("water"),
        "breath_per_h": model.breath_per_h.members,
        "volume_l": parts.volume_l,
        "air_frac": np.maximum(1.0 - parts.mass_kg / (parts.volume_l * SOLID_KG_PER_L), LEAST_AIR),
        "soluble_frac": share(model.soluble_frac),
        "caddy_h": np.full(count, layer.caddy_h),
        "caddy_c": np.full(count, layer.caddy_c),
        "added_g": added_g,
        "added_ready": np.exp(-model.lag_bran.members),
    }


def added_salt(parts: Parts) -> FloatArray:
    """Return the salt that was added, in osmoles to a kilogram of water: it draws the sap out of cells."""
    sodium = parts.bare_kg("sodium", added=True) / parts.water_kg
    return np.asarray(2000.0 * sodium / molar_mass_g_per_mol("Na"))


def _release_per_d(parts: Parts, model: ModelParameters) -> FloatArray:
    """Return how fast cells let go, by the size of the pieces, weighed by the sugar that they hold."""
    whole, total = np.zeros(parts.members), np.zeros(parts.members)
    for each in parts.parts:
        if each.is_raw:
            size = max(parts.layer.piece_mm or each.portion.material.piece_mm, LEAST_PIECE_MM)
            rate = model.release_per_d.members * (PIECE_MM / size) ** model.release_power.members
            weight = each.mass_kg * each.values["sugars"] + LEAST_KG
            whole += weight * np.minimum(rate, model.release_most_per_d.members)
            total += weight
    return np.divide(whole, total, out=np.zeros(parts.members), where=total > 0.0)


def _vessel(kept: Kept, mass_kg: FloatArray, model: ModelParameters) -> FloatArray:
    """Return the vessel of each member."""
    count = mass_kg.size
    height_m = kept.volume_l / 1000.0 / kept.floor_m2
    wall_m2 = 2.0 * kept.floor_m2 + 2.0 * np.sqrt(np.pi * kept.floor_m2) * height_m
    lag_h = mass_kg * CP_J_PER_KG_K / (model.wall_w_per_m2_k.members / kept.wraps * wall_m2) / 3600.0
    vessel = {
        "volume_l": np.full(count, kept.volume_l),
        "floor_m2": np.full(count, kept.floor_m2),
        "sump_l": np.full(count, kept.sump_l),
        "lag_h": lag_h,
        "leak_l_per_d": _leak_l_per_d(kept, model),
        "swapped_frac": share(model.swapped_frac),
        "drains_times": model.drains_times.members,
        "runs_in_h": model.runs_in_h.members,
        "freezes_c": model.freezes_c.members,
        "burst_share": share(model.burst_frac),
        "bare_frac": _bare_frac(kept, model),
    }
    return _rows(vessel, Vessel._fields)


def _bare_frac(kept: Kept, model: ModelParameters) -> FloatArray:
    """Return the part of the surface that film or a plate leaves open: at the rim, and where it does not lie close."""
    if kept.on_top == "nothing":
        return np.ones(model.film_bare_frac.members.size)
    return share(model.film_bare_frac if kept.on_top == "film" else model.plate_bare_frac)


def _leak_l_per_d(kept: Kept, model: ModelParameters) -> FloatArray:
    """Return the air that comes in."""
    if kept.leak_l_per_d is not None:
        return np.full(model.leak_l_per_d.members.size, kept.leak_l_per_d)
    return np.asarray(model.leak_l_per_d.members * (1.0 if kept.is_sealed else OPEN_TIMES))
