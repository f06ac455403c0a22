"""`draw.canvas`, `patterns` and `signs`: pieces are well formed, escaped, and where they were asked for."""

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.draw import canvas
from sourloam.draw.patterns import KINDS, filled, patterns
from sourloam.draw.signs import sprout

PRINTABLE = st.text(st.characters(blacklist_categories=("Cs", "Cc", "Zl", "Zp")), max_size=40)


def parsed(*inside):
    return ET.fromstring(canvas.drawing((100.0, 50.0), *inside, title="So it is", desc="All of it", key="k"))


@given(PRINTABLE)
def test_any_words_come_out_as_they_went_in(words):
    svg = ET.fromstring(canvas.text((1.0, 2.0), words))
    assert (svg.text or "") == words


@given(PRINTABLE)
def test_any_value_of_an_attribute_is_escaped(value):
    assert ET.fromstring(canvas.element("g", data_name=value)).get("data-name") == value


@given(PRINTABLE, st.integers(20, 200), st.integers(1, 4))
def test_wrapped_words_fit(words, width, most):
    lines = canvas.wrapped(words, width, size=14.0, most=most)
    assert len(lines) <= most
    assert all(len(each) <= max(int(width / (14.0 * canvas.EM_FRAC)), 2) for each in lines)


def test_words_that_fit_are_whole():
    assert canvas.wrapped("the strip under the hedge", 102.0, size=15.0, most=3) == ("the strip", "under the", "hedge")


def test_words_break_after_a_hyphen_and_not_at_a_no_break_space():
    assert canvas.wrapped("green-one", 60.0, size=14.0) == ("green-", "one")
    assert canvas.wrapped("dry 13\u00a0Oct", 60.0, size=14.0) == ("dry", "13\u00a0Oct")


def test_a_name_that_is_cut_keeps_the_number_that_tells_it_from_its_neighbour():
    one, other = (canvas.wrapped(f"The big blue bucket of the yard {at}", 100.0, size=15.0) for at in (1, 2))
    assert one != other
    assert canvas.is_cut(one)
    assert one[-1].endswith("… 1")


def test_an_attribute_that_is_none_is_left_out():
    assert canvas.element("g", fill=None, stroke_width=1.5) == '<g stroke-width="1.5"/>'


@pytest.mark.parametrize(("value", "words"), [(1.0, "1"), (1.50, "1.5"), (-0.333333, "-0.33"), (1234.5678, "1234.57")])
def test_pixels_are_written_short(value, words):
    assert canvas.number(value) == words


def test_a_drawing_names_its_title_and_its_description():
    svg = parsed(canvas.line((0.0, 0.0), (1.0, 1.0)))
    named = {each.get("id"): each.text for each in svg if each.get("id")}
    assert named[svg.get("aria-labelledby")] == "So it is"
    assert named[svg.get("aria-describedby")] == "All of it"


def test_an_interval_without_its_end_has_one_tick_and_without_its_middle_no_dot():
    whole = canvas.interval((0.0, 5.0), (10.0, 5.0), middle=3.0)
    cut = canvas.interval((0.0, 5.0), (10.0, 5.0), open_end=True)
    assert whole.count("M") == 3
    assert "circle" in whole
    assert cut.count("M") == 2
    assert "circle" not in cut


def test_steps_hold_each_height_until_the_next():
    assert canvas.steps([(0.0, 1.0), (2.0, 5.0)]) == ((0.0, 1.0), (2.0, 1.0), (2.0, 5.0))


def test_bars_stand_on_their_base():
    svg = parsed(canvas.bars([(1.0, 10.0), (5.0, 40.0)], base=40.0, width=3.0))
    (bar,) = (each for each in svg if each.tag.endswith("rect"))  # one of no height is not drawn
    assert float(bar.get("y")) + float(bar.get("height")) == 40.0


def test_an_axis_has_a_mark_and_words_for_each_place():
    svg = parsed(canvas.axis((0.0, 40.0), (90.0, 40.0), [(0.0, "0"), (90.0, "9")], gridded_to=0.0))
    texts = [each for each in svg if each.tag.endswith("text")]
    assert [each.text for each in texts] == ["0", "9"]
    assert all(float(each.get("y")) > 40.0 for each in texts)


def test_every_pattern_is_well_formed_and_is_found_by_its_fill():
    svg = parsed(patterns(tuple(KINDS), "k"), sprout((10.0, 10.0)))
    made = {each.get("id") for each in svg.iter() if each.tag.endswith("pattern")}
    assert {filled(each, "k") for each in KINDS} == {f"url(#{each})" for each in made}
