"""`ensemble.liquid`: what a litre of what ran off holds, and how well it conducts."""

import numpy as np

from sourloam.science.ferment.ensemble.follow import days_of, follow
from sourloam.science.ferment.ensemble.liquid import strength
from sourloam.science.ferment.kernel import live_all
from tests.science.ferment.layers import bucket, drawn, laid

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
