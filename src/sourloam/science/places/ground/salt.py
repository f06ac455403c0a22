"""The common salt that a load brings into soil, against what tender crops bear.

Salt is what the sodium stands for. Conductivity comes of all ions; here only
what the salt adds to it is reckoned, and nothing is washed out.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.source import Basis


@dataclass(frozen=True)
class GroundParameters:
    """Filled from `parameters/ground.toml`."""

    saturated_frac: Figure  # water, by volume
    salt_mg_per_l: Figure
    tender_ds_per_m: Figure
    hardy_ds_per_m: Figure


@dataclass(frozen=True)
class Digging:
    """How a load becomes part of a bed or of a tub, as the parameters of those places have it."""

    fits_kg_per_m2: Figure
    mixed_m: Figure
    soil_per_product: Figure  # by volume


@law("salt of a kilogram × what is dug into a square metre", unit="g/m2")
def salt_g_per_m2(salt_g_per_kg: ArrayLike, dug_kg_per_m2: ArrayLike) -> float | FloatArray:
    """Return the salt that a load brings to a square metre."""
    return keep_shape(np.asarray(salt_g_per_kg, dtype=float) * np.asarray(dug_kg_per_m2, dtype=float))


@law(
    "salt ÷ (depth of the soil × water in saturated soil × salt in a litre at 1 dS/m)",
    unit="dS/m",
    source="memory",
    basis=Basis.MEMORY,
)
def salt_bed_ds_per_m(
    salt_g_per_m2: ArrayLike, mixed_m: ArrayLike, saturated_frac: ArrayLike, salt_mg_per_l: ArrayLike
) -> float | FloatArray:
    """Return what the salt adds to the conductivity of a bed, in the water of the depth that shares it."""
    litres = 1000.0 * np.asarray(mixed_m, dtype=float) * np.asarray(saturated_frac, dtype=float)
    mg_per_l = 1000.0 * np.asarray(salt_g_per_m2, dtype=float) / litres
    return keep_shape(mg_per_l / np.asarray(salt_mg_per_l, dtype=float))


@law(
    "salt of a litre of it ÷ (1 + parts of soil) ÷ (water in saturated soil × salt in a litre at 1 dS/m)",
    unit="dS/m",
    source="memory",
    basis=Basis.MEMORY,
)
def salt_pot_ds_per_m(
    salt_g_per_kg: ArrayLike,
    kg_per_l: ArrayLike,
    *,
    soil_per_product: ArrayLike,
    saturated_frac: ArrayLike,
    salt_mg_per_l: ArrayLike,
) -> float | FloatArray:
    """Return what the salt adds to the conductivity of a pot or a tub that nothing is washed out of."""
    of_litre = np.asarray(salt_g_per_kg, dtype=float) * np.asarray(kg_per_l, dtype=float)
    mixed = of_litre / (1.0 + np.asarray(soil_per_product, dtype=float))
    mg_per_l = 1000.0 * mixed / np.asarray(saturated_frac, dtype=float)
    return keep_shape(mg_per_l / np.asarray(salt_mg_per_l, dtype=float))


def salt_figures(
    held: Mapping[str, Figure], kg_per_l: Figure, ground: GroundParameters, digging: Digging
) -> dict[str, Figure]:
    """Return the salt of a load on a square metre, and what it adds to the conductivity of a bed and of a pot."""
    water = {
        "saturated_frac": ground.saturated_frac,
        "salt_mg_per_l": ground.salt_mg_per_l,
    }
    salt = derive(
        "salt_g_per_m2",
        salt_g_per_m2,
        words="salt on a square metre, dug in",
        salt_g_per_kg=held["salt_g_per_kg"],
        dug_kg_per_m2=digging.fits_kg_per_m2,
    )
    bed = derive(
        "salt_bed_ds_per_m",
        salt_bed_ds_per_m,
        words="conductivity that it adds to a bed",
        salt_g_per_m2=salt,
        mixed_m=digging.mixed_m,
        **water,
    )
    pot = derive(
        "salt_pot_ds_per_m",
        salt_pot_ds_per_m,
        words="conductivity that it adds to a pot or a tub",
        salt_g_per_kg=held["salt_g_per_kg"],
        kg_per_l=kg_per_l,
        soil_per_product=digging.soil_per_product,
        **water,
    )
    return {each.name: each for each in (salt, bed, pot)}
