"""`draw.palette`: contrast by WCAG 2.2, and what must survive a grey printer.

The contrast of two colours is (L1 + 0.05) / (L2 + 0.05), L being relative luminance; text needs 4.5, a mark 3.0
(Web Content Accessibility Guidelines 2.2, success criteria 1.4.3 and 1.4.11).
"""

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.draw.palette import CABBAGE, DARK, LIGHT, PRINT, cabbage, colour, mark_on, properties_css

THEMES = pytest.mark.parametrize("theme", [LIGHT, DARK, PRINT], ids=["light", "dark", "print"])


def luminance(value):
    parts = [int(value[at : at + 2], 16) / 255.0 for at in (1, 3, 5)]
    red, green, blue = (each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@THEMES
@pytest.mark.parametrize("words", ["ink", "ink-2"])
@pytest.mark.parametrize("ground", ["paper", "sheet"])
def test_words_can_be_read_in_sun(theme, words, ground):
    assert contrast(theme[words], theme[ground]) >= 7.0


@THEMES
@pytest.mark.parametrize(
    ("mark", "least"), [("call", 4.5), ("edge", 3.0), ("board", 3.0), ("plant", 3.0), ("frozen", 3.0)]
)
def test_marks_stand_out_from_the_page(theme, mark, least):
    assert contrast(theme[mark], theme["paper"]) >= least


@THEMES
@pytest.mark.parametrize("matter", ["bran", "leachate", "soil", "leaves"])
def test_a_pattern_stands_out_from_its_own_fill(theme, matter):
    assert contrast(theme[f"{matter}-line"], theme[f"{matter}-fill"]) >= 3.0


@THEMES
def test_filling_fermenting_and_waiting_are_three_greys(theme):
    greys = [luminance(theme[each]) for each in ("fan-outer", "fan-inner", "edge")]
    assert greys in (sorted(greys), sorted(greys, reverse=True))
    assert all((max(pair) + 0.05) / (min(pair) + 0.05) > 1.3 for pair in pairwise(greys))


def test_all_themes_have_the_same_names():
    assert set(LIGHT) == set(DARK) == set(PRINT)
    assert all(re.fullmatch("#[0-9a-f]{6}", each) for theme in (LIGHT, DARK, PRINT) for each in theme.values())


def test_a_colour_has_its_light_value_behind_it():
    assert colour("ink") == "var(--ink, #17211c)"


def test_the_style_sheet_sets_every_colour_in_every_theme():
    css = properties_css()
    assert css.count("--ink:") == 4  # light, dark as the system says, dark as the page says, paper
    assert all(f"--{name}:{value};" in css for theme in (LIGHT, DARK, PRINT) for name, value in theme.items())


@pytest.mark.parametrize(("ph", "hexed"), CABBAGE)
def test_the_cabbage_scale_meets_its_steps(ph, hexed):
    assert cabbage(ph) == hexed


@given(st.floats(3.5, 6.95))
def test_what_is_sourer_is_darker(ph):
    assert luminance(cabbage(ph)) < luminance(cabbage(ph + 0.05))


def test_beyond_its_ends_the_cabbage_scale_holds():
    assert cabbage(2.0) == cabbage(3.5)
    assert cabbage(9.0) == cabbage(7.0)


@pytest.mark.parametrize("ph", [3.5, 4.0, 4.5, 4.99, 5.0, 5.5, 6.0, 7.0])
def test_a_mark_on_the_cabbage_scale_can_be_seen(ph):
    assert contrast(mark_on(ph), cabbage(ph)) >= 3.0
