"""`draw.ferment_plot`: two compositions in one file; nothing overlaps or leaves the sheet, layers are to scale."""

import re
import xml.etree.ElementTree as ET

import pytest

from sourloam.draw.ferment_plot import TALL_PX, WIDE_PX, ferment_sheet, tall_drawing, wide_drawing
from sourloam.draw.palette import LIGHT, cabbage
from tests.draw.geometry import SVG, colours_of, outside, overlaps, shape_of, size_of, words_of
from tests.views.forecasts import NAMES, followed

LEAST_PX = {"wide": 14.0, "tall": 13.0}
DRAWN = {"wide": wide_drawing, "tall": tall_drawing}


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("batches")


@pytest.fixture(params=NAMES)
def view(request, folder):
    return followed(request.param, folder)


@pytest.fixture(params=DRAWN)
def kind(request):
    return request.param


def drawn(view, kind):
    return ET.fromstring(DRAWN[kind](view))


def test_no_words_lie_on_one_another(view, kind):
    assert not overlaps(drawn(view, kind))


def test_nothing_leaves_the_sheet(view, kind):
    svg = drawn(view, kind)
    shift = {"wide": 30.0, "tall": 18.0}[kind]
    width, height = size_of(svg)
    faults = [
        each
        for each in outside(svg)
        if each.left < -shift or each.right > width - shift + 0.01 or each.top < 0.0 or each.bottom > height + 0.01
    ]
    assert [each for each in faults if each.right - each.left < width] == []  # but for the paper itself


def test_words_are_large_enough_to_be_read(view, kind):
    svg = drawn(view, kind)
    assert min(float(each.get("font-size")) for each in svg.iter(f"{SVG}text")) >= LEAST_PX[kind]


def test_axes_are_named_with_their_units(view, kind):
    said = " ".join(each.words for each in words_of(drawn(view, kind)))
    assert "pH of the least sour layer" in said
    assert "g in 1 kg of water" in said
    assert f"Where it stands, {'°F' if view.speech.is_us else '°C'}" in said
    assert re.search(r"days from the last layer|1\xa0Mar", said)
    assert {"7", "6", "5", "4"} <= {each.words for each in words_of(drawn(view, kind))}


def test_the_title_says_the_finding(view, kind):
    assert drawn(view, kind).find(f"{SVG}title").text == view.says


def test_layers_are_as_high_as_they_have_settled_and_coloured_by_their_ph(view):
    svg = drawn(view, "wide")
    for cut in view.vessels:
        for layer in cut.layers:
            fills = [each for each in svg.iter(f"{SVG}polygon") if each.get("fill") == cabbage(layer.ph)]
            assert fills


def test_the_vessels_are_to_one_scale(folder):
    view = followed("example", folder)
    svg = drawn(view, "wide")
    walls = [each for each in svg.iter(f"{SVG}polyline") if len(each.get("points").split()) == 4]
    heights = {round(shape_of(each)[0].bottom - shape_of(each)[0].top, 1) for each in walls}
    assert len(walls) == 2
    assert len(heights) == 1


def test_colour_is_matter_or_ink(view, kind):
    named = re.compile(r"var\(--([a-z-0-9]+), (#[0-9a-f]{6})\)")
    for each in colours_of(drawn(view, kind)):
        found = named.fullmatch(each)
        assert each.startswith(("url(", "#")) or (found and LIGHT[found[1]] == found[2])


def test_the_file_holds_both_and_shows_the_wide_one_where_no_style_is_known(view):
    sheet = ET.fromstring(ferment_sheet(view))
    classes = [each.get("class") for each in sheet.iter(f"{SVG}svg")]
    assert classes == [None, "wide", "tall"]
    assert float(sheet.get("width")) == WIDE_PX
    tall = next(each for each in sheet.iter(f"{SVG}svg") if each.get("class") == "tall")
    assert tall.get("display") == "none"
    assert tall.get("viewBox").startswith(f"0 0 {TALL_PX:.0f} ")
    assert {each.get(size) for each in list(sheet)[2:] for size in ("width", "height")} == {"100%"}
    assert "@media print" in ferment_sheet(view)


def said_in(view):
    return " ".join(each.words for each in words_of(drawn(view, "wide")))


def test_the_key_names_only_what_is_drawn(folder):
    assert "bran between layers" not in said_in(followed("bare", folder))
    assert "liquid below the grid" not in said_in(followed("ice", folder))
    assert "bran between layers" in said_in(followed("example", folder))


def test_a_date_that_few_cases_reach_is_not_drawn(folder):
    told = said_in(followed("leaky", folder))
    assert re.search(r"held sour: (only in (fewer than 1 in 50|\d of 20) cases|in no case that was tried)", told)
    assert "when it is due" not in told


def test_the_rule_is_in_the_units_of_the_keeper(folder):
    assert "cm" not in said_in(followed("many", folder)).split()
    assert "cm" in said_in(followed("example", folder)).split()
