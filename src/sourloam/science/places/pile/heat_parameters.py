"""Everything that the warmth of a pile rests on, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class PileHeatParameters:
    """Filled from `parameters/pile_heat.toml`."""

    fast_per_d: Figure
    slow_per_d: Figure
    acid_per_d: Figure
    capped_c: Figure
    stops_c: Figure
    sour_factor: Figure
    sour_ph: Figure
    sour_c: Figure
    sweet_ph: Figure
    heat_mj_per_kg: Figure
    oxygen_kg_per_kg: Figure
    water_kg_per_kg: Figure
    conducts_w_per_m_k: Figure
    outside_w_per_m2_k: Figure
    wall_m2_k_per_w: Figure
    draws_kg_per_h_m3_k: Figure
    breathes_kg_per_h_m2: Figure
    turning_frac: Figure
    settles_frac: Figure
    settles_d: Figure
    humid_frac: Figure
    peak_error_k: Figure
    watered_frac: Figure
    ferment_fast_frac: Figure
    ferment_slow_frac: Figure
    ferment_ash_frac: Figure
    ferment_ph: Figure
