"""`science.places.leachate.feed`: blending against worked examples, and by its own laws."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.parameters import load_parameters
from sourloam.science.places.leachate import feed
from sourloam.science.places.leachate.parameters import LeachateParameters
from tests.published import Published

BLEND = Published(
    "ayers_westcot",
    "share of the first of two waters, 2 and 15 dS/m, for 8 dS/m",
    given=(15.0, 2.0, 8.0),
    want="0.53",
    within=0.01,
    why="7/13 is 0.538, which the example cuts to 0.53",
)
EC = st.floats(3.0, 40.0)


def test_two_waters_blend_in_the_shares_of_the_worked_example():
    parts = feed.parts_of_water(*BLEND.given)
    share = parts / (1.0 + parts)  # of the weaker water
    assert share == pytest.approx(float(BLEND.want), abs=BLEND.within)


@given(EC, st.floats(0.05, 0.7), st.floats(0.8, 2.5))
def test_thinned_so_far_the_feed_is_as_salty_as_was_wanted(liquid, water, wanted):
    parts = feed.parts_of_water(liquid, water, wanted)
    assert feed.mixed_ds_per_m(liquid, water, parts) == pytest.approx(wanted)


@given(EC, EC)
def test_a_stronger_liquid_never_wants_less_water(one, other):
    weak, strong = sorted((one, other))
    assert feed.parts_of_water(strong, 0.4, 1.2) >= feed.parts_of_water(weak, 0.4, 1.2)


def test_water_that_is_too_salty_itself_thins_nothing():
    assert np.isinf(feed.parts_of_water(12.0, 1.6, 1.5))
    assert feed.mixed_ds_per_m(12.0, 1.6, np.inf) == pytest.approx(1.6)


@given(st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_the_liquid_never_weakens_with_the_days(one, other):
    early, late = sorted((one, other))
    assert feed.strength_ds_per_m(15.0, 0.6, late, 7.0) >= feed.strength_ds_per_m(15.0, 0.6, early, 7.0)


@given(st.floats(0.01, 5.0), st.floats(1.0, 1000.0), st.floats(0.1, 3.0))
def test_nothing_of_a_liquid_is_lost_by_thinning(litres, parts, g_per_l):
    poured = feed.feed_l(litres, parts)
    given_g = feed.given_g_per_m2(g_per_l, poured, parts)  # all of it on one square metre
    assert given_g == pytest.approx(feed.held_g(g_per_l, litres), rel=1e-9)


RANGES = [  # what two trials found in the liquid, g/L; "and more" where they say so
    Published("barnes_burt2009", "phosphorus of the liquid, first trial, g/L", given=(0.0,), want="1.4"),
    Published("barnes_burt2009", "phosphorus of the liquid, second trial, g/L", given=(0.0,), want="0.36"),
    Published("barnes_burt2009", "potassium of the liquid, g/L", given=(1.0,), want="2.6"),
    Published("barnes_burt2009", "ammonia of the liquid, g/L", given=(2.0,), want="2.0"),
]


@pytest.mark.parametrize("case", RANGES, ids=str)
def test_what_was_measured_of_the_liquid_lies_within_what_is_reckoned_with(case):
    known = load_parameters(LeachateParameters, "leachate", members=200)
    figure = (known.phosphorus_g_per_l, known.potassium_g_per_l, known.nitrogen_g_per_l)[int(case.given[0])]
    assert figure.low - case.tolerance <= float(case.want) <= figure.high + case.tolerance
