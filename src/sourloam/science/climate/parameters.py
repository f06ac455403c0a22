"""Everything that the climate is handed beside the weather, by name and with its spread."""

from dataclasses import dataclass

from sourloam.base.figure import Figure


@dataclass(frozen=True)
class ClimateParameters:
    """Filled from `parameters/climate.toml`."""

    diffusivity_m2_per_s: Figure  # how fast warmth moves through soil
    soil_above_air_k: Figure  # mean of the year, soil less air
    soil_amplitude_ratio: Figure  # swing of the year, surface of the soil against air
    surface_lag_d: Figure  # by which the surface of the soil follows the air
    working_depth_m: Figure  # at which ground is called frozen or not
    cellar_depth_m: Figure  # of the soil whose warmth a cellar takes on
    cellar_indoors_share: Figure  # of a cellar's warmth that comes from the rooms above
    shed_smoothing_d: Figure  # days of outdoor air that a shed remembers
    shed_above_air_k: Figure  # by which a closed shed is warmer than the air
