"""`draw.interval`: the ends and the dot of a figure's line lie where the numbers do."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.draw.interval import interval
from sourloam.plan.words import Speech
from sourloam.views.reason import Number
from tests.draw.geometry import SVG, drawings, outside, words_of


def drawn(number, width_px=104.0):
    (svg,) = drawings(interval(number, Speech(), width_px=width_px))
    return svg


def dot(svg):
    return float(next(svg.iter(f"{SVG}circle")).get("cx"))


@given(low=st.floats(0.0, 1e4), part=st.floats(0.0, 1.0), length=st.floats(0.1, 1e4))
def test_the_dot_divides_the_line_as_the_middle_value_divides_the_interval(low, part, length):
    svg = drawn(Number("n", "a number", low + part * length, low, low + length, "kg"))
    edge = float(next(svg.iter(f"{SVG}circle")).get("r"))
    assert (dot(svg) - edge) / (104.0 - 2.0 * edge) == pytest.approx(part, abs=1e-3)


@pytest.mark.parametrize("value", [3.0, 5.0, 11.0])
@pytest.mark.parametrize("width_px", [60.0, 104.0, 240.0])
def test_all_of_it_lies_inside_and_none_of_it_is_words(value, width_px):
    svg = drawn(Number("n", "a number", value, 3.0, 11.0, "kg"), width_px)
    assert outside(svg) == []
    assert words_of(svg) == []


@pytest.mark.parametrize(
    "number",
    [
        Number("typed", "what was typed", 12.0, 12.0, 12.0, "L"),
        Number("unknown", "what is not known", None, None, None, "d"),
    ],
    ids=lambda each: each.name,
)
def test_a_number_without_an_interval_has_no_line(number):
    assert interval(number, Speech()) == ""


def test_a_number_that_may_never_come_has_an_open_end():
    svg = drawn(Number("n", "days to wait", 20.0, 12.0, None, "d", never_frac=0.06))
    solid, dotted = svg.iter(f"{SVG}path")
    assert solid.get("stroke-dasharray") is None
    assert dotted.get("stroke-dasharray")
    assert solid.get("d").count("M") == 2  # the line and one tick


def test_it_says_its_numbers_to_who_does_not_see_it():
    svg = drawn(Number("n", "bran in the year", 8.8, 4.9, 13.7, "kg"))
    assert svg.get("role") == "img"
    assert svg.find(f"{SVG}title").text == "bran in the year: about 8.8 kg, 4.9 to 13.7"
