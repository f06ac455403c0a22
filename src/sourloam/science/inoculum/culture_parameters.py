"""What the bench needs beside the chain itself: water, counts, the jar test, drying, cost."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class CultureParameters:
    """Filled from `parameters/culture.toml`."""

    # water held by a carrier
    gab_c: Figure
    gab_k: Figure
    room_humidity_frac: Figure
    added_water_kg_per_kg: Figure  # to the air of a room in which people live
    # growth
    growth_per_h: Figure  # at the best temperature
    growth_lag_h: Figure  # at the best temperature
    rice_log10_per_ml: Figure  # soured rice water
    most_log10_per_g: Figure  # that a gram of wetted bran comes to
    drying_loss_log10: Figure
    heel_log10_per_g: Figure
    # what nobody can know of a lot
    never_took_frac: Figure
    lost_per_month: Figure
    luck: Figure
    # decline beside that of dry bran and cold serum
    dry_times: Figure  # against a rod in a dry seed
    wet_decline_at_20c_log10_per_month: Figure
    sugared_decline_at_20c_log10_per_month: Figure
    culture_decline_at_20c_log10_per_month: Figure
    culture_log10_per_ml: Figure
    # the jar test
    jar_dose_log10_g_per_ml: Figure
    curd_log10_per_ml: Figure
    jar_c: Figure
    jar_h: Figure
    false_curd_frac: Figure
    missed_curd_frac: Figure
    # drying
    thin_per_h: Figure  # of a layer of 1 cm in the air of the next two
    thin_c: Figure
    thin_humidity_frac: Figure
    depth_power: Figure
    layer_m: Figure
    wet_loose_times: Figure  # how much denser wetted bran lies than dry
    stop_activity: Figure
    mould_activity: Figure
    mould_at_20c_d: Figure
    mould_q10: Figure
    # culture that is being multiplied
    ready_ph: Figure
    start_ph: Figure
    end_ph: Figure
    # starting from a heel, and once more
    heel_frac: Figure
    generations: Figure
    # sheets of paper in the place of bran
    sheet_layer_m: Figure
    sheet_bed_m: Figure
    # without bran, and how scraps lie
    spray_l_per_kg: Figure
    scraps_kg_per_l: Figure
