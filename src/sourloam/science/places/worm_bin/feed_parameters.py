"""Everything that feeding worms a sour batch rests on, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class WormFeedParameters:
    """Filled from `parameters/worm_feed.toml`."""

    bed_m: Figure
    bed_kg_per_l: Figure
    corner_frac: Figure
    corner_m: Figure
    bed_ph: Figure
    bed_buffer_mol_per_kg: Figure
    bed_salt_g_per_kg: Figure
    salt_well_g_per_kg: Figure
    ammonia_well_mg_per_g: Figure
    corner_ph_least: Figure
    rise_k_most: Figure
    burnt_frac_per_d: Figure
    sheds_w_per_m2_k: Figure
    acid_gone_per_d: Figure
    doubles_d: Figure
    most_kg_per_m2: Figure
    upkeep_kg_per_kg_d: Figure
    bran_ml_per_l: Figure
    limes_g_per_m2: Figure
    dies_c: Figure
