"""`plan.words`: amounts in the units of the keeper, held to the factors of pint, which the code does not use."""

import re

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.plan.words import Speech
from sourloam.views.reason import Number
from sourloam.views.spoken import said, said_range

METRIC, US = Speech("metric"), Speech("us")
OUTSIDE = pint.UnitRegistry()
PINT = {
    "lb": "pound",
    "oz": "ounce",
    "gal": "gallon",
    "qt": "quart",
    "fl oz": "fluid_ounce",
    "tsp": "teaspoon",
    "°F": "degF",
    "kg": "kilogram",
    "g": "gram",
    "L": "litre",
    "ml": "millilitre",
}
AMOUNTS = st.floats(0.01, 5000.0)


def measured(words, unit):
    """Return what an amount in words is by pint, and how much half a unit in its last place is."""
    number, name = words.split(" ", 1)
    place = 10.0 if re.fullmatch(r"\d\d0", number) and name in {"g", "ml"} else 10.0 ** -len(number.partition(".")[2])
    return [OUTSIDE.Quantity(each, PINT[name]).to(unit).magnitude for each in (float(number), 0.5001 * place)]


@pytest.mark.parametrize("speech", [METRIC, US])
@given(value=AMOUNTS)
def test_an_amount_is_what_it_was_but_for_its_rounding(speech, value):
    for words, unit in ((speech.kg(value), "kilogram"), (speech.litres(value), "litre")):
        middle, half = measured(words, unit)
        assert middle == pytest.approx(value, abs=half)


@pytest.mark.parametrize("celsius", [-40.0, 0.0, 18.0, 37.0, 100.0])
def test_a_temperature_is_that_of_pint(celsius):
    want = OUTSIDE.Quantity(celsius, "degC").to("degF").magnitude
    assert US.celsius(celsius) == f"{want:.0f} °F"
    assert METRIC.celsius(celsius) == f"{celsius:.0f} °C"


@pytest.mark.parametrize(
    ("kg", "metric", "us"),
    [(0.0, "0 g", "0 oz"), (0.02, "20 g", "0.7 oz"), (0.25, "250 g", "8.8 oz"), (5.0, "5.0 kg", "11.0 lb")],
)
def test_a_mass_takes_the_unit_of_a_kitchen_scale(kg, metric, us):
    assert (METRIC.kg(kg), US.kg(kg)) == (metric, us)


@pytest.mark.parametrize(
    ("litres", "metric", "us"),
    [(0.01, "10 ml", "2 tsp"), (0.5, "500 ml", "17 fl oz"), (1.9, "1.9 L", "2.0 qt"), (400.0, "400 L", "106 gal")],
)
def test_a_volume_takes_the_unit_of_a_jug(litres, metric, us):
    assert (METRIC.litres(litres), US.litres(litres)) == (metric, us)


def test_a_size_has_no_needless_nought():
    pail = OUTSIDE.Quantity(5.0, "gallon").to("litre").magnitude
    assert (METRIC.size(20.0), METRIC.size(pail), US.size(pail)) == ("20 L", "18.9 L", "5 gal")


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("Cover it with 20 to 30 cm of soil.", "Cover it with 7.9 to 12 in of soil."),
        ("At 5, 10 and 25 °C it waits.", "At 41, 50 and 77 °F it waits."),
        ("It is -5 °C.", "It is 23 °F."),
        ("add one more vessel of 18.9 L", "add one more vessel of 5 gal"),
        ("17 g of nitrogen to a square metre", "17 g of nitrogen to a square metre"),
        ("20 g/kg on 0.4 L/kg and 9 m2 in 14 days", "20 g/kg on 0.4 L/kg and 97 sq ft in 14 days"),
    ],
)
def test_a_sentence_of_a_table_is_told_in_the_units_of_the_keeper(metric, us):
    assert METRIC.told(metric) == metric
    assert US.told(metric) == us


def test_a_name_that_holds_a_size_stays_as_it_is():
    assert US.warmths("days to fill Blue 20 L at 20 °C") == "days to fill Blue 20 L at 68 °F"


# Rounding to a tenth of the interval comes after the change of units: 8.3 kg are 18.3 lb, 4.4 to 12.5 are 9.7 to 27.6.
@pytest.mark.parametrize(
    ("number", "value", "interval"),
    [
        (Number("n", "bran", 8.3, 4.4, 12.5, "kg"), "18 lb", "10 to 28"),
        (Number("n", "scraps", 0.786, 0.786, 0.786, "kg/d"), "1.73 lb a day", ""),
        (Number("n", "liquid", 0.0, 0.0, 26.0, "L"), "0 gal", "0 to 7"),
        (Number("n", "bran", 160.0, 80.0, 240.0, "g/wk"), "5.6 oz", "2.8 to 8.5"),
        (Number("n", "warmth", 32.0, 30.7, 33.8, "Cel"), "89.6 °F", "87.3 to 92.8"),
        (Number("n", "density", 0.76, 0.60, 0.98, "kg/L"), "0.76 kg/L", "0.60 to 0.98"),
        (Number("n", "vessels", 3.0, 2.0, 3.0, "{vessel}"), "3", "2 to 3"),
        (Number("n", "wait", None, None, None, "d"), "never", "in no case that was tried"),
    ],
)
def test_a_number_is_rounded_in_the_unit_in_which_it_is_said(number, value, interval):
    assert (said(number, US), said_range(number, US)) == (value, interval)
