"""A family with two or three buckets: common practice, no source, says two are too few and three are enough."""

import pytest

from sourloam.fleet.cures import with_vessels
from sourloam.fleet.kernel import run
from sourloam.fleet.replicate import Chances, stall_chance
from tests.fleet.sites import question

LIVES = 100  # compiled


def outcomes(kg_per_week, failing_frac=0.05):
    """Return the lives of two and of three vessels of 5 US gal, emptied by a taker, on the same chance."""
    asked = question(
        stream=f'[[stream]]\nid = "kitchen"\namount = "{kg_per_week} kg/week"\n',
        vessel='[[vessel]]\nid = "pail"\ncount = 3\nvolume = "5 gal"\n',
    )
    held = Chances(asked.site, asked.year, asked.situation, 1, failing_frac, run)
    return [[held.outcome(with_vessels(asked.site, count), each) for each in range(LIVES)] for count in (2, 3)]


# From about 3.3 to 5.5 kg a week (300 lives each): two stall in 1.5 % of weeks at 3.5 kg, 3.6 at 4, 12 at 5, 18 at 5.5;
# three in 0.03 % at 4 kg, 0.3 at 5, 0.9 at 5.5.
@pytest.mark.parametrize("kg_per_week", [3.5, 4, 5])
def test_two_stall_in_some_weeks_where_three_hardly_ever_do(kg_per_week):
    two, three = outcomes(kg_per_week)
    assert 0.01 <= stall_chance(two)[0] <= 0.2
    assert stall_chance(three)[0] < 0.01


def test_the_weights_over_which_that_holds_are_those_of_a_family_of_three_or_four():
    """Source: UNEP (2021), Food Waste Index Report: 74 kg for each person at home in a year, the mean of the world."""
    three_people, four_people = (people * 74.0 / 52.18 for people in (3, 4))
    lowest, highest = 3.5, 5.0  # tried above
    assert lowest <= three_people <= highest
    assert four_people == pytest.approx(5.7, abs=0.1)  # there three stall in 0.9 % of weeks and more


@pytest.mark.parametrize("kg_per_week", [3, 6])
def test_a_third_vessel_adds_no_stalled_day_in_any_life(kg_per_week):
    two, three = outcomes(kg_per_week)
    assert all(more.stalled_days <= fewer.stalled_days for fewer, more in zip(two, three, strict=True))
