"""Everything that the inoculum chain is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class InoculumParameters:
    """Filled from `parameters/inoculum.toml`."""

    # wetting and drying the carrier
    carrier_moisture_wb_frac: Figure  # of bran as it is bought
    wetted_moisture_wb_frac: Figure  # of bran when it is packed to ferment
    dried_moisture_wb_frac: Figure  # of bran that will keep
    bran_loss_db_frac: Figure  # of the dry matter, as gas and by handling
    # the liquid
    serum_l_per_l: Figure  # to a litre of water
    sugar_kg_per_l: Figure  # to a litre of water
    serum_dry_wb_frac: Figure
    serum_kg_per_l: Figure
    sugar_l_per_kg: Figure  # what dissolved sugar adds to the volume
    # milk and rice water
    serum_yield_l_per_l: Figure  # of the milk's volume
    rice_wash_l_per_l: Figure  # to a litre of milk
    rice_kg_per_l: Figure  # to a litre of wash water
    # days
    rice_wash_at_20c_d: Figure
    milk_at_20c_d: Figure
    straining_d: Figure
    bran_at_20c_d: Figure
    drying_d: Figure
    least_c: Figure
    best_c: Figure
    most_c: Figure
    # keeping
    serum_log10_per_ml: Figure  # live count when strained
    bran_log10_per_g: Figure  # live count when dry
    least_log10_per_g: Figure  # live count under which a gram of what is to sour goes its own way
    bran_decline_at_20c_log10_per_month: Figure
    serum_decline_at_4c_log10_per_month: Figure
    decline_q10: Figure  # how much faster for 10 degrees more
    # dose
    plain_dose_g_per_kg: Figure  # scraps of plants
    animal_dose_g_per_kg: Figure  # meat, fish, egg, dairy
    least_dose_g_per_kg: Figure
