"""What is known of a bed on the day on which something is dug in, and the warmth that comes after."""

from dataclasses import dataclass, replace

import numpy as np

from sourloam.base.figure import Figure, written
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis
from sourloam.science.places.bed.parameters import BedParameters
from sourloam.science.places.bed.season_parameters import SeasonParameters
from sourloam.science.places.ground.crops import Crop
from sourloam.science.places.ground.salt import GroundParameters
from sourloam.science.places.ground.thermal import days_at_20c


@dataclass(frozen=True)
class Known:
    """The parameters that a bed is judged by."""

    bed: BedParameters
    season: SeasonParameters
    ground: GroundParameters


@dataclass(frozen=True)
class Spot:
    """What is so of the ground, from the day on which the batch is dug in."""

    soil_c: FloatArray  # forecast where the batch lies, a day each
    texture: str = "loam"
    crop: Crop | None = None  # what comes next
    area_m2: float | None = None  # none: as much as the batch wants
    given_g_per_m2: float = 0.0  # nitrogen of this year so far
    moisture: str = "moist"
    has_free_lime: bool = False  # it fizzes
    depth_m: float | None = None  # of the trench, where it was said
    cover_m: float | None = None
    animals_dig: bool = False
    is_deep: bool = False  # what failed goes deep
    reading_k: float | None = None  # by which the soil was warmer than forecast, where it was measured
    reading_d: int = 0  # on which day after digging in


def passed_d(spot: Spot, known: Known) -> FloatArray:
    """Return the days at 20 °C that have passed by each day: (members, days + 1)."""
    return warmth_d(
        spot,
        known.bed.rest_q10.members,
        known.bed.rest_stops_c.members,
        known.season.weather_k.members,
        known.season.reading_fades_d.members,
        moist(spot, known).members,
    )


def moist(spot: Spot, known: Known) -> Figure:
    """Return how fast it rots by how wet the soil is."""
    if spot.moisture == "dry":
        return known.season.moist_dry_frac
    if spot.moisture in ("wet", "waterlogged"):
        return known.season.moist_wet_frac
    return exactly("moist_frac", 1.0, "1", words="moist soil", known=known, source="judgement")


def warmth_d(spot: Spot, q10: FloatArray, stops_c: FloatArray, *rest: FloatArray) -> FloatArray:
    """Return the days at 20 °C that pass in soil that the weather and a reading move off its usual year."""
    weather_k, fades_d, moist_frac = (np.reshape(each, (-1, 1)) for each in rest)
    soil = soil_c_of(spot, weather_k, fades_d)
    return days_at_20c(soil, q10, stops_c, moist_frac)


def soil_c_of(spot: Spot, weather_k: FloatArray, fades_d: FloatArray) -> FloatArray:
    """Return the soil of every member, day by day: its usual year, moved by the weather and by a reading that fades."""
    if spot.reading_k is None:
        return spot.soil_c + weather_k
    fading = np.exp(-np.abs(np.arange(spot.soil_c.size) - spot.reading_d) / fades_d)
    return np.asarray(spot.soil_c + weather_k * np.sqrt(1.0 - fading) + spot.reading_k * fading)


def exactly(name: str, value: float, unit: str, *, words: str, known: Known, source: str = "keeper") -> Figure:
    """Return what a person said of the ground; with `source` judgement what is taken as so where nobody said."""
    figure = written(name, value, unit, words=words, members=known.bed.rest_q10.members.size)
    return figure if source == "keeper" else replace(figure, source=source, basis=Basis.JUDGEMENT)
