"""Everything that the judgement of a load is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class LoadParameters:
    """Filled from `parameters/load.toml`."""

    # souring
    lactic_yield: Figure  # g of lactic acid from a g of sugar
    starch_release_per_d: Figure
    sours_in_d: Figure
    critical_ph_scatter: Figure
    butyric_middle: Figure  # of the fermentability coefficient
    butyric_width: Figure
    # bran
    cover_kg_per_m2: Figure
    floor_g_per_kg: Figure
    animal_times: Figure
    smell_times: Figure
    wild_fails_times: Figure
    # the liquid
    seen_l: Figure
    soured_ph: Figure
    dilution: Figure
    # limits
    animal_most_frac: Figure
    fat_most_frac: Figure
    salt_stops_frac: Figure  # of the water
    dry_most_frac: Figure
    stands_l_per_kg: Figure  # in a vessel without a drain
    airy_most_frac: Figure
    solid_kg_per_l: Figure
    sweet_most_frac: Figure  # of the dry matter
    yeasty_ph: Figure
    # how a kitchen measures
    caddy_loss_frac_per_d: Figure
    handful_l: Figure
