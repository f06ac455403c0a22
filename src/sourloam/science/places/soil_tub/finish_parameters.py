"""Everything that finishing a batch in a tub is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class FinishParameters:
    """Filled from `parameters/tub_finish.toml`."""

    blend_frac: Figure
    cover_m: Figure
    depth_m: Figure
    room_off_k: Figure
    chop_d: Figure
    left_frac: Figure
    tub_ds_per_m: Figure
    salt_mg_per_l: Figure
    keeps_frac: Figure
    slow_d: Figure
