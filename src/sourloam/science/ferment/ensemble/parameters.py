"""Everything that the model of a vessel is handed beside its living groups, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class ModelParameters:
    """Filled from `parameters/vessel_model.toml`, which says what each is."""

    lactic_rate_times: Figure
    buffer_times: Figure
    ceiling_times: Figure
    cell_sugar_frac: Figure
    release_per_d: Figure
    release_power: Figure
    release_most_per_d: Figure
    starch_cooked_frac: Figure
    starch_raw_frac: Figure
    starch_per_d: Figure
    proteolysis_per_d: Figure
    respiration_g_per_h: Figure
    homolactic_frac: Figure
    cold_frac: Figure
    wild_log10: Figure
    bran_log10: Figure
    lag_bran: Figure
    lag_wild: Figure
    putrid_frac: Figure
    vegetative_log10: Figure
    film_frac: Figure
    mould_log10: Figure
    phosphate_frac: Figure
    alkali_per_d: Figure
    soluble_frac: Figure
    drains_times: Figure
    runs_in_h: Figure
    warmer_c: Figure
    wall_w_per_m2_k: Figure
    leak_l_per_d: Figure
    swapped_frac: Figure
    freezes_c: Figure
    burst_frac: Figure
    reading_ph: Figure
    acid_m2_per_d: Figure
    breath_per_h: Figure
    brine_times: Figure
    film_bare_frac: Figure
    plate_bare_frac: Figure
    weighed_air_times: Figure
    weighs_batches: Figure
