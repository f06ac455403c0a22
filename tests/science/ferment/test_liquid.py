"""`ensemble.liquid`: what a litre of what ran off holds, and how well it conducts."""

import numpy as np
import pytest

from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.forecast import Limits, forecast
from sourloam.science.ferment.ensemble.liquid import strength
from sourloam.science.ferment.kernel import live_all
from tests.science.ferment.layers import bucket, drawn, laid, living

MEMBERS = 40
WET = {"watermelon-rind": 6.0, "vegetable-scraps": 3.0}


def strong(recipe, **keys):
    filling = bucket([laid(recipe, MEMBERS, **keys)], days=14)
    return strength(follow(drawn(filling, MEMBERS), days_of(filling), compiler=live_all))


def test_salt_makes_it_conduct_more_and_brings_no_nitrogen():
    plain, salted = strong(WET), strong(WET, added=(("salt", 0.1),))
    assert np.all(salted["ec_ds_m"] > plain["ec_ds_m"])
    assert np.median(salted["nitrogen_g_per_l"]) < 1.5 * np.median(plain["nitrogen_g_per_l"])


def test_it_conducts_what_its_potassium_and_sodium_alone_would_at_the_least():
    found = strong(WET)
    alone = 0.6 * found["potassium_g_per_l"] / 39.1 * 73.5  # the cations, thinned by two fifths
    assert np.all(found["ec_ds_m"] > alone)
    assert np.all(found["ec_ds_m"] < 60.0)  # a brine, and no sea


def test_where_nothing_runs_off_nothing_is_said():
    found = strong({"white-bread": 2.0})
    assert all(np.all(np.isinf(each)) for each in found.values())


def test_the_nitrogen_that_left_by_day_ends_with_what_is_in_the_liquid():
    filling = bucket([laid(WET, MEMBERS, laid_d=3.0 * each) for each in range(2)], days=14)
    followed = follow(drawn(filling, MEMBERS), days_of(filling), compiler=live_all)
    told = forecast(followed, filling, living(MEMBERS), Limits(14.0, np.zeros(MEMBERS), has_animal=False))
    course, figure = told.course["nitrogen_loss_pct"], told.figures["nitrogen_loss_pct"]
    assert np.all(np.diff(course.median) >= -1e-9)
    assert course.median[-1] == pytest.approx(np.median(figure.members), rel=1e-6)
