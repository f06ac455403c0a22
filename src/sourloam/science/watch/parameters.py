"""What a person reads of a vessel, how loosely, and how often a vessel has a fault, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class WatchParameters:
    """Filled from `parameters/watch.toml`, which says what each is."""

    box_ph: Figure
    strip_ph: Figure
    meter_ph: Figure
    model_ph: Figure
    fizz_ph: Figure
    fizz_sd: Figure
    fizz_slip_frac: Figure
    warmth_k: Figure
    liquid_times: Figure
    liquid_l: Figure
    weight_times: Figure
    caddy_d: Figure
    caddy_times: Figure
    no_bran_times: Figure
    old_bran_times: Figure
    leak_frac: Figure
    drowned_frac: Figure
    dead_frac: Figure
    spoiled_frac: Figure
    cold_frac: Figure
    leak_times: Figure
    drowned_times: Figure
    dead_log10: Figure
    eaten_frac: Figure
    rotting_log10: Figure
    rotting_mol: Figure
    colder_k: Figure
