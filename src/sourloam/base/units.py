"""The units that a person may write, and what each is in the project's own.

Used at the edges only: inside, numbers are plain floats in the project's units
and their names say which.
"""

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from types import MappingProxyType
from typing import Final


class Dimension(StrEnum):
    """What kind of quantity a unit measures; the text is what a person calls it."""

    MASS = "mass"
    VOLUME = "volume"
    LENGTH = "length"
    AREA = "area"
    TEMPERATURE = "temperature"
    TIME = "time"
    SHARE = "share"
    MASS_RATE = "mass per time"
    VOLUME_RATE = "volume per time"
    DOSE = "mass per mass"
    AREAL_MASS = "mass per area"
    ANGLE = "angle"
    PRICE = "price per mass"


@dataclass(frozen=True)
class Unit:
    """A unit: its names, what it measures, and how it becomes the project's unit."""

    names: tuple[str, ...]
    dimension: Dimension
    factor: float  # times this, after the offset is added
    offset: float = 0.0
    per: int = 1  # and divided by this, where no decimal factor is exact

    @property
    def exact(self) -> Fraction:
        """Return the factor as the number that its decimals say."""
        return Fraction(str(self.factor)) / self.per


# International and US customary units are exact by definition (NIST Handbook 44, appendix C); the imperial
# gallon by the UK Units of Measurement Regulations 1995. A month is a twelfth of 365.25 days.
UNITS: Final = (
    Unit(("kg", "kilo", "kilos", "kilogram", "kilograms"), Dimension.MASS, 1.0),
    Unit(("g", "gram", "grams"), Dimension.MASS, 0.001),
    Unit(("lb", "lbs", "pound", "pounds"), Dimension.MASS, 0.45359237),
    Unit(("oz", "ounce", "ounces"), Dimension.MASS, 0.028349523125),
    Unit(("t", "tonne", "tonnes"), Dimension.MASS, 1000.0),
    Unit(("L", "l", "litre", "litres", "liter", "liters"), Dimension.VOLUME, 1.0),
    Unit(("mL", "ml", "millilitre", "millilitres", "milliliter", "milliliters", "cc"), Dimension.VOLUME, 0.001),
    Unit(("dL", "dl"), Dimension.VOLUME, 0.1),
    Unit(("cL", "cl"), Dimension.VOLUME, 0.01),
    Unit(("gal", "gallon", "gallons", "US gal", "US gallon", "US gallons"), Dimension.VOLUME, 3.785411784),
    Unit(
        ("imp gal", "UK gal", "imperial gallon", "imperial gallons", "UK gallon", "UK gallons"),
        Dimension.VOLUME,
        4.54609,
    ),
    Unit(("imp pt", "UK pt", "imperial pint", "imperial pints", "UK pint", "UK pints"), Dimension.VOLUME, 0.56826125),
    Unit(("qt", "quart", "quarts"), Dimension.VOLUME, 0.946352946),
    Unit(("pt", "pint", "pints", "US pint", "US pints"), Dimension.VOLUME, 0.473176473),
    Unit(("cup", "cups"), Dimension.VOLUME, 0.2365882365),
    Unit(("fl oz", "fluid ounce", "fluid ounces"), Dimension.VOLUME, 0.0295735295625),
    Unit(("tbsp", "tablespoon", "tablespoons"), Dimension.VOLUME, 0.01478676478125),
    Unit(("tsp", "teaspoon", "teaspoons"), Dimension.VOLUME, 0.00492892159375),
    Unit(("m3", "m³", "cubic metre", "cubic metres"), Dimension.VOLUME, 1000.0),
    Unit(("cu yd", "yd3", "cubic yard", "cubic yards"), Dimension.VOLUME, 764.554857984),
    Unit(("cu ft", "ft3", "cubic foot", "cubic feet"), Dimension.VOLUME, 28.316846592),
    Unit(("m", "metre", "metres", "meter", "meters"), Dimension.LENGTH, 1.0),
    Unit(("cm",), Dimension.LENGTH, 0.01),
    Unit(("mm",), Dimension.LENGTH, 0.001),
    Unit(("in", "inch", "inches"), Dimension.LENGTH, 0.0254),
    Unit(("ft", "foot", "feet"), Dimension.LENGTH, 0.3048),
    Unit(("m2", "m²", "sq m", "square metre", "square metres"), Dimension.AREA, 1.0),
    Unit(("ft2", "ft²", "sq ft", "square foot", "square feet"), Dimension.AREA, 0.09290304),
    Unit(("C", "°C", "degC", "celsius"), Dimension.TEMPERATURE, 1.0),
    Unit(("F", "°F", "degF", "fahrenheit"), Dimension.TEMPERATURE, 5.0, -32.0, per=9),
    Unit(("day", "days", "d"), Dimension.TIME, 1.0),
    Unit(("week", "weeks", "wk"), Dimension.TIME, 7.0),
    Unit(("month", "months"), Dimension.TIME, 365.25, per=12),
    Unit(("year", "years", "yr"), Dimension.TIME, 365.25),
    Unit(("hour", "hours", "h"), Dimension.TIME, 1.0, per=24),
    Unit(("minute", "minutes", "min"), Dimension.TIME, 1.0, per=1440),
    Unit(("%", "percent", "per cent"), Dimension.SHARE, 0.01),
    Unit(("deg", "°", "degree", "degrees"), Dimension.ANGLE, 1.0),
)

BY_NAME: Final = MappingProxyType({name.casefold(): unit for unit in UNITS for name in unit.names})

# Two plain dimensions over one another, where the project has a use for the pair; the factor leads to its unit.
QUOTIENTS: Final = MappingProxyType(
    {
        (Dimension.MASS, Dimension.TIME): (Dimension.MASS_RATE, 1.0),
        (Dimension.VOLUME, Dimension.TIME): (Dimension.VOLUME_RATE, 1.0),
        (Dimension.MASS, Dimension.MASS): (Dimension.DOSE, 1000.0),
        (Dimension.MASS, Dimension.AREA): (Dimension.AREAL_MASS, 1000.0),
    }
)

# The project's own unit of each dimension, as it is written back to a file, with an example for a message.
OWN: Final = MappingProxyType(
    {
        Dimension.MASS: "kg",
        Dimension.VOLUME: "L",
        Dimension.LENGTH: "m",
        Dimension.AREA: "m2",
        Dimension.TEMPERATURE: "C",
        Dimension.TIME: "days",
        Dimension.SHARE: "%",
        Dimension.MASS_RATE: "kg/day",
        Dimension.VOLUME_RATE: "L/day",
        Dimension.DOSE: "g/kg",
        Dimension.AREAL_MASS: "g/m2",
        Dimension.ANGLE: "deg",
        Dimension.PRICE: "/kg",
    }
)

# Units in which a value may be written back, where that is shorter.
ALSO: Final = MappingProxyType(
    {
        Dimension.MASS: ("g", "lb"),
        Dimension.VOLUME: ("ml", "gal"),
        Dimension.LENGTH: ("cm", "in"),
        Dimension.AREA: ("sq ft",),
        Dimension.TEMPERATURE: ("F",),
        Dimension.TIME: ("h", "min"),
        Dimension.MASS_RATE: ("kg/week", "lb/week"),
        Dimension.VOLUME_RATE: ("L/week", "gal/week"),
    }
)

EXAMPLES: Final = MappingProxyType(
    {
        Dimension.MASS: '"1.5 kg" or "3 lb"',
        Dimension.VOLUME: '"18 L" or "4 gal"',
        Dimension.LENGTH: '"30 cm" or "12 in"',
        Dimension.AREA: '"6 m2" or "60 sq ft"',
        Dimension.TEMPERATURE: '"18 C" or "64 F"',
        Dimension.TIME: '"2 weeks" or "10 days"',
        Dimension.SHARE: '"60 %"',
        Dimension.MASS_RATE: '"4 kg/week" or "9 lb/week"',
        Dimension.VOLUME_RATE: '"12 L/week" or "3 gal/week"',
        Dimension.DOSE: '"20 g/kg"',
        Dimension.AREAL_MASS: '"5 g/m2"',
        Dimension.ANGLE: '"52 deg"',
        Dimension.PRICE: '"4.50 /kg"',
    }
)
