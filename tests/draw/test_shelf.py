"""`draw.shelf`: the vessels of a day, to one scale, calm whatever they are called and however many there are."""

import re
from dataclasses import replace
from datetime import date

import pytest

from sourloam.draw.palette import CABBAGE, LIGHT
from sourloam.draw.shelf import COLUMNS, shelf, shelf_table
from sourloam.draw.shelf_words import finding
from tests.draw.geometry import SVG, colours_of, drawings, outside, overlaps, shapes_of, size_of, words_of

LEAST_PX = 13.0
SHOWN_PX = {3: 354.0, 10: 1100.0}
SIZES_L = (5.0, 20.0, 20.0, 60.0, 250.0)
PHASES = ("fermenting", "filling", "ready", "fermenting", "empty")


@pytest.fixture(params=[3, 10], ids=["phone", "table"])
def per_board(request):
    return request.param


def drawn(view, per_board):
    (svg,) = drawings(shelf(view, per_board=per_board))
    return svg


def said(svg):
    return " ".join(" ".join(each.words.split()) for each in words_of(svg))


def with_vessels(view, vessels):
    return replace(view, shelf=replace(view.shelf, vessels=tuple(vessels)))


def crowd(view, count, sizes=SIZES_L):
    """Return a shelf of vessels of all sizes and states, named as those of the view."""
    kinds = view.shelf.vessels
    return with_vessels(view, (one(kinds[at % len(kinds)], at, sizes[at % len(sizes)]) for at in range(count)))


def one(vessel, at, volume_l):
    times, phase = volume_l / vessel.volume_l, PHASES[at % len(PHASES)]
    return replace(
        vessel,
        volume_l=volume_l,
        width_m=vessel.width_m * times ** (1.0 / 3.0),
        height_m=vessel.height_m * times ** (1.0 / 3.0),
        below_grid_l=vessel.below_grid_l * times,
        phase=phase,
        ready=date(2027, 4, 11) if phase == "ready" else None,
        layers=() if phase == "empty" else tuple(replace(each, litres=each.litres * times) for each in vessel.layers),
        mass_kg=0.0 if phase == "empty" else vessel.mass_kg * times,
    )


@pytest.fixture(params=[0, 1, 2, 5, 10, 14, 30])
def crowded(request, view):
    return crowd(view, request.param)


def test_no_words_lie_on_others(view, per_board):
    assert overlaps(drawn(view, per_board)) == []


def test_nothing_leaves_the_drawing(view, per_board):
    assert outside(drawn(view, per_board)) == []


def test_a_crowd_stays_calm(crowded, per_board):
    svg = drawn(crowded, per_board)
    assert overlaps(svg) == []
    assert outside(svg) == []


@pytest.mark.parametrize("sizes", [(20.0,), (20.0, 60.0), tuple(float(each) for each in range(5, 40))], ids=len)
def test_a_crowd_of_any_sizes_stays_calm(views, per_board, sizes):
    svg = drawn(crowd(views["long_names"], 14, sizes), per_board)
    assert overlaps(svg) == []
    assert outside(svg) == []


def test_no_vessel_stands_in_another(crowded, per_board):
    walls = walls_of(drawn(crowded, per_board))
    assert not [(one, other) for at, one in enumerate(walls) for other in walls[at + 1 :] if one.meets(other)]


def test_words_are_not_drawn_on_what_a_vessel_holds(crowded, per_board):
    svg = drawn(crowded, per_board)
    held = [box for each in svg.iter(f"{SVG}polygon") if "url(" in each.get("fill") for box in shapes_of(each)]
    assert not [(each.words, box) for each in words_of(svg) for box in held if each.meets(box)]


def walls_of(svg):
    return [box for each in svg.iter(f"{SVG}polyline") for box in shapes_of(each)]


def test_all_vessels_stand_to_one_scale(crowded, per_board):
    heights = [each.height_m for each in crowded.shelf.vessels]
    walls = walls_of(drawn(crowded, per_board)) if heights else []
    scales = {
        round((wall.bottom - wall.top) / height) for wall, height in zip(walls, sorted_as(walls, heights), strict=True)
    }
    assert len(scales) <= 1


def sorted_as(walls, heights):
    """Return heights in the order of the walls; from eleven vessels on they are sorted by size."""
    if len(heights) < 11:
        return heights
    ranks = sorted(range(len(walls)), key=lambda at: walls[at].bottom - walls[at].top)
    by_rank = dict(zip(ranks, sorted(heights), strict=True))
    return [by_rank[at] for at in range(len(walls))]


def test_the_rule_is_to_the_scale_of_the_vessels(view, per_board):
    svg = drawn(view, per_board)
    numbers, apart_m = ({"6", "12"}, 0.1524) if view.speech.is_us else ({"10", "20"}, 0.1)
    marks = [each for each in words_of(svg) if each.words in numbers]
    wall = walls_of(svg)[0]
    apart_px = marks[0].bottom - marks[1].bottom
    wanted = (wall.bottom - wall.top) / view.shelf.vessels[0].height_m * apart_m
    assert apart_px == pytest.approx(wanted, rel=1e-3)


def test_words_are_large_enough(view, per_board):
    svg = drawn(view, per_board)
    assert size_of(svg)[0] == SHOWN_PX[per_board]
    assert min(float(each.get("font-size")) for each in svg.iter(f"{SVG}text")) >= LEAST_PX


def test_ten_stand_on_one_board_at_a_table_and_three_on_a_phone(views):
    shelf_of_ten = crowd(views["demo"], 10, (20.0,))
    assert [boards_of(drawn(shelf_of_ten, each)) for each in (3, 10)] == [4, 1]


def test_more_than_ten_stand_on_boards_of_one_size_with_their_count(views):
    svg = drawn(crowd(views["demo"], 14, (20.0, 60.0)), 10)
    assert boards_of(svg) == 2
    assert "Seven of 20 L, full at 18 L" in said(svg)
    assert "Seven of 60 L, full at 54 L" in said(svg)


def boards_of(svg):
    return sum(each.get("stroke") == f"var(--board, {LIGHT['board']})" for each in svg.iter(f"{SVG}line"))


def test_each_vessel_has_its_state_one_date_and_its_mass(view, per_board):
    words = said(drawn(view, per_board))
    for each in view.shelf.vessels:
        assert each.phase in words
        assert not each.mass_kg or view.speech.kg(each.mass_kg) in words


def test_a_forecast_has_its_interval_and_a_decision_has_none(views):
    words = said(drawn(views["demo"], 10))
    batches = {each.id: each for each in views["demo"].batches}
    held = {each.phase: batches[each.batch] for each in views["demo"].shelf.vessels}
    assert f"ready about {held['fermenting'].ready.day} " in words
    assert f"({held['fermenting'].ready_low.day} " in words
    flat = views["flat"]
    (only,) = flat.shelf.vessels
    sealed_on = next(each.sealed for each in flat.batches if each.id == only.batch)
    assert only.phase == "filling"
    assert f"seal {sealed_on.day} " in said(drawn(flat, 10))


def test_a_long_name_is_cut_after_two_lines_and_kept_whole_for_who_asks(views):
    view = views["long_names"]
    svg = drawn(view, 3)
    whole = next(name for each in view.shelf.vessels if len(name := view.names[each.vessel]) > 40)
    assert whole in [each.text for each in svg.iter(f"{SVG}title")]


def test_a_drawing_says_what_is_so(view, per_board):
    svg = drawn(view, per_board)
    assert svg.get("role") == "img"
    assert svg.find(f"{SVG}title").text == finding(view)
    assert all(view.names[each.vessel] in svg.find(f"{SVG}desc").text for each in view.shelf.vessels)


def test_the_finding_counts(views):
    demo = views["demo"]
    four = [replace(demo.shelf.vessels[0], phase=each) for each in ("filling", "fermenting", "fermenting", "empty")]
    day = "On 1 May "
    on = replace(demo, shelf=replace(demo.shelf, on=date(2027, 5, 1)))
    found = [finding(with_vessels(on, vessels)).replace("\u00a0", " ") for vessels in (four, four[:1], four[3:])]
    assert found == [
        day + "three of four vessels are in use: one filling, two fermenting",
        day + "the one vessel is filling",
        day + "all vessels are empty",
    ]


def test_nothing_says_how_sour_it_is(view, per_board):
    svg = drawn(view, per_board)
    assert "how sour: not computed yet" in said(svg)
    allowed = {f"var(--{name}, {value})" for name, value in LIGHT.items()}
    plain = {each for each in colours_of(svg) if not each.startswith("url(#")}
    assert plain <= allowed
    assert not {value for _, value in CABBAGE} & plain


def test_no_two_drawings_of_a_page_share_a_name(views):
    page = shelf(views["demo"], per_board=3) + shelf(views["demo"], per_board=10)
    found = re.findall(r' id="([^"]+)"', page)
    assert len(found) == len(set(found))
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(found)


def test_an_empty_shelf_says_so(views, per_board):
    words = said(drawn(with_vessels(views["demo"], ()), per_board))
    assert words == "Nothing on the shelf yet. Add the first vessel."


def test_the_table_has_a_row_for_each_vessel(view):
    rows = shelf_table(view)
    assert [row[0] for row in rows] == [view.names[each.vessel] for each in view.shelf.vessels]
    assert {len(row) for row in rows} == {len(COLUMNS)}
    assert [row[1] for row in rows] == [each.phase for each in view.shelf.vessels]
