"""What the logbook holds a new entry to, by name: limits of the likely, beyond which an entry is kept with a mark."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class LogbookParameters:
    """Filled from `parameters/logbook.toml`."""

    least_sealed_d: Figure
    most_filled_frac: Figure
    most_bran_kg_per_kg: Figure
    least_ph: Figure
    most_ph: Figure
    most_c: Figure
    some_kg: Figure
    layer_kg: Figure
    week_times: Figure
    leachate_l_per_kg: Figure
    usual_weighs: Figure
