"""What is known of any vessel, whoever owns it."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class VesselParameters:
    """Filled from `parameters/vessel.toml`."""

    height_to_width: Figure  # of a pail
    layer_m: Figure  # depth of one pressed layer
    settles_frac: Figure  # of the pressed volume, in the end
    settling_d: Figure  # time in which two thirds of that happen
    softness: Figure  # liquid set free against forage of the same dry matter
    draining_d: Figure  # time in which two thirds of the liquid come
    bran_holds_kg_per_kg: Figure  # water that dry bran keeps before it drains
    draw_off_d: Figure  # the longest time that liquid is left below the grid
    leachate_nitrogen_frac: Figure  # share of the nitrogen that leaves with the liquid
    density_times: Figure  # pressed density of a mix against the table
    caddy_keeps_d: Figure  # how long scraps may wait where it is not cold
    filling_d: Figure  # in which a vessel is usually filled
    bed_m: Figure  # depth of the dry bed in a vessel without a drain
