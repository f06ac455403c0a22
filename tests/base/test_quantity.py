"""`base.quantity`: what people write, what it becomes, and the sentence where it cannot be read."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.quantity import LONGEST, BadQuantity, read_quantity, write_quantity
from sourloam.base.units import Dimension

NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
SENSIBLE = st.floats(1e-3, 1e5).map(lambda value: float(f"{value:.4g}"))


@pytest.mark.parametrize(
    ("typed", "dimension", "want"),
    [
        ("650 g", Dimension.MASS, 0.65),
        ("1,5 kg", Dimension.MASS, 1.5),
        ("0,500 kg", Dimension.MASS, 0.5),  # no thousand begins with 0
        (" about  3 kg ", Dimension.MASS, 3.0),
        ("ca. 3kg", Dimension.MASS, 3.0),
        ("3 lbs.", Dimension.MASS, 1.36077711),
        ("2 KG", Dimension.MASS, 2.0),
        ("+2e3 g", Dimension.MASS, 2.0),
        ("2.4 gal", Dimension.VOLUME, 9.0849882816),
        ("half a gallon", Dimension.VOLUME, 1.892705892),
        ("half gallon", Dimension.VOLUME, 1.892705892),
        ("1 1/2 cups", Dimension.VOLUME, 0.35488235475),
        ("3/4 cup", Dimension.VOLUME, 0.177441177375),
        ("a pint", Dimension.VOLUME, 0.473176473),
        ("two US gallons", Dimension.VOLUME, 7.570823568),
        ("4 lb/week", Dimension.MASS_RATE, 0.25919564),
        ("4 lb a week", Dimension.MASS_RATE, 0.25919564),
        ("7 kg per week", Dimension.MASS_RATE, 1.0),
        ("64 F", Dimension.TEMPERATURE, 160.0 / 9.0),
        ("18 °C", Dimension.TEMPERATURE, 18.0),
        ("\N{MINUS SIGN}5 C", Dimension.TEMPERATURE, -5.0),
        ("-1 1/2 C", Dimension.TEMPERATURE, -1.5),
        ("85 %", Dimension.SHARE, 0.85),
        ("85%", Dimension.SHARE, 0.85),
        ("85 per cent", Dimension.SHARE, 0.85),
        ("20 g/kg", Dimension.DOSE, 20.0),
        ("5 g/m2", Dimension.AREAL_MASS, 5.0),
        ("90 minutes", Dimension.TIME, 0.0625),
        ("4.50 /kg", Dimension.PRICE, 4.5),
        ("4.50 a kilo", Dimension.PRICE, 4.5),
        ("0.45359237 / lb", Dimension.PRICE, 1.0),
    ],
)
def test_quantities_are_read_as_people_write_them(typed, dimension, want):
    read = read_quantity(typed, dimension)
    assert (read.value, read.dimension, read.typed) == (want, dimension, typed)


@pytest.mark.parametrize(
    ("typed", "want"), [("a handful", 0.028), ("two handfuls", 0.056), ("Half a handful", 0.014), ("3 handfuls", 0.084)]
)
def test_a_handful_weighs_what_the_keepers_does(typed, want):
    assert read_quantity(typed, Dimension.MASS, handful_kg=0.028).value == want


def test_handfuls_come_in_by_the_day_too():
    assert read_quantity("two handfuls a day", Dimension.MASS_RATE, handful_kg=0.03).value == 0.06


def test_the_first_of_several_dimensions_that_fits_is_taken():
    wanted = (Dimension.MASS_RATE, Dimension.VOLUME_RATE)
    assert read_quantity("7 L/week", wanted).dimension is Dimension.VOLUME_RATE


@pytest.mark.parametrize(
    ("typed", "dimension", "sentence"),
    [
        ("1,200 g", Dimension.MASS, '"1,200 g" can be read in two ways; write "1.2 g" or "1200 g".'),
        ("18", Dimension.VOLUME, '"18" has no unit; write a volume, for example "18 L" or "4 gal".'),
        ("", Dimension.MASS, '"" holds no number; write a mass, for example "1.5 kg" or "3 lb".'),
        ("kg", Dimension.MASS, '"kg" holds no number; write a mass, for example "1.5 kg" or "3 lb".'),
        (
            "umpteen litres",
            Dimension.VOLUME,
            '"umpteen litres" holds no number; write a volume, for example "18 L" or "4 gal".',
        ),
        ("nan kg", Dimension.MASS, '"nan kg" holds no number; write a mass, for example "1.5 kg" or "3 lb".'),
        ("inf L", Dimension.VOLUME, '"inf L" holds no number; write a volume, for example "18 L" or "4 gal".'),
        ("1e999 kg", Dimension.MASS, '"1e999 kg" is too large a number; write it in a larger unit.'),
        ("1.2.3 kg", Dimension.MASS, '"1.2.3 kg" holds no number that can be read; write one such as "1.5".'),
        ("1/0 kg", Dimension.MASS, '"1/0 kg" divides by zero; write the number out.'),
        ("2 1/0 kg", Dimension.MASS, '"2 1/0 kg" divides by zero; write the number out.'),
        (
            "3 firkins",
            Dimension.VOLUME,
            '"3 firkins": "firkins" is not a unit that is known; write a volume, for example "18 L" or "4 gal".',
        ),
        (
            "5-7 kg",
            Dimension.MASS,
            '"5-7 kg": "-7 kg" is not a unit that is known; write a mass, for example "1.5 kg" or "3 lb".',
        ),
        (
            "18 kg",
            Dimension.VOLUME,
            '"18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        ),
        ("6 m2", Dimension.MASS, '"6 m2" is an area; a mass is wanted, for example "1.5 kg" or "3 lb".'),
        ("4 kg", Dimension.AREA, '"4 kg" is a mass; an area is wanted, for example "6 m2" or "60 sq ft".'),
        ("4 kg/", Dimension.MASS, '"4 kg/" has no unit; write a mass, for example "1.5 kg" or "3 lb".'),
        (
            "5 C/day",
            Dimension.TEMPERATURE,
            '"5 C/day" is no quantity that is used here; write a temperature, for example "18 C" or "64 F".',
        ),
        ("4.50", Dimension.PRICE, '"4.50" is not a price per mass; write one such as "4.50 /kg".'),
        ("4.50 /L", Dimension.PRICE, '"4.50 /L" is not a price per mass; write one such as "4.50 /kg".'),
        (
            "two handfuls",
            Dimension.MASS,
            'a handful is a different weight for everybody; say yours first: [keeper] handful = "30 g".',
        ),
        (
            "9" * 61 + " kg",
            Dimension.MASS,
            '64 characters are too long for a quantity; write a mass, for example "1.5 kg" or "3 lb".',
        ),
    ],
)
def test_what_cannot_be_read_is_refused_with_the_cure(typed, dimension, sentence):
    with pytest.raises(BadQuantity) as caught:
        read_quantity(typed, dimension)
    assert str(caught.value) == sentence


@pytest.mark.parametrize("dimension", Dimension)
@given(value=NUMBERS)
def test_what_is_written_reads_back_as_the_same_number(dimension, value):
    text = write_quantity(value, dimension)
    assert len(text) <= LONGEST
    assert read_quantity(text, dimension).value == value


@given(value=SENSIBLE)
def test_sensible_numbers_are_written_in_few_digits_and_without_an_exponent(value):
    for dimension in Dimension:
        number = write_quantity(value, dimension).partition(" ")[0]
        assert "e" not in number
        assert len(number.strip("0.").replace(".", "")) <= 6


@pytest.mark.parametrize(
    ("value", "dimension", "text"),
    [
        (0.9, Dimension.SHARE, "90 %"),
        (0.29, Dimension.SHARE, "29 %"),
        (18.92705892, Dimension.VOLUME, "5 gal"),
        (0.03, Dimension.MASS, "30 g"),
        (14.0, Dimension.TIME, "14 days"),
        (60.0 / 1440.0, Dimension.TIME, "1 h"),
        (160.0 / 9.0, Dimension.TEMPERATURE, "64 F"),
        (5.5 / 7.0, Dimension.MASS_RATE, "5.5 kg/week"),
        (0.0, Dimension.MASS, "0 kg"),
        (1e-9, Dimension.AREAL_MASS, "1e-9 g/m2"),
    ],
)
def test_a_value_is_written_in_the_unit_in_which_it_is_shortest(value, dimension, text):
    assert write_quantity(value, dimension) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_cannot_be_written(value):
    with pytest.raises(ValueError, match=f"^{value} is no mass that can be written$"):
        write_quantity(value, Dimension.MASS)


def is_read_or_refused(typed, dimension):
    try:
        value = read_quantity(typed, dimension, handful_kg=0.03).value
    except BadQuantity as refused:
        return str(refused) == f"{refused.found} {refused.remedy}" and bool(refused.remedy)
    return abs(value) < float("inf")


@given(typed=st.text(max_size=70), dimension=st.sampled_from(Dimension))
def test_any_text_is_read_or_refused_and_nothing_else(typed, dimension):
    assert is_read_or_refused(typed, dimension)


@given(
    number=st.from_regex(r"\A[-+]?[0-9.,/ e]{1,12}\Z"),
    unit=st.sampled_from(["kg", "g a day", "F", "/lb", "%", "handfuls", "gal/week"]),
    dimension=st.sampled_from(Dimension),
)
def test_any_digits_are_read_or_refused_and_nothing_else(number, unit, dimension):
    assert is_read_or_refused(f"{number} {unit}", dimension)


@given(value=st.floats(0.1, 900.0).map(lambda value: round(value, 2)))
def test_a_comma_is_a_decimal_point(value):
    text = str(value)
    assert read_quantity(f"{text.replace('.', ',')} kg", Dimension.MASS).value == value


@pytest.mark.parametrize(
    ("typed", "square_metres"),
    [("10 m x 1.2 m", 12.0), ("20 x 10 ft", 200.0 * 0.3048**2), ("3 × 2 m", 6.0), ("120 cm x 2 m", 2.4)],
)
def test_an_area_may_be_written_as_length_times_width(typed, square_metres):
    assert read_quantity(typed, Dimension.AREA).value == pytest.approx(square_metres)


def test_length_times_width_needs_a_unit_and_lengths():
    for typed in ("10 x 2", "10 kg x 2 m", "10 m x"):
        with pytest.raises(BadQuantity):
            read_quantity(typed, Dimension.AREA)
