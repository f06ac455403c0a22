"""`science.places.pile.compose`: the programme against handbook examples, and by its own laws.

The examples give amounts that meet one goal, or both, with two or three
materials; the programme has to find the same where the goals leave no room.
"""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.science.places.pile.compose import Aims, compose, lifted
from sourloam.science.places.pile.stuff import Stuff
from tests.published import Published
from tests.science.places.pile.heaps import P, stuff

WIDE = Aims((1.0, 1000.0), (0.01, 0.99), (0.0, 1.0), 9.0, 1.0, 1.0, 0.0)
USUAL = Aims.of(P, ratio_most=40.0, air=(0.35, 0.65))
OTHERS = {"brown": stuff("dry-leaves"), "green": stuff("grass-clippings"), "water": stuff("water")}

LEAVES = Published("cornell_moisture", "leaves that bring 10 kg of grass to 60 % water", given=(10.0,), want="6.8")
HAY = Published("uc_handout", "hay, scraps and coffee: C:N of the mix", given=(), want="34.7")
UREA = Published("extension_351921", "urea that brings 400 lb of sawdust to C:N 30, lb", given=(400.0,), want="16")
BUCKET = Published("cooperband2002", "9 kg in 20 L: kg/L", given=(9.0, 20.0), want="0.45")
# Worked in the handbook's way from its table (nraes54_recalled): they hold the arithmetic, the table is recalled.
TWO = [
    ("leaves to C:N 30", (10.0, 69, 36.0, 2.4), (38, 48.6, 0.9), 8.333, 0.01),
    ("straw to C:N 30", (10.0, 69, 36.0, 2.4), (12, 56.0, 0.7), 3.623, 0.01),
    ("grass and leaves to C:N 30", (10.0, 77, 45.0, 2.4), (35, 50.0, 0.75), 3.474, 0.01),
]


def plain(name, kg, moisture_pct, carbon_pct, nitrogen_pct, *, most=None):
    dry = 1.0 - moisture_pct / 100.0
    brings = {
        "water": 1.0 - dry,
        "ash": 0.05 * dry,
        "carbon": dry * carbon_pct / 100.0,
        "nitrogen": dry * nitrogen_pct / 100.0,
        "litres": 2.0,
    }
    held = {each: np.array([value]) for each, value in brings.items()}
    return Stuff(name, name, held, kg if most is None else most, kg)


def exactly(*, ratio=None, moisture=None):
    return Aims(
        (ratio, ratio) if ratio else WIDE.ratio,
        (moisture, moisture) if moisture else WIDE.moisture_frac,
        *(getattr(WIDE, each) for each in ("air_frac", "most_kg_per_l", "sour_frac", "blend_frac", "wanted_l")),
    )


def test_leaves_bring_grass_to_its_moisture():
    found = compose(
        [plain("grass", 10.0, 77, 45, 2.4), plain("leaves", 0.0, 35, 50, 0.75, most=1e3)], exactly(moisture=0.60)
    )
    assert found.kg["leaves"] == pytest.approx(float(LEAVES.want), rel=0.02)


@pytest.mark.parametrize(("name", "first", "second", "want", "within"), TWO, ids=[each[0] for each in TWO])
def test_browns_bring_a_green_to_its_ratio(name, first, second, want, within):
    found = compose([plain("a", *first), plain("b", 0.0, *second, most=1e3)], exactly(ratio=30.0))
    assert found.kg["b"] == pytest.approx(want, rel=0.03)


def test_three_materials_meet_both_goals_as_the_two_balances_do():
    """Food waste, leaves and grass to 60 % water and C:N 30: 14.54 and 10.45 kg by the two equations."""
    parts = [plain("food", 10.0, 69, 36.0, 2.4), plain("leaves", 0.0, 38, 48.6, 0.9, most=1e3)]
    parts.append(plain("grass", 0.0, 82, 57.8, 3.4, most=1e3))
    found = compose(parts, exactly(ratio=30.0, moisture=0.60))
    assert found.kg["leaves"] == pytest.approx(14.54, rel=0.04)
    assert found.kg["grass"] == pytest.approx(10.45, rel=0.05)
    assert not found.missed


def test_goals_that_cannot_be_met_together_are_said_to_be_missed():
    """Food waste, straw and leaves to 55 % and C:N 30 would ask for straw of less than nothing."""
    parts = [plain("food", 10.0, 69, 36.0, 2.4), plain("straw", 0.0, 12, 56.0, 0.7, most=1e3)]
    parts.append(plain("leaves", 0.0, 38, 48.6, 0.9, most=1e3))
    found = compose(parts, exactly(ratio=30.0, moisture=0.57))
    assert found.missed
    assert min(found.kg.values()) >= 0.0


def test_the_handout_of_hay_scraps_and_coffee_comes_to_its_ratio():
    parts = [plain("hay", 50.0, 0, 40, 1.0), plain("scraps", 10.0, 0, 10, 1.0), plain("coffee", 2.0, 0, 25, 1.0)]
    whole = compose(parts, WIDE).whole
    assert whole["carbon"] / whole["nitrogen"] == pytest.approx(float(HAY.want), abs=HAY.tolerance)


def test_urea_brings_sawdust_to_its_ratio():
    parts = [plain("sawdust", 400.0, 0, 60, 0.15), plain("urea", 0.0, 0, 0, 46, most=1e3)]
    assert compose(parts, exactly(ratio=30.0)).kg["urea"] == pytest.approx(float(UREA.want), rel=0.05)


def test_a_bucket_weighs_what_its_density_gives():
    whole = compose([plain("a", 9.0, 50, 45, 1)], WIDE).whole
    assert whole["one"] / 20.0 == pytest.approx(float(BUCKET.want), abs=BUCKET.tolerance)


def test_water_moves_no_ratio():
    dry, wet = ([plain("hay", 10.0, 12, 45, 1.5)], [plain("hay", 10.0, 12, 45, 1.5), plain("water", 5.0, 100, 0, 0)])
    one, two = (compose(each, WIDE).whole for each in (dry, wet))
    assert one["carbon"] / one["nitrogen"] == pytest.approx(two["carbon"] / two["nitrogen"])


@settings(max_examples=25, deadline=None)
@given(sour=st.floats(1.0, 60.0), leaves=st.floats(0.0, 150.0), grass=st.floats(0.0, 150.0))
def test_no_more_goes_in_than_there_is_and_all_of_the_batch_does(sour, leaves, grass):
    parts = [stuff("mixed-household-scraps", sour, sour), stuff("dry-leaves", leaves), stuff("grass-clippings", grass)]
    found = compose([*parts, stuff("water")], USUAL)
    assert found.kg["mixed-household-scraps"] == pytest.approx(sour)
    assert found.kg.get("dry-leaves", 0.0) <= leaves + 1e-6
    assert found.kg.get("grass-clippings", 0.0) <= grass + 1e-6


@settings(max_examples=15, deadline=None)
@given(sour=st.floats(5.0, 60.0), leaves=st.floats(0.5, 10.0))
def test_with_what_is_short_nothing_is_missed(sour, leaves):
    parts = [stuff("mixed-household-scraps", sour, sour), stuff("dry-leaves", leaves), stuff("water")]
    made = compose(parts, USUAL)
    wider = lifted(made, parts, OTHERS)
    found = compose(
        wider,
        Aims(
            *(
                getattr(USUAL, each)
                for each in ("ratio", "moisture_frac", "air_frac", "most_kg_per_l", "sour_frac", "blend_frac")
            ),
            0.0,
        ),
    )
    assert found.is_met


def test_nothing_is_no_pile():
    with pytest.raises(ValueError, match="made of something"):
        compose([], USUAL)
