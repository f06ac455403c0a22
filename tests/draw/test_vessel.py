"""`draw.vessel`: the body holds what it is said to hold, and each thing in it lies as high as it is."""

import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.draw.canvas import drawing
from sourloam.draw.vessel import DRUM_FROM_L, body_of, matter_patterns, rim_px, section, top_px
from sourloam.plan.shelf import Layer, OnShelf
from tests.draw.geometry import SVG, outside, shapes_of

PX_PER_M = 500.0
FOOT = (200.0, 400.0)
LAYER = Layer(date(2027, 4, 1), 3.0, 0.06, 4.0)
SLICES = 4000


def vessel_of(volume_l, *, ratio=1.2, **changes):
    width_m = (4.0 * volume_l / 1000.0 / (math.pi * ratio)) ** (1.0 / 3.0)
    held = OnShelf(
        vessel="v",
        volume_l=volume_l,
        width_m=width_m,
        height_m=ratio * width_m,
        below_grid_l=volume_l / 12.0,
        fill_limit_frac=0.9,
        has_drain=True,
        stands="kitchen",
        phase="fermenting",
        batch="v/1",
        mass_kg=3.0,
        liquid_l=0.0,
        ready=None,
        layers=(),
    )
    return replace(held, **changes)


def drawn(vessel, px_per_m=PX_PER_M):
    cut = section(vessel, FOOT, px_per_m=px_per_m, key="k")
    return ET.fromstring(drawing((400.0, 420.0), matter_patterns("k"), cut, title="t", desc="d", key="k"))


def level_lines(svg, **wanted):
    """Return the heights above the floor, in metres, of level lines with given attributes, from below."""
    found = [
        (FOOT[1] - float(each.get("y1"))) / PX_PER_M
        for each in svg.iter(f"{SVG}line")
        if each.get("y1") == each.get("y2") and all(each.get(name) == value for name, value in wanted.items())
    ]
    return sorted(found)


VOLUMES = st.floats(1.0, 250.0)


@given(volume_l=VOLUMES, ratio=st.floats(0.6, 2.5), part=st.floats(0.0, 1.0))
def test_what_lies_below_a_height_is_what_the_body_holds_there(volume_l, ratio, part):
    body = body_of(vessel_of(volume_l, ratio=ratio))
    height = body.height_of(part * volume_l)
    slices = (math.pi / 4.0 * body.width_at(height * (each + 0.5) / SLICES) ** 2 for each in range(SLICES))
    assert 1000.0 * sum(slices) * height / SLICES == pytest.approx(part * volume_l, rel=1e-6, abs=1e-9)


@given(volume_l=VOLUMES)
def test_a_full_body_is_as_high_as_the_vessel(volume_l):
    vessel = vessel_of(volume_l)
    assert body_of(vessel).height_of(volume_l) == pytest.approx(vessel.height_m)


def test_a_bucket_widens_upward_and_a_drum_does_not():
    bucket, drum = body_of(vessel_of(20.0)), body_of(vessel_of(DRUM_FROM_L))
    assert bucket.rim_m > bucket.floor_m
    assert drum.rim_m == drum.floor_m


def test_the_level_is_as_high_as_all_that_lies_below_it():
    vessel = vessel_of(20.0, layers=(LAYER, replace(LAYER, litres=2.5), LAYER))
    (level,) = level_lines(drawn(vessel), **{"stroke-width": "1.6"})
    assert level == pytest.approx(body_of(vessel).height_of(20.0 / 12.0 + 10.5), abs=1e-4)


@pytest.mark.parametrize("layers", range(5))
def test_there_is_bran_between_layers_and_only_there(layers):
    vessel = vessel_of(20.0, layers=(LAYER,) * layers)
    dotted = level_lines(drawn(vessel), **{"stroke-linecap": "round"})
    body = body_of(vessel)
    tops = [body.height_of(20.0 / 12.0 + 4.0 * each) for each in range(1, layers)]
    assert len(dotted) == len(tops)
    assert all(0.0 < top - dots < 0.006 for top, dots in zip(tops, dotted, strict=True))


def test_many_thin_layers_keep_their_order():
    vessel = vessel_of(20.0, layers=(replace(LAYER, litres=0.2),) * 70)
    dotted = level_lines(drawn(vessel), **{"stroke-linecap": "round"})
    assert len(set(dotted)) == 69


def test_liquid_stands_below_the_grid_to_its_height():
    vessel = vessel_of(20.0, liquid_l=1.2)
    body = body_of(vessel)
    (surface,) = level_lines(drawn(vessel), **{"stroke-width": "1", "stroke": "var(--leachate-line, #7a5006)"})
    (grid,) = level_lines(drawn(vessel), **{"stroke-dasharray": "4 2.4"})
    assert surface == pytest.approx(body.height_of(1.2), abs=1e-4)
    assert grid == pytest.approx(body.height_of(20.0 / 12.0), abs=1e-4)


@pytest.mark.parametrize(
    ("has_drain", "below_l", "liquid_l", "standing"),
    [(True, 2.0, 1.9, 0), (True, 2.0, 3.0, 1), (False, 0.0, 1.0, 1), (False, 0.0, 0.0, 0)],
)
def test_liquid_among_the_scraps_has_a_thick_level(has_drain, below_l, liquid_l, standing):
    vessel = vessel_of(20.0, has_drain=has_drain, below_grid_l=below_l, liquid_l=liquid_l, layers=(LAYER,))
    assert len(level_lines(drawn(vessel), **{"stroke-width": "3"})) == standing


def test_only_a_vessel_with_a_drain_has_a_tap_and_a_grid():
    dry, drained = drawn(vessel_of(20.0, has_drain=False, below_grid_l=0.0)), drawn(vessel_of(20.0))
    paths = [len(list(each.iter(f"{SVG}path"))) for each in (dry, drained)]
    assert paths[1] - paths[0] == 2  # spout and handle
    assert [len(level_lines(each, **{"stroke-dasharray": "4 2.4"})) for each in (dry, drained)] == [0, 1]


@pytest.mark.parametrize("phase", ["empty", "filling", "fermenting", "ready"])
@pytest.mark.parametrize("px_per_m", [260.0, 700.0])
def test_lid_and_flag_stay_within_the_height_and_width_that_are_told(phase, px_per_m):
    vessel = vessel_of(20.0, phase=phase, layers=(LAYER,))
    boxes = shapes_of(drawn(vessel, px_per_m))
    assert min(each.top for each in boxes) >= FOOT[1] - top_px(vessel, px_per_m)
    half = rim_px(vessel, px_per_m) / 2.0
    assert min(each.left for each in boxes) >= FOOT[0] - half - 1.01  # a clasp goes round the lid
    assert not outside(drawn(vessel, px_per_m))


def test_every_phase_has_another_lid():
    shapes = {phase: lid(phase) for phase in ("empty", "filling", "fermenting", "ready")}
    assert len(set(shapes.values())) == 4


def lid(phase):
    """Return what is drawn at or over the rim, by kind of shape."""
    vessel = vessel_of(20.0, phase=phase)
    rim = FOOT[1] - vessel.height_m * PX_PER_M
    return tuple(sorted(each.words for each in shapes_of(drawn(vessel)) if each.top < rim - 0.5))
