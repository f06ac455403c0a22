"""`base.units` against pint, an independent library of units, and the tables against each other."""

import pint
import pytest

from sourloam.base.quantity import read_quantity
from sourloam.base.units import ALSO, BY_NAME, EXAMPLES, OWN, QUOTIENTS, UNITS, Dimension

# What pint calls the first name of each of our units, and the project's own unit of its dimension.
PINT = {
    "kg": "kg",
    "g": "g",
    "lb": "lb",
    "oz": "oz",
    "t": "metric_ton",
    "L": "L",
    "mL": "mL",
    "dL": "dL",
    "cL": "cL",
    "gal": "US_liquid_gallon",
    "imp gal": "imperial_gallon",
    "imp pt": "imperial_pint",
    "qt": "US_liquid_quart",
    "pt": "US_pint",
    "cup": "US_liquid_cup",
    "fl oz": "US_fluid_ounce",
    "tbsp": "tablespoon",
    "tsp": "teaspoon",
    "m3": "m**3",
    "cu yd": "yd**3",
    "cu ft": "ft**3",
    "m": "m",
    "cm": "cm",
    "mm": "mm",
    "in": "inch",
    "ft": "ft",
    "m2": "m**2",
    "ft2": "ft**2",
    "C": "degC",
    "F": "degF",
    "day": "day",
    "week": "week",
    "month": "month",
    "year": "year",
    "hour": "hour",
    "minute": "minute",
    "%": "percent",
    "deg": "degree",
}
OWN_IN_PINT = {
    Dimension.MASS: "kg",
    Dimension.VOLUME: "L",
    Dimension.LENGTH: "m",
    Dimension.AREA: "m**2",
    Dimension.TEMPERATURE: "degC",
    Dimension.TIME: "day",
    Dimension.SHARE: "dimensionless",
    Dimension.ANGLE: "degree",
    Dimension.MASS_RATE: "kg/day",
    Dimension.VOLUME_RATE: "L/day",
    Dimension.DOSE: "g/kg",
    Dimension.AREAL_MASS: "g/m**2",
}


@pytest.fixture(scope="module")
def reference():
    return pint.UnitRegistry(cache_folder=None)


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: unit.names[0])
@pytest.mark.parametrize("number", [0.0, 1.0, 12.5, 64.0])
def test_every_unit_is_what_pint_says_it_is(unit, number, reference):
    want = reference.Quantity(number, PINT[unit.names[0]]).to(OWN_IN_PINT[unit.dimension]).magnitude
    for name in unit.names:
        assert read_quantity(f"{number} {name}", unit.dimension).value == pytest.approx(want, rel=1e-13, abs=1e-12)


@pytest.mark.parametrize(
    ("typed", "in_pint"),
    [
        ("4 lb/week", (4, "lb/week")),
        ("650 g per day", (650, "g/day")),
        ("3 gal a month", (3, "US_liquid_gallon/month")),
        ("12 L each week", (12, "L/week")),
        ("3 oz/lb", (3, "oz/lb")),
        ("2 lb per square foot", (2, "lb/ft**2")),
    ],
)
def test_a_quotient_is_what_pint_says_it_is(typed, in_pint, reference):
    dimension = next(
        each for each, own in OWN_IN_PINT.items() if reference.Quantity(1, in_pint[1]).is_compatible_with(own)
    )
    # a dose is a share to pint, since both are mass over mass
    dimension = Dimension.DOSE if dimension is Dimension.SHARE else dimension
    want = reference.Quantity(*in_pint).to(OWN_IN_PINT[dimension]).magnitude
    assert read_quantity(typed, dimension).value == pytest.approx(want, rel=1e-13)


def test_no_two_units_share_a_name_however_it_is_capitalised():
    names = [(name.casefold(), unit) for unit in UNITS for name in unit.names]
    assert len({name for name, _ in names}) == len(BY_NAME)
    assert all(BY_NAME[name] is unit for name, unit in names)


@pytest.mark.parametrize("dimension", Dimension)
def test_each_dimension_has_a_unit_of_its_own_that_it_is_read_in_as_it_stands(dimension):
    assert read_quantity(f"7 {OWN[dimension]}", dimension).value == (0.07 if dimension is Dimension.SHARE else 7.0)


@pytest.mark.parametrize("dimension", Dimension)
def test_the_examples_of_a_message_can_themselves_be_read(dimension):
    for example in EXAMPLES[dimension].split(" or "):
        assert read_quantity(example.strip('"'), dimension).dimension is dimension


@pytest.mark.parametrize(("dimension", "unit"), [(each, unit) for each, units in ALSO.items() for unit in units])
def test_every_unit_that_is_written_back_is_of_its_dimension(dimension, unit):
    assert read_quantity(f"1 {unit}", dimension).dimension is dimension


def test_quotients_lead_to_dimensions_that_no_plain_unit_has():
    assert not {each for each, _ in QUOTIENTS.values()} & {unit.dimension for unit in UNITS}
