"""Everything that the liquid is judged by, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class LeachateParameters:
    """Filled from `parameters/leachate.toml`."""

    leachate_ds_per_m: Figure
    first_frac: Figure
    ripens_d: Figure
    nitrogen_g_per_l: Figure
    phosphorus_g_per_l: Figure
    potassium_g_per_l: Figure
    sodium_g_per_l: Figure
    acid_mol_per_l: Figure
    water_ds_per_m: Figure
    weakest_parts: Figure
    keeps_d: Figure
    pour_l_per_m2: Figure
    seedling_ds_per_m: Figure
    pot_ds_per_m: Figure
    leaf_ds_per_m: Figure
    fruit_ds_per_m: Figure
    seedling_parts: Figure
    pot_parts: Figure
