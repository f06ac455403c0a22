"""`science.places.pile.sanitation`: each rule at its boundary, and the holding times that a rule prints."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.evidence.rules import load_sanitation_rules
from sourloam.science.places.pile.sanitation import ZONES, Logged, judged, likely
from tests.published import Published

RULES = {each.id: each for each in load_sanitation_rules()}
NOP, PSRP, PFRP = (RULES[each] for each in ("USNOP-WINDROW", "US503-PSRP", "US503-PFRP-WINDROW"))
FIVE_TURNS = [48.0, 96.0, 144.0, 240.0, 300.0]
HOLDING = [  # cfr503_32: days = 131 700 000 / 10^(0.14 T), and 50 070 000 for thin sludge; worked from the printed rule
    Published("cfr503_32", "solids, 55 °C, days", given=(55.0,), want="2.63"),
    Published("cfr503_32", "solids, 50 °C, days", given=(50.0,), want="13.17"),
]


def logged(hours, celsius, every=12.0, zones=ZONES):
    count = round(hours / every)
    return [Logged(every * step, zone, celsius) for step in range(count + 1) for zone in zones]


@pytest.mark.parametrize("case", HOLDING, ids=str)
def test_the_printed_formula_gives_its_holding_time(case):
    assert RULES["US503-TT-SOLIDS"].hours_at(*case.given) / 24.0 == pytest.approx(float(case.want), abs=case.tolerance)


def test_no_holding_time_is_shorter_than_twenty_minutes():
    assert RULES["US503-TT-SOLIDS"].hours_at(75.0) == pytest.approx(1.0 / 3.0)


@pytest.mark.parametrize(
    ("celsius", "hours", "turned", "ratio", "met"),
    [
        (55.0, 360.0, FIVE_TURNS, 30.0, True),
        (54.9, 360.0, FIVE_TURNS, 30.0, False),
        (55.0, 348.0, FIVE_TURNS, 30.0, False),
        (55.0, 360.0, FIVE_TURNS[:4], 30.0, False),
        (55.0, 360.0, [*FIVE_TURNS[:4], 372.0], 30.0, False),  # the fifth after the fifteen days
        (76.7, 360.0, FIVE_TURNS, 30.0, True),
        (76.8, 360.0, FIVE_TURNS, 30.0, False),
        (55.0, 360.0, FIVE_TURNS, 25.0, True),
        (55.0, 360.0, FIVE_TURNS, 24.9, False),
        (55.0, 360.0, FIVE_TURNS, None, False),
    ],
)
def test_fifteen_days_with_five_turnings_at_their_boundaries(celsius, hours, turned, ratio, met):
    assert judged(NOP, logged(hours, celsius), turned, ratio=ratio).is_met is met


@pytest.mark.parametrize("zone", ZONES)
def test_one_zone_without_a_reading_is_enough_to_fail(zone):
    others = tuple(each for each in ZONES if each != zone)
    found = judged(PFRP, logged(360.0, 60.0, zones=others), FIVE_TURNS)
    assert not found.is_met
    assert found.lacks == f"no reading of the {zone}"


@pytest.mark.parametrize("zone", ZONES)
def test_one_zone_that_is_colder_is_enough_to_fail(zone):
    others = tuple(each for each in ZONES if each != zone)
    readings = logged(360.0, 60.0, zones=others) + logged(360.0, 54.0, zones=(zone,))
    assert not judged(PFRP, readings, FIVE_TURNS).is_met


def test_a_gap_longer_than_the_readings_are_apart_breaks_a_run():
    readings = [each for each in logged(360.0, 60.0) if not 100.0 < each.hour < 150.0]
    assert not judged(PFRP, readings, FIVE_TURNS, every_h=24.0).is_met
    assert judged(PFRP, readings, FIVE_TURNS, every_h=60.0).is_met


def test_who_reads_the_days_as_not_consecutive_may_say_so():
    readings = [*logged(240.0, 60.0), *(Logged(264.0, zone, 40.0) for zone in ZONES)]
    readings += [Logged(288.0 + each.hour, each.zone, 60.0) for each in logged(240.0, 60.0)]
    turned = [24.0, 72.0, 120.0, 300.0, 400.0]
    assert not judged(NOP, readings, turned, ratio=30.0).is_met
    assert judged(NOP, readings, turned, ratio=30.0, is_continuous=False).is_met


@pytest.mark.parametrize(("hot_h", "met"), [(4.0, True), (3.0, False), (0.0, False)])
def test_five_days_at_forty_hold_four_hours_above_fifty_five(hot_h, met):
    readings = [Logged(hour, zone, 55.5 if hour <= hot_h and hot_h else 41.0) for hour in range(121) for zone in ZONES]
    assert judged(PSRP, readings, every_h=1.0).is_met is met


def test_turnings_count_only_as_far_apart_as_the_rule_asks():
    rule = RULES["UK-CAT-WINDROW"]
    readings = logged(192.0, 60.0)
    assert judged(rule, readings, [24.0, 72.0, 120.0], is_confirmed=True).is_met
    assert not judged(rule, readings, [24.0, 71.0, 118.0], is_confirmed=True).is_met


def test_what_no_thermometer_shows_has_to_be_confirmed():
    rule = RULES["UK-CAT-WINDROW"]
    found = judged(rule, logged(192.0, 60.0), [24.0, 72.0, 120.0])
    assert not found.is_met
    assert "besides" in found.lacks


def test_by_formula_the_hotter_the_shorter():
    rule = RULES["US503-TT-SOLIDS"]
    assert judged(rule, logged(64.0, 55.0, every=1.0), every_h=1.0).is_met
    assert not judged(rule, logged(63.0, 55.0, every=1.0), every_h=1.0).is_met
    assert judged(rule, logged(13.0, 60.0, every=1.0), every_h=1.0).is_met


@given(hours=st.floats(1.0, 500.0), celsius=st.floats(30.0, 80.0))
def test_a_forecast_alone_never_meets_a_rule(hours, celsius):
    assert not any(judged(rule, [], FIVE_TURNS, ratio=30.0, is_confirmed=True).is_met for rule in RULES.values())


@given(cut=st.integers(0, 30))
def test_a_reading_less_never_makes_a_rule_met(cut):
    readings = logged(348.0, 60.0)
    fewer = readings[:cut] + readings[cut + 1 :]
    assert not judged(PFRP, fewer, FIVE_TURNS).is_met


def test_likely_is_said_in_a_word():
    assert [likely(each) for each in (0.0, 0.2, 0.5, 0.8, 1.0)] == ["no", "no", "unsure", "yes", "yes"]
