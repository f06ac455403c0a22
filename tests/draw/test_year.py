"""`draw.year_wide`, `year_tall` and `year_table`: what they say, where it lies, and that nothing lies on anything."""

import re
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.days import MONTHS, Span
from sourloam.draw.palette import CABBAGE, LIGHT
from sourloam.draw.scale import TimeScale, day_words
from sourloam.draw.year import Frame, Rest, bag, lanes, lots, placed, places, resting, spread, stall_words
from sourloam.draw.year_shapes import rest_strokes
from sourloam.draw.year_table import COLUMNS, year_table
from sourloam.draw.year_tall import year_tall
from sourloam.draw.year_wide import year_wide
from tests.draw.geometry import SVG, colours_of, drawings, outside, overlaps, shapes_of, size_of, words_of

LEAST_PX = 13.0
LEAST_PT = 8.0
NARROWEST_TABLE_PX = 820.0  # what is left of 900 beside the margins
PAPER_PX = 688.0  # A4 between its margins, at 96 to the inch
PHONE_PX = 354.0  # 390 less its margins
PX_PER_PT = 96.0 / 72.0


@pytest.fixture(params=[year_wide, year_tall], ids=["wide", "tall"])
def draw(request):
    return request.param


def said(svg):
    return " ".join(" ".join(each.words.split()) for each in words_of(svg))


def test_no_words_lie_on_others(view, draw):
    today = view.first + timedelta(days=97)
    assert [pair for svg in drawings(draw(view, today=today)) for pair in overlaps(svg)] == []


def test_nothing_leaves_the_drawing(view, draw):
    today = view.last
    assert [each for svg in drawings(draw(view, today=today)) for each in outside(svg)] == []


@pytest.mark.parametrize(("make", "shown_px"), [(year_wide, NARROWEST_TABLE_PX), (year_tall, PHONE_PX)])
def test_words_are_large_enough_after_scaling(view, make, shown_px):
    for svg in drawings(make(view)):
        times = shown_px / size_of(svg)[0]
        assert min(float(each.get("font-size")) for each in svg.iter(f"{SVG}text")) * times >= LEAST_PX


def test_words_are_large_enough_on_paper(view):
    (svg,) = drawings(year_wide(view))
    times = PAPER_PX / size_of(svg)[0]
    assert min(float(each.get("font-size")) for each in svg.iter(f"{SVG}text")) * times / PX_PER_PT >= LEAST_PT


def test_a_drawing_says_its_finding_to_who_does_not_see_it(view, draw):
    first = drawings(draw(view))[0]
    assert first.get("role") == "img"
    assert first.find(f"{SVG}title").text == view.summary[0]
    assert view.site in first.find(f"{SVG}desc").text


def test_no_two_drawings_of_a_page_share_a_name(view):
    found = re.findall(r' id="([^"]+)"', year_wide(view) + year_tall(view))
    assert len(found) == len(set(found))
    used = set(re.findall(r"url\(#([^)]+)\)", year_wide(view) + year_tall(view)))
    assert used <= set(found)


def test_colours_are_those_of_the_palette_and_none_says_how_sour_it_is(view, draw):
    allowed = {f"var(--{name}, {value})" for name, value in LIGHT.items()}
    sour = {value for _, value in CABBAGE}
    for svg in drawings(draw(view)):
        plain = {each for each in colours_of(svg) if not each.startswith("url(#")}
        assert plain <= allowed
        assert not plain & sour
    assert "not computed yet" in draw(view)


def test_every_month_stands_over_or_beside_the_year(view, draw):
    for svg in drawings(draw(view)):
        assert set(MONTHS) <= {each.words for each in words_of(svg)}
        assert {str(view.first.year), str(view.last.year)} & {each.words for each in words_of(svg)}


def test_every_crop_and_every_lot_of_bran_is_named(views, draw):
    view = views["demo"]
    words = " ".join(said(svg) for svg in drawings(draw(view)))
    for crop in (crop for each in view.ground for crop, _, _ in each.plantings):
        assert crop in words
    for lot in lots(view):
        assert day_words(lot.begin).replace("\u00a0", " ") in words
        assert day_words(lot.dry).replace("\u00a0", " ") in words


def test_frozen_and_closed_ground_have_their_word(views, draw):
    assert "closed" in " ".join(said(svg) for svg in drawings(draw(views["demo"])))
    assert "frozen" in " ".join(said(svg) for svg in drawings(draw(views["many"])))


def test_a_crop_that_comes_too_soon_has_a_word_and_not_only_a_colour(views, draw):
    assert "too soon" in " ".join(said(svg) for svg in drawings(draw(views["too_soon"])))
    assert "too soon" not in draw(views["demo"])


def test_a_stall_has_its_days_and_a_year_without_one_has_no_row_for_it(views, draw):
    stalled = views["demo"]
    assert "No room" in said(drawings(draw(stalled))[0])
    assert "No room" not in draw(replace(stalled, stalls=()))


def test_the_longest_stall_is_named_with_what_binds(views):
    view = views["demo"]
    stall = max(view.stalls, key=lambda each: each.last - each.first)
    span, words = stall_words(view)
    assert Span(stall.first, stall.last) == span
    assert words.endswith(("all vessels full", "no place free"))


def test_today_is_named_only_if_it_lies_in_the_year(views, draw):
    view = views["demo"]
    inside, beyond = view.first + timedelta(days=40), view.last + timedelta(days=1)
    assert "today" in said(drawings(draw(view, today=inside))[0])
    assert draw(view, today=beyond) == draw(view)


def test_a_name_with_signs_of_markup_is_shown_as_it_was_written(views, draw):
    view = replace(views["flat"], names=dict.fromkeys(views["flat"].names, "<b>&"))
    assert "<b>&" in said(drawings(draw(view))[0])


def test_a_band_begins_on_the_day_of_its_first_layer_and_ends_where_its_vessel_is_empty(views):
    view = views["flat"]
    time = TimeScale(view.first, view.last, 146.0, 874.0)
    first, second, *_ = view.batches
    lines = [each for each in shapes_of(drawings(year_wide(view))[0]) if each.words == "polyline"]
    ends = {(round(each.left, 1), round(each.right, 1)) for each in lines}
    assert (round(time.at(first.first_layer), 1), round(time.at(first.placed), 1)) in ends
    assert (round(time.at(second.first_layer), 1), round(time.at(second.placed), 1)) in ends


def test_a_phone_gets_at_most_eight_columns_in_a_drawing_and_as_many_drawings_as_it_takes(views):
    assert len(drawings(year_tall(views["flat"]))) == 1
    assert len(drawings(year_tall(views["many"]))) > len(drawings(year_tall(views["demo"])))


def test_a_month_on_the_phone_is_60_to_70_px_long(view):
    for svg in drawings(year_tall(view)):
        heights = [
            each.top for each in shapes_of(svg) if each.words == "line" and (each.left, each.right) == (0.0, PHONE_PX)
        ]
        whole = [after - before for before, after in pairwise(sorted(set(heights)))][1:-1]
        assert all(58.0 < each < 70.0 for each in whole)
        assert 60.0 < sum(whole) / len(whole) < 70.0


def test_rest_shrinks_to_nothing_on_the_day_the_ground_may_be_used(views):
    view = views["demo"]
    time = TimeScale(view.first, view.last, 0.0, 365.0 * 2.0)
    rest = Rest(view.first, view.first + timedelta(days=20), 5.0)
    drawn = rest_strokes((rest,), Frame(time, 100.0, 40.0), px_per_day=2.0)
    strokes = [tuple(float(part) for part in each) for each in re.findall(r"M([\d.]+) ([\d.]+)V([\d.]+)", drawn)]
    heights = [base - top for _, base, top in strokes]
    assert strokes[0][0] == 0.0
    assert heights[0] == pytest.approx(40.0)
    assert heights == sorted(heights, reverse=True)
    assert max(x for x, _, _ in strokes) < time.at(rest.usable_on)


def test_ground_that_gets_two_batches_rests_until_the_later_one_is_through(views):
    first = views["demo"].first
    one = Rest(first, first + timedelta(days=20), 5.0)
    other = Rest(first + timedelta(days=8), first + timedelta(days=30), 5.0)
    left = dict(resting((one, other)))
    assert left[first] == 20
    assert left[first + timedelta(days=8)] == 22
    assert left[first + timedelta(days=29)] == 1
    assert first + timedelta(days=30) not in left


def test_small_parts_of_a_batch_have_no_mark_but_a_row_in_the_table(views):
    view = views["demo"]
    batch = next(each for each in view.batches if len(each.placings) > 1 and each.placings[0].mass_kg < 1.0)
    small = batch.placings[0]
    assert small.place not in {place for _, place in placed(batch)}
    name = view.names[small.place]
    assert any(row[3].endswith(f"to {name}") for row in year_table(view))


def test_the_table_has_a_row_for_everything_that_is_drawn(view):
    rows = year_table(view)
    assert {len(each) for each in rows} == {len(COLUMNS)}
    fillings = [each for each in rows if each[3].startswith("filling")]
    assert len(fillings) == len(view.batches)
    handed = [each for each in rows if re.search(r"^[\d.]+ (?:k?g|lb|oz) to ", each[3])]
    assert len(handed) == sum(len(each.placings) for each in view.batches)
    assert sum(each[3].split(";")[0].endswith(" is planted") for each in rows) == sum(
        len(each.plantings) for each in view.ground
    )
    assert sum(each[0] == "No room" for each in rows) == len(view.stalls)
    assert sum(each[3] in {"closed", "frozen"} for each in rows) == len(view.closed) + len(view.frozen)


def test_a_place_that_got_nothing_is_drawn_only_if_it_is_a_bed(views):
    shown = {each.id: each.ground for each in places(views["demo"])}
    assert all(ground.kind == "bed" or ground.got_kg > 0.0 for ground in shown.values())
    assert {each.place for each in views["demo"].ground if each.kind == "bed"} <= set(shown)


def test_the_saw_keeps_every_day_on_which_the_bag_changes(view):
    every, kept = dict(view.bran_on_hand), dict(bag(view))
    for (_, before), (on, after) in pairwise(view.bran_on_hand):
        if abs(before - after) > 1e-9:
            assert kept[on] == after
    assert kept.items() <= every.items()


@given(st.lists(st.tuples(st.floats(0.0, 800.0), st.floats(1.0, 120.0)), max_size=25))
def test_lanes_hold_words_that_do_not_touch(pairs):
    spans = [(start, start + width) for start, width in pairs]
    found = lanes(spans, gap=8.0)
    for at, (one, lane) in enumerate(zip(spans, found, strict=True)):
        for other, other_lane in list(zip(spans, found, strict=True))[:at]:
            assert lane != other_lane or one[1] + 8.0 <= other[0] or other[1] + 8.0 <= one[0]


@given(st.lists(st.floats(0.0, 800.0), min_size=1, max_size=25))
def test_marks_that_are_spread_keep_their_order_and_their_distance(wanted):
    found = spread(sorted(wanted), gap=21.0, last=900.0)
    assert all(after - before >= 21.0 - 1e-9 for before, after in pairwise(found))
    assert found[-1] <= 900.0
    if len(found) == 1:
        assert found[0] == wanted[0]
