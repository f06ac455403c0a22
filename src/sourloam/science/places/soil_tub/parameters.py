"""Everything that a soil tub is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure
from sourloam.science.places.ground.rest import Rest


@dataclass(frozen=True)
class SoilTubParameters:
    """Filled from `parameters/soil_tub.toml`."""

    soil_per_product: Figure  # by volume
    rest_at_20c_d: Figure
    rest_q10: Figure
    rest_stops_c: Figure

    @property
    def rest(self) -> Rest:
        """Return what the rest goes by."""
        return Rest(self.rest_at_20c_d.value, self.rest_q10.value, self.rest_stops_c.value)
