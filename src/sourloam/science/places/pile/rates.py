"""The rates of a pile by warmth, water, air and acid, and what moist air carries."""

from dataclasses import dataclass, fields
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.science.places.pile.heat_parameters import PileHeatParameters

HOUR_D: Final = 1.0 / 24.0  # d
TEMPERATURE: Final = Range(-60.0, 100.0, "°C")
SHARE: Final = Range(0.0, 1.0)
PRESSURE_KPA: Final = 101.325  # kPa; at the level of the sea, by definition
OXYGEN_PCT, OXYGEN_FRAC = 20.9, 0.232  # of air by volume and by mass; memory
HALF_PCT: Final = 2.0  # oxygen at which decay is half as fast; haug1993
SHARP_PH, SHARP_K = 0.12, 1.0  # how sharply the sour limit sets in; judgement: nothing is known of it


@law("1.066^(T − 20) − 1.21^(T − 60)", unit="1", source="haug1993", basis=Basis.MEMORY)
def haug_bracket(temperature_c: ArrayLike) -> float | FloatArray:
    r"""Rate of decay against that at 20 °C.

    .. math:: g = 1.066^{T-20} - 1.21^{T-60}

    Parameters
    ----------
    temperature_c : float or array
        Of what rots. [°C]

    Returns
    -------
    times : float or array
        1 at 20 °C; greatest at 71.6 °C, 0 at 80.2 °C. [-]

    Raises
    ------
    OutOfRange
        If it is colder than -60 or hotter than 100 °C.

    Notes
    -----
    Household waste was seen to rot fastest at about 55 °C, so a pile takes the
    bracket no further than that; see `warmed`.

    References
    ----------
    haug1993: the form and its constants.

    Examples
    --------
    >>> round(haug_bracket(35.0), 4)
    2.5998
    """
    warm = within(temperature_c, TEMPERATURE, name="temperature_c", why="nothing rots there.")
    return keep_shape(np.asarray(1.066 ** (warm - 20.0) - 1.21 ** (warm - 60.0)))


@law("1 ÷ (exp(7.0622 − 17.684 × moisture) + 1)", unit="1", source="haug1993", basis=Basis.MEMORY)
def by_moisture(moisture_wb_frac: ArrayLike) -> float | FloatArray:
    """Return the part of the rate that its water leaves; near 1 from 60 %. Raises OutOfRange where it is no share."""
    wet = within(moisture_wb_frac, SHARE, name="moisture_wb_frac", why="it is a share of the mass.")
    return keep_shape(np.asarray(1.0 / (np.exp(7.0622 - 17.684 * wet) + 1.0)))


@law("1 ÷ (exp(3.4945 − 23.675 × free air space) + 1)", unit="1", source="haug1993", basis=Basis.MEMORY)
def by_air(pores_frac: ArrayLike) -> float | FloatArray:
    """Return the part of the rate that its pores leave; near 1 from 30 %. Raises OutOfRange where it is no share."""
    free = within(pores_frac, SHARE, name="pores_frac", why="it is a share of the volume.")
    return keep_shape(np.asarray(1.0 / (np.exp(3.4945 - 23.675 * free) + 1.0)))


@law("1 − density × ((1 − moisture) ÷ solids + moisture)", unit="1", source="agnew_leonard2003", basis=Basis.MEMORY)
def free_air_frac(
    density_kg_per_l: ArrayLike, moisture_wb_frac: ArrayLike, burns_db_frac: ArrayLike
) -> float | FloatArray:
    """Return the free air space of a mix, from the volumes of its phases; below 0 it is drowned."""
    density, wet = np.asarray(density_kg_per_l, dtype=float), np.asarray(moisture_wb_frac, dtype=float)
    burns = np.asarray(burns_db_frac, dtype=float)
    return keep_shape(np.asarray(1.0 - density * ((1.0 - wet) * (burns / 1.55 + (1.0 - burns) / 2.65) + wet)))


@law(
    "conducted through a quarter of the side, and given off: heat ÷ (U × area)", unit="K", source="sourloam_derivation"
)
def steady_rise_k(heat_w: ArrayLike, side_m: ArrayLike, conducts_w_per_m_k: ArrayLike) -> float | FloatArray:
    """Return how much warmer than the air a cube without draught gets, by five faces that give off 10 W/(m2 K)."""
    side = np.asarray(side_m, dtype=float)
    resists = side / 4.0 / np.asarray(conducts_w_per_m_k, dtype=float) + 0.1
    return keep_shape(np.asarray(np.asarray(heat_w, dtype=float) * resists / (5.0 * side**2)))


def humidity(temperature_c: FloatArray) -> FloatArray:
    """Return the water that saturated air holds, kg to a kilogram of dry air; air at 90 °C and more counts as at 90."""
    warm = np.minimum(temperature_c, 90.0)
    pressure = 0.6108 * np.exp(17.27 * warm / (warm + 237.3))
    return np.asarray(0.622 * pressure / (PRESSURE_KPA - pressure))


def enthalpy(temperature_c: FloatArray, humid: FloatArray) -> FloatArray:
    """Return the heat that moist air carries, for a kilogram of dry air, against dry air at 0 °C."""
    return np.asarray(1.006 * temperature_c + humid * (2501.0 + 1.86 * temperature_c))


class Air(NamedTuple):
    """The air outdoors."""

    enthalpy: FloatArray
    humidity: FloatArray


def air_of(air_c: float, humid_frac: FloatArray) -> Air:
    """Return the air outdoors at a temperature."""
    pressure = humid_frac * 0.6108 * np.exp(17.27 * air_c / (air_c + 237.3))
    held = 0.622 * pressure / (PRESSURE_KPA - pressure)
    return Air(enthalpy(np.asarray(air_c), held), held)


def oxygen_pct(wanted_kg_per_h: FloatArray, air_kg_per_h: FloatArray) -> FloatArray:
    """Return the oxygen of the pores, where what is used up at that much is what comes in.

    With use r x / (x + 2) and supply s (20.9 - x) this is a square in x.
    """
    supply = np.maximum(air_kg_per_h, 1e-9) * OXYGEN_FRAC / OXYGEN_PCT
    times = wanted_kg_per_h / supply
    half = times + HALF_PCT - OXYGEN_PCT
    return np.asarray(0.5 * (np.sqrt(half**2 + 4.0 * HALF_PCT * OXYGEN_PCT) - half))


@dataclass(frozen=True)
class Rates:
    """What a pile goes by, over members."""

    per_d: FloatArray  # acid, fast, slow by members
    capped_c: FloatArray
    stops_c: FloatArray
    sour_factor: FloatArray
    sour_ph: FloatArray
    sour_c: FloatArray
    sweet_ph: FloatArray
    heat_of_burning: FloatArray
    oxygen_kg_per_kg: FloatArray
    water_kg_per_kg: FloatArray
    conducts: FloatArray
    outside: FloatArray
    wall_m2_k_per_w: FloatArray
    draws: FloatArray
    breathes: FloatArray
    turning_frac: FloatArray
    settles_frac: FloatArray
    settles_d: FloatArray
    humid_frac: FloatArray
    watered_frac: FloatArray

    @classmethod
    def of(cls, p: PileHeatParameters, members: int) -> "Rates":
        """Return the members of the parameters."""

        def drawn(name: str) -> FloatArray:
            return np.asarray(getattr(p, name).members[:members])

        return cls(
            per_d=np.stack([drawn(each) for each in ("acid_per_d", "fast_per_d", "slow_per_d")]),
            capped_c=drawn("capped_c"),
            stops_c=drawn("stops_c"),
            sour_factor=drawn("sour_factor"),
            sour_ph=drawn("sour_ph"),
            sour_c=drawn("sour_c"),
            sweet_ph=drawn("sweet_ph"),
            heat_of_burning=1000.0 * drawn("heat_mj_per_kg"),
            oxygen_kg_per_kg=drawn("oxygen_kg_per_kg"),
            water_kg_per_kg=drawn("water_kg_per_kg"),
            conducts=drawn("conducts_w_per_m_k"),
            outside=drawn("outside_w_per_m2_k"),
            wall_m2_k_per_w=drawn("wall_m2_k_per_w"),
            draws=drawn("draws_kg_per_h_m3_k"),
            breathes=drawn("breathes_kg_per_h_m2"),
            turning_frac=drawn("turning_frac"),
            settles_frac=drawn("settles_frac"),
            settles_d=drawn("settles_d"),
            humid_frac=drawn("humid_frac"),
            watered_frac=drawn("watered_frac"),
        )

    def middle(self) -> "Rates":
        """Return the one in the middle."""
        return Rates(*(np.median(getattr(self, each.name), axis=-1, keepdims=True) for each in fields(self)))

    def sour(self, warm_c: FloatArray, ph: FloatArray) -> FloatArray:
        """Return the part of the rate that is left where it is sour and warm at once."""
        is_warm = 1.0 / (1.0 + np.exp(np.clip((self.sour_c - warm_c) / SHARP_K, -50.0, 50.0)))
        is_sour = 1.0 / (1.0 + np.exp(np.clip((ph - self.sour_ph) / SHARP_PH, -50.0, 50.0)))
        return np.asarray(1.0 - is_warm * is_sour * (1.0 - self.sour_factor))

    def nitrogen_lost(self, carbon: FloatArray, nitrogen: FloatArray) -> FloatArray:
        """Return the part of its nitrogen that a pile loses until nothing burns any longer."""
        return np.asarray(nitrogen_lost_frac(carbon / np.maximum(nitrogen, 1e-12)))


@law(
    "0.75 − 0.0167 × C:N, from 0.10 to 0.60",
    unit="1",
    source="memory",
    place="through 0.50 at 15, 0.42 at 20, 0.25 at 30",
)
def nitrogen_lost_frac(ratio: ArrayLike) -> float | FloatArray:
    """Return the part of its nitrogen that a hot pile loses, by its C:N."""
    return keep_shape(np.clip(0.75 - 0.0167 * np.asarray(ratio, dtype=float), 0.10, 0.60))


def warmed(warm_c: FloatArray, rates: Rates) -> FloatArray:
    """Return the rate against that at 20 °C: by the bracket up to its cap, then down to nothing; still in frost."""
    inside = np.minimum(warm_c, rates.capped_c)
    bracket = np.exp(0.0639133 * (inside - 20.0)) - np.exp(0.1906204 * (inside - 60.0))  # logarithms of the two bases
    down = np.clip((rates.stops_c - warm_c) / (rates.stops_c - rates.capped_c), 0.0, 1.0)
    return np.asarray(np.maximum(bracket, 0.0) * down * np.clip((warm_c + 1.0) / 3.0, 0.0, 1.0))


def slowed(moisture: FloatArray, pores: FloatArray) -> FloatArray:
    """Return what water and pores together leave of the rate."""
    by_water = 1.0 + np.exp(7.0622 - 17.684 * moisture)
    return np.asarray(1.0 / (by_water * (1.0 + np.exp(3.4945 - 23.675 * pores))))
