"""`Climate`: how warm it is at a site, outdoors and in the soil, on any date."""

from calendar import isleap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from math import atan2, cos, exp, hypot, pi, sin
from statistics import fmean
from typing import Final, NamedTuple, Self

from sourloam.base.checks import within
from sourloam.base.days import YEAR_D
from sourloam.base.ranges import Range
from sourloam.science.climate import ground, series
from sourloam.science.climate.parameters import ClimateParameters

INDOORS: Final = Range(-5.0, 45.0, "°C")
LATITUDE: Final = Range(-90.0, 90.0, "deg")
FREEZES_C: Final = 0.0  # °C; where water freezes, by which the scale is made
WAVES: Final = 2  # the year and the half year: later ones die out in the first hand's breadth of soil


class Wave(NamedTuple):
    """One wave of the year at the surface of the soil."""

    turns: int  # in a year
    swing_k: float
    warmest: float  # when, as a part of the year
    damping_m: float

    def above_mean_k(self, part: float, depth_m: float) -> float:
        """Return how far this wave lifts the soil above its mean at a part of the year."""
        steps = depth_m / self.damping_m
        return self.swing_k * exp(-steps) * cos(2 * pi * self.turns * (part - self.warmest) - steps)


@dataclass(frozen=True)
class Climate:
    """A typical year at one site. It repeats: every year is the same, leap day apart."""

    year: series.Year
    indoors_c: float
    latitude_deg: float  # south is negative
    parameters: ClimateParameters

    def __post_init__(self) -> None:
        within(self.indoors_c, INDOORS, name="indoors_c", why="nobody keeps a kitchen so cold or so warm.")
        within(self.latitude_deg, LATITUDE, name="latitude_deg", why="the poles lie at 90.")

    @classmethod
    def from_monthly(
        cls, monthly_mean_c: Sequence[float], *, indoors_c: float, latitude_deg: float, parameters: ClimateParameters
    ) -> Self:
        """Make a climate from twelve mean outdoor temperatures, January first; errors as `series.smooth_year`."""
        return cls(series.smooth_year(monthly_mean_c), indoors_c, latitude_deg, parameters)

    @classmethod
    def from_daily(
        cls, days: Iterable[series.DayRange], *, indoors_c: float, latitude_deg: float, parameters: ClimateParameters
    ) -> Self:
        """Make a climate from measured or typical days; errors as `series.typical_year`."""
        return cls(series.typical_year(days), indoors_c, latitude_deg, parameters)

    def __hash__(self) -> int:
        """Return a hash from a part of the year: results are kept by climate, and a year is long."""
        return hash((self.indoors_c, self.latitude_deg, self.year.ordinary_c[::30]))

    def air_c(self, on: date) -> float:
        """Return the mean outdoor temperature of a day."""
        return self._of(on)[_place(on)]

    def soil_c(self, on: date, depth_m: float) -> float:
        """Return the mean temperature of a day in bare soil.

        The soil follows the waves of the year, not the weather of single days,
        so that two climates with the same seasons have the same soil.

        Raises
        ------
        OutOfRange
            If the depth is negative or below 20 m.
        """
        if not ground.DEPTH.low <= depth_m <= ground.DEPTH.high:
            within(depth_m, ground.DEPTH, name="depth_m", why="it is counted downwards, and nothing is buried deeper.")
        years = self._soil.get(depth_m) or self._soil.setdefault(depth_m, self._soil_years(depth_m))
        return years[len(self._of(on)) - YEAR_D][_place(on)]

    def is_frozen(self, on: date) -> bool:
        """Whether the soil at working depth (0.1 m) is below 0 °C, so that nothing can be dug in."""
        return self._frozen[len(self._of(on)) - YEAR_D][_place(on)]

    @cached_property
    def soil_mean_c(self) -> float:
        """Return the mean of the year in the soil, at any depth."""
        return fmean(self.year.ordinary_c) + self.parameters.soil_above_air_k.value

    @cached_property
    def waves(self) -> tuple[Wave, ...]:
        """Return the waves of the year at the surface of the soil."""
        return tuple(self._wave(turns) for turns in range(1, WAVES + 1))

    def _wave(self, turns: int) -> Wave:
        """Return one wave of the daily means, carried over from air to soil."""
        air = self.year.ordinary_c
        turn = 2 * pi * turns / len(air)
        along = sum(each * cos(turn * (day + 0.5)) for day, each in enumerate(air)) * 2 / len(air)
        across = sum(each * sin(turn * (day + 0.5)) for day, each in enumerate(air)) * 2 / len(air)
        lag = self.parameters.surface_lag_d.value / ground.MEAN_YEAR_D
        damping = float(ground.damping_depth_m(self.parameters.diffusivity_m2_per_s.value, ground.MEAN_YEAR_D / turns))
        swing = hypot(along, across) * self.parameters.soil_amplitude_ratio.value
        return Wave(turns, swing, atan2(across, along) / (2 * pi * turns) + lag, damping)

    @cached_property
    def _soil(self) -> dict[float, tuple[tuple[float, ...], ...]]:
        """Return the depths that were asked for so far: a plan asks for a few, each some thousand times."""
        return {}

    def _soil_years(self, depth_m: float) -> tuple[tuple[float, ...], ...]:
        """Return the soil at a depth for both lengths of a year, day by day."""
        return tuple(
            tuple(
                self.soil_mean_c + sum(wave.above_mean_k((each + 0.5) / len(days), depth_m) for wave in self.waves)
                for each in range(len(days))
            )
            for days in self.year
        )

    @cached_property
    def _frozen(self) -> tuple[tuple[bool, ...], ...]:
        """Return for both lengths of a year on which days the ground is frozen."""
        depth = self.parameters.working_depth_m.value
        return tuple(tuple(each < FREEZES_C for each in days) for days in self._soil_years(depth))

    def _of(self, on: date) -> tuple[float, ...]:
        return self.year.leap_c if isleap(on.year) else self.year.ordinary_c


def _place(on: date) -> int:
    """Return how many days of its year lie before a day."""
    return on.toordinal() - date(on.year, 1, 1).toordinal()
