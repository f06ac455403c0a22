"""Everything that the course of a bed is handed beside `BedParameters`, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class SeasonParameters:
    """Filled from `parameters/bed_season.toml`."""

    rest_sown_at_20c_d: Figure
    rest_root_at_20c_d: Figure
    weather_k: Figure
    reading_fades_d: Figure
    moist_dry_frac: Figure
    moist_wet_frac: Figure
    fast_per_d: Figure
    slow_per_d: Figure
    visible_per_d: Figure
    turnover_per_d: Figure
    fresh_fast_frac: Figure
    decomposes_frac: Figure
    efficiency: Figure
    microbial_c_to_n: Figure
    between_frac: Figure
    season_d: Figure
    phosphorus_most_g_per_m2: Figure
    soil_ds_per_m: Figure
    strong_salt_mg_per_l: Figure
    shift_most_ph: Figure
    cover_m: Figure
    cover_animals_m: Figure
    cover_deep_m: Figure
    trench_width_m: Figure
    layer_m: Figure
    hole_l: Figure
    stem_m: Figure
    well_m: Figure
    stream_m: Figure
    slope_most_frac: Figure
    harvest_high_d: Figure
    soil_contact_d: Figure
    seedlings_pass_frac: Figure
