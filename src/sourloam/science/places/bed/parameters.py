"""Everything that a bed is handed, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure
from sourloam.science.places.ground.rest import Rest


@dataclass(frozen=True)
class BedParameters:
    """Filled from `parameters/bed.toml`."""

    rest_at_20c_d: Figure
    rest_q10: Figure
    rest_stops_c: Figure
    rest_depth_m: Figure
    rest_least_d: Figure  # however warm it is
    harvest_wait_d: Figure  # after animal matter, where what is eaten touches the soil
    nitrogen_cap_g_per_m2: Figure  # kept to
    nitrogen_most_g_per_m2: Figure  # warned of
    fits_kg_per_m2: Figure  # into a trench, with its cover
    crop_stands_d: Figure  # where the keeper does not say
    mixed_m: Figure  # depth of the soil that shares the acid
    soil_kg_per_m3: Figure
    lime_sand_mg_per_kg: Figure
    lime_sandy_loam_mg_per_kg: Figure
    lime_loam_mg_per_kg: Figure
    lime_clay_mg_per_kg: Figure
    lime_peat_mg_per_kg: Figure

    @property
    def rest(self) -> Rest:
        """Return what the rest goes by."""
        return Rest(self.rest_at_20c_d.value, self.rest_q10.value, self.rest_stops_c.value)

    def lime_mg_per_kg(self, texture: str) -> Figure:
        """Return the lime that shifts a soil by one pH."""
        return {
            "sand": self.lime_sand_mg_per_kg,
            "sandy-loam": self.lime_sandy_loam_mg_per_kg,
            "loam": self.lime_loam_mg_per_kg,
            "clay": self.lime_clay_mg_per_kg,
            "peat": self.lime_peat_mg_per_kg,
        }[texture]
