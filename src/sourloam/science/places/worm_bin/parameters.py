"""Everything that a worm bin is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure
from sourloam.science.places.worm_bin.ration import Warmth


@dataclass(frozen=True)
class WormBinParameters:
    """Filled from `parameters/worm_bin.toml`."""

    eats_kg_per_kg_d: Figure  # of worms that are used to it, at the best temperature
    least_c: Figure  # of the room, for feeding at all
    most_c: Figure
    stops_low_c: Figure  # of the curve of appetite
    best_c: Figure
    stops_high_c: Figure
    feed_every_d: Figure
    first_share_frac: Figure  # of the ration, in the first week
    step_d: Figure  # after which it is doubled
    layer_m: Figure  # the thickest that is laid on at once
    lime_share_frac: Figure  # of the acid that is neutralised
    shell_carbonate_frac: Figure
    shell_acts_frac: Figure  # of powdered shell, within weeks

    @property
    def warmth(self) -> Warmth:
        """Return the curve of appetite."""
        return Warmth(self.stops_low_c.value, self.best_c.value, self.stops_high_c.value)
