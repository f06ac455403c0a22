"""`draw.flow`: what comes in and where it goes lie end to end, to scale, and end together."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.draw.flow import COLUMNS, finding, flow, flow_table, mass_words, parts_of, share_words
from sourloam.draw.palette import CABBAGE, LIGHT
from sourloam.plan.matter import Matter, Part
from sourloam.plan.words import Speech
from tests.draw.geometry import SVG, colours_of, drawings, outside, overlaps, shape_of, size_of, words_of

LEAST_PX = 13.0
HALF_A_HUNDREDTH_PX = 0.005 + 1e-9  # how places are written


@pytest.fixture(params=[354.0, 1100.0], ids=["phone", "table"])
def width_px(request):
    return request.param


def drawn(view, width_px):
    (svg,) = drawings(flow(view, width_px=width_px))
    return svg


def said(svg):
    return " ".join(" ".join(each.words.split()) for each in words_of(svg))


def boxes(svg, kind):
    """Return the boxes of the whole bar, or of the steps, from the top."""
    groups = (each for each in svg.iter(f"{SVG}g") if each.get("class") == kind)
    return [shape_of(each)[0] for one in groups for each in one.iter(f"{SVG}rect")]


def test_steps_begin_where_the_one_above_ends_and_end_with_the_bar(view, width_px):
    svg = drawn(view, width_px)
    whole, steps = boxes(svg, "whole")[-1], boxes(svg, "step")
    starts = [whole.left, *(each.right for each in steps)]
    ends = [each.left for each in steps] + [whole.right]
    assert starts == pytest.approx(ends, abs=2.0 * HALF_A_HUNDREDTH_PX)


def test_steps_are_as_long_as_their_mass_and_the_largest_comes_first(view, width_px):
    svg = drawn(view, width_px)
    whole, steps = boxes(svg, "whole")[-1], boxes(svg, "step")
    px_per_kg = (whole.right - whole.left) / view.matter.whole_kg
    lengths = [each.right - each.left for each in steps]
    masses = sorted((each.mass_kg for each in view.matter.became), reverse=True)
    assert lengths == pytest.approx([each * px_per_kg for each in masses], abs=2.0 * HALF_A_HUNDREDTH_PX)
    assert [each.top for each in steps] == sorted(each.top for each in steps)


def test_what_comes_in_fills_the_bar(view, width_px):
    *parts, whole = boxes(drawn(view, width_px), "whole")
    length = sum(each.right - each.left for each in parts)
    assert length == pytest.approx(whole.right - whole.left, abs=2.0 * len(parts) * HALF_A_HUNDREDTH_PX)


@given(st.lists(st.floats(1e-3, 1e4), min_size=1, max_size=12))
def test_parts_of_any_masses_lie_end_to_end(masses):
    parts = tuple(Part("place", f"p{at}", mass) for at, mass in enumerate(masses))
    view = Named(Matter(came=(Part("scraps", "", sum(masses)),), became=parts))
    found = parts_of(parts, view, 10.0, 110.0)
    assert found[0].start_px == 10.0
    assert found[-1].end_px == pytest.approx(110.0)
    assert [each.end_px for each in found[:-1]] == [each.start_px for each in found[1:]]


class Named:
    """As much of a view as naming parts needs."""

    def __init__(self, matter):
        self.matter, self.names = matter, {}


def test_no_words_lie_on_others_and_nothing_leaves_the_drawing(view, width_px):
    svg = drawn(view, width_px)
    assert overlaps(svg) == []
    assert outside(svg) == []


def test_words_do_not_lie_on_a_bar(view, width_px):
    svg = drawn(view, width_px)
    shapes = boxes(svg, "step") + boxes(svg, "whole")
    assert not [each.words for each in words_of(svg) for shape in shapes if each.meets(shape)]


def test_words_are_large_enough(view, width_px):
    svg = drawn(view, width_px)
    assert size_of(svg)[0] == width_px
    assert min(float(each.get("font-size")) for each in svg.iter(f"{SVG}text")) >= LEAST_PX


def test_each_destination_is_named_with_its_mass(views, width_px):
    demo = views["demo"]
    words = said(drawn(demo, width_px))
    for each in demo.matter.became:
        assert mass_words(each.mass_kg, demo.speech).replace("\u00a0", " ") in words
    names = {demo.names[each.subject] for each in demo.matter.became if each.what == "place"}
    assert all(each[1:] in words for each in names)
    assert {"Drawn off as liquid", "Gone as gas", "Still held at the end"} <= {row[0] for row in flow_table(demo)}


def test_a_drawing_says_where_most_of_it_goes(view, width_px):
    svg = drawn(view, width_px)
    assert svg.get("role") == "img"
    assert svg.find(f"{SVG}title").text == finding(view)


def test_the_finding_is_a_sentence(views):
    parts = (Part("place", "heap", 60.0), Part("liquid", "", 40.0))
    matter = Matter(came=(Part("scraps", "", 100.0),), became=parts)
    view = replace(views["demo"], matter=matter)
    assert finding(view).replace("\u00a0", " ") == "Of 100 kg in the year, 60 kg (60 %) go to the heap"


def test_colours_are_those_of_the_palette(view, width_px):
    plain = {each for each in colours_of(drawn(view, width_px)) if not each.startswith("url(#")}
    assert plain <= {f"var(--{name}, {value})" for name, value in LIGHT.items()}
    assert not {value for _, value in CABBAGE} & plain


def test_no_two_drawings_of_a_page_share_a_name(views):
    page = flow(views["demo"], width_px=354.0) + flow(views["demo"], width_px=1100.0)
    found = re.findall(r' id="([^"]+)"', page)
    assert len(found) == len(set(found))
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(found)


def test_a_year_without_scraps_says_so(views, width_px):
    empty = replace(views["demo"], matter=Matter(came=(), became=()))
    assert said(drawn(empty, width_px)) == "Nothing comes in this year."


def test_both_halves_of_the_table_have_the_same_sum(view):
    rows = flow_table(view)
    assert {len(row) for row in rows} == {len(COLUMNS)}
    sums = [row[2] for row in rows if row[0].startswith("All that")]
    assert sums == [mass_words(view.matter.whole_kg, view.speech)] * 2
    assert len(rows) == len(view.matter.came) + len(view.matter.became) + 2


@pytest.mark.parametrize(("share", "words"), [(0.004, "under 1 %"), (0.006, "1 %"), (0.586, "59 %"), (1.0, "100 %")])
def test_a_share_in_words(share, words):
    assert share_words(share).replace("\u00a0", " ") == words


@pytest.mark.parametrize(("mass_kg", "words"), [(242.9, "243 kg"), (9.96, "10 kg"), (4.94, "4.9 kg"), (0.83, "830 g")])
def test_a_mass_in_words(mass_kg, words):
    assert mass_words(mass_kg, Speech()).replace("\u00a0", " ") == words
