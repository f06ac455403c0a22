"""What may befall a site: each changes what it says and nothing else, and is lived on the same chance."""

from datetime import date

import pytest

from sourloam.fleet.arrivals import kg_per_d
from sourloam.fleet.replicate import Chances, stall_chance
from sourloam.fleet.what_if import AWAY_D, together, what_ifs
from tests.fleet.sites import HEAD, KNOWN, question

FIRST = date(2027, 3, 1)
PERSON = 0.35


def befalling(asked, first=FIRST):
    found = what_ifs(asked.site, first, asked.knowledge, person_kg_per_d=PERSON)
    return {each.kind: each for each in found}


def brings(site, stream=0):
    return kg_per_d(site.streams[stream], KNOWN().materials)


def test_a_person_brings_what_a_person_brings():
    asked = question()
    found = befalling(asked)
    usual = brings(asked.site)
    assert brings(found["more-people"].changed(asked.site)) == pytest.approx(usual + PERSON)
    assert brings(found["fewer-people"].changed(asked.site)) == pytest.approx(usual - PERSON)


def test_nobody_leaves_who_lives_alone():
    assert "fewer-people" not in befalling(question(stream='[[stream]]\nid = "flat"\namount = "0.4 kg/day"\n'))


def test_a_canteen_is_told_of_a_fifth_and_not_of_one_person():
    canteen = '[[stream]]\nid = "canteen"\namount = "30 kg/day"\npremises = "business"\n'
    found = befalling(question(stream=canteen))
    assert found["more-people"].what == "a fifth more comes"
    assert brings(found["more-people"].changed(question(stream=canteen).site)) == pytest.approx(36.0)


def test_three_weeks_away_bring_nothing_and_lie_in_the_year():
    asked = question()
    changed = befalling(asked)["away"].changed(asked.site)
    [away] = changed.streams[0].absences
    assert away.days == AWAY_D
    assert away.first >= FIRST
    assert changed.streams[0].usual_times(away.last) == 0.0


def test_holidays_and_harvest_are_half_a_year_off_in_the_south():
    north, south = question(), question(site=HEAD + 'latitude = "-35 deg"\n')
    months = [
        befalling(asked)["away"].changed(asked.site).streams[0].absences[0].first.month for asked in (north, south)
    ]
    assert months == [7, 1]


def test_a_lid_that_breaks_takes_an_empty_vessel_and_never_the_only_one():
    asked = question()
    assert len(befalling(asked)["broken-lid"].changed(asked.site).vessels) == len(asked.site.vessels) - 1
    assert "broken-lid" not in befalling(question(vessel='[[vessel]]\nid = "pail"\nvolume = "20 L"\n'))


def test_what_happens_may_be_put_together():
    asked = question()
    found = befalling(asked)
    both = together(asked.site, (found["more-people"], found["broken-lid"]))
    assert len(both.vessels) == len(asked.site.vessels) - 1
    assert brings(both) == pytest.approx(brings(asked.site) + PERSON)


def test_more_mouths_colder_vessels_and_fewer_of_them_stall_more_and_fewer_mouths_less():
    asked = question()
    chances = Chances(asked.site, asked.year, asked.situation, 1, 0.05)
    chance = {"now": stall_chance(chances.outcome(asked.site, each) for each in range(6))[0]}
    for kind, each in befalling(asked).items():
        changed = each.changed(asked.site)
        own = chances.with_streams_of(changed)
        chance[kind] = stall_chance(own.outcome(changed, number) for number in range(6))[0]
    assert chance["fewer-people"] <= chance["now"] <= chance["more-people"]
    assert chance["now"] < chance["cold"]
    assert chance["now"] < chance["broken-lid"]
    assert chance["now"] <= chance["glut"]


def test_the_same_stream_stays_as_uneven_in_another_year_of_the_site():
    asked = question()
    chances = Chances(asked.site, asked.year, asked.situation, 1, 0.05)
    changed = befalling(asked)["broken-lid"].changed(asked.site)
    assert chances.with_streams_of(changed).lot(3).year.arrivals == chances.lot(3).year.arrivals
