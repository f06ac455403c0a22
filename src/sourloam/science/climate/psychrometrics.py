"""Moist air: how much water it holds, how fast it dries, and what becomes of outdoor air in a warm room."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray, halved, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.source import Basis

AIR: Final = Range(-60.0, 80.0, "°C")
SHARE: Final = Range(0.0, 1.0)
KELVIN: Final = 273.15
SEA_LEVEL_PA: Final = 101_325.0
WATER_TO_AIR: Final = 0.621945  # molar mass of water over that of dry air; hyland_wexler
TRIPLE_C: Final = 0.01
# Coefficients of the two equations of saturation, over ice and over water; hyland_wexler.
ICE: Final = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
WATER: Final = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673)
_WHY_AIR: Final = "nobody dries or keeps bran there."
_WHY_SHARE: Final = "relative humidity is a share, 0 to 1."


@law("Hyland and Wexler's equation", unit="Pa", source="hyland_wexler", place="over ice and over water")
def saturation_pa(air_c: ArrayLike) -> float | FloatArray:
    """Return the pressure of water vapour in air that can hold no more.

    Raises
    ------
    OutOfRange
        If the air is colder than -60 °C or hotter than 80 °C.
    """
    kelvin = within(air_c, AIR, name="air_c", why=_WHY_AIR) + KELVIN
    ice = ICE[0] / kelvin + np.polynomial.polynomial.polyval(kelvin, ICE[1:6]) + ICE[6] * np.log(kelvin)
    water = WATER[0] / kelvin + np.polynomial.polynomial.polyval(kelvin, WATER[1:5]) + WATER[5] * np.log(kelvin)
    return keep_shape(np.exp(np.where(kelvin <= KELVIN + TRIPLE_C, ice, water)))


@law("humidity × saturation pressure", unit="Pa")
def vapour_pa(air_c: ArrayLike, humidity_frac: ArrayLike) -> float | FloatArray:
    """Return the pressure of water vapour in air.

    Raises
    ------
    OutOfRange
        If the humidity is no share, or the air is outside -60 to 80 °C.
    """
    humidity = within(humidity_frac, SHARE, name="humidity_frac", why=_WHY_SHARE)
    return keep_shape(np.asarray(humidity * np.asarray(saturation_pa(air_c))))


@law("0.6219 × vapour ÷ (pressure − vapour)", unit="kg/kg", source="hyland_wexler", place="humidity ratio")
def water_kg_per_kg(vapour_pa: ArrayLike) -> float | FloatArray:
    """Return the water on a kilogram of dry air, at sea level."""
    vapour = np.asarray(vapour_pa, dtype=float)
    return keep_shape(np.asarray(WATER_TO_AIR * vapour / (SEA_LEVEL_PA - vapour)))


@law("outdoor vapour + what people and cooking add, over saturation in the room", unit="1")
def indoor_humidity_frac(
    outdoor_c: ArrayLike, outdoor_humidity_frac: ArrayLike, room_c: ArrayLike, added_water_kg_per_kg: ArrayLike = 0.0
) -> float | FloatArray:
    """Return the relative humidity of a room that outdoor air blows through; never more than 1.

    Raises
    ------
    OutOfRange
        If a humidity is no share, or air is outside -60 to 80 °C.
    """
    outdoors = np.asarray(water_kg_per_kg(vapour_pa(outdoor_c, outdoor_humidity_frac)))
    water = outdoors + np.asarray(added_water_kg_per_kg, dtype=float)
    vapour = SEA_LEVEL_PA * water / (WATER_TO_AIR + water)
    return keep_shape(np.asarray(np.minimum(vapour / np.asarray(saturation_pa(room_c)), 1.0)))


@law(
    "where evaporation cools as much as the air warms",
    unit="Cel",
    source="hyland_wexler",
    place="wet-bulb temperature, above freezing",
)
def wet_bulb_c(air_c: ArrayLike, humidity_frac: ArrayLike) -> float | FloatArray:
    """Return the temperature that wet matter takes in moving air.

    Raises
    ------
    OutOfRange
        If the humidity is no share, or the air is outside -60 to 80 °C.
    """
    air, humidity = np.broadcast_arrays(np.asarray(air_c, dtype=float), np.asarray(humidity_frac, dtype=float))
    held = np.asarray(water_kg_per_kg(vapour_pa(air, humidity)))

    def is_above_wet(wet_c: FloatArray) -> np.ndarray:
        full = np.asarray(water_kg_per_kg(saturation_pa(wet_c)))
        kept = (2501.0 - 2.326 * wet_c) * full - 1.006 * (air - wet_c)
        return np.asarray(kept / (2501.0 + 1.86 * air - 4.186 * wet_c) >= held)

    def is_above_iced(wet_c: FloatArray) -> np.ndarray:
        full = np.asarray(water_kg_per_kg(saturation_pa(wet_c)))
        kept = (2830.0 - 0.24 * wet_c) * full - 1.006 * (air - wet_c)
        return np.asarray(kept / (2830.0 + 1.86 * air - 2.1 * wet_c) >= held)

    # Near freezing both have an answer: what is wet above 0 °C is not iced.
    lowest = np.maximum(air - 45.0, AIR.low)
    wet, iced = (halved(each, lowest, air.astype(float)) for each in (is_above_wet, is_above_iced))
    return keep_shape(np.where(wet >= 0.0, wet, iced))


@law(
    "saturation at the wet bulb − vapour in the air",
    unit="Pa",
    source="sourloam_derivation",
    place="what drives water out of wet matter in moving air",
    basis=Basis.DERIVED,
)
def drying_pull_pa(air_c: ArrayLike, humidity_frac: ArrayLike) -> float | FloatArray:
    """Return how strongly air takes up water from something wet.

    Raises
    ------
    OutOfRange
        If the humidity is no share, or the air is outside -60 to 80 °C.
    """
    wet = np.asarray(saturation_pa(wet_bulb_c(air_c, humidity_frac)))
    return keep_shape(np.maximum(wet - np.asarray(vapour_pa(air_c, humidity_frac)), 0.0))
