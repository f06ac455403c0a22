"""Everything that a pile is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class PileParameters:
    """Filled from `parameters/pile.toml`."""

    sour_share_frac: Figure  # the most of a pile that may be fresh and sour, by mass
    sour_d: Figure  # how long a batch counts as that
    carbon_to_nitrogen: Figure  # the least that is aimed at
    moisture_most_frac: Figure
    moisture_least_frac: Figure
    browns_nitrogen_db_frac: Figure
    browns_carbon_to_nitrogen: Figure
    browns_moisture_wb_frac: Figure
    browns_kg_per_l: Figure
    pile_kg_per_l: Figure
    blend_frac: Figure  # volume of a blend, of the volumes that went in
    half_volume_d: Figure  # in which a pile shrinks by half
    mature_d: Figure  # from which it is taken out
    heats_l: Figure  # from which volume it heats
