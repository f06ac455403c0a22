"""`fleet.chance` and `fleet.replicate`: what chance draws, and what lives on it must keep."""

import numpy as np
import pytest
from scipy import stats

from sourloam.fleet.chance import gamma_table, log_sd_of, stream_of, uneven_days
from sourloam.fleet.cures import with_vessels
from sourloam.fleet.replicate import Chances
from tests.fleet.sites import question


@pytest.mark.parametrize("shape", [1.0, 2.04, 30.0])
def test_the_table_of_a_gamma_law_is_that_of_a_general_library(shape):
    shares, values = gamma_table(shape)
    assert values == pytest.approx(stats.gamma.ppf(shares, shape, scale=1.0 / shape), rel=0.01, abs=0.002)


def test_days_have_the_mean_the_scatter_and_the_memory_that_were_asked_for():
    days = uneven_days(2.0, 0.3, days=200_000, stream=stream_of(1, 0, "kitchen"))
    assert days.mean() == pytest.approx(1.0, abs=0.01)
    assert days.std() == pytest.approx(np.sqrt(0.5), abs=0.01)
    assert np.corrcoef(days[1:], days[:-1])[0, 1] == pytest.approx(0.3, abs=0.03)


def test_the_scatter_of_a_logarithm_is_that_of_its_ninety_percent_interval():
    assert stats.lognorm(log_sd_of(6.0, 12.0)).interval(0.9)[1] == pytest.approx(np.sqrt(2.0))


def chances(failing_frac=0.2, **tables):
    asked = question(**tables)
    return Chances(asked.site, asked.year, asked.situation, 7, failing_frac)


def test_a_life_is_the_same_whichever_was_lived_before():
    one, other = chances(), chances()
    later = one.outcome(one.site, 3)
    for number in (0, 1, 2):
        other.outcome(other.site, number)
    assert other.outcome(other.site, 3) == later


def test_litres_in_are_placed_in_stock_failed_or_turned_away():
    held = chances()
    for number in range(5):  # each day is checked where it is lived; here the year is added up once more
        life = held.live(held.site, number)
        gone = sum(each.placed_l + each.failed_l + each.turned_away_l for each in life.days)
        assert sum(each.scraps_l for each in life.days) == pytest.approx(gone + life.days[-1].held_l)
    assert sum(each.failed_l for each in life.days) > 0.0


def test_more_vessels_stall_no_oftener_in_the_mean():
    held = chances(vessel='[[vessel]]\nid = "pail"\ncount = 1\nvolume = "20 L"\n')
    stalled = [
        sum(held.outcome(with_vessels(held.site, count), number).stalled_days for number in range(10))
        for count in (1, 2, 4)
    ]
    assert stalled[0] > stalled[1] >= stalled[2]
