"""`fleet.arrivals` and `fleet.habits`: what comes when, weighed by the table, and how it is brought to a vessel."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.units import Dimension
from sourloam.fleet.arrivals import arrivals, kg_per_d, stream_kg, usual_kg
from sourloam.fleet.habits import habits_of
from sourloam.site.streams import Flow, Stream
from tests.fleet.sites import KNOWN, USUAL, lived, question

FIRST = date(2027, 3, 1)
MATERIALS = KNOWN().materials
NAMES = st.sampled_from(sorted(MATERIALS))
SHARES = st.dictionaries(NAMES, st.floats(0.05, 1.0), min_size=1, max_size=5).map(
    lambda parts: tuple((name, part / sum(parts.values())) for name, part in parts.items())
)


def stream(per_day=1.0, by=Dimension.MASS_RATE, **keys):
    return Stream("kitchen", Flow(per_day, by), **keys)


@given(SHARES, st.sampled_from(["mass", "volume"]))
def test_a_kilogram_of_a_stream_weighs_a_kilogram(shares, shares_by):
    whole = stream_kg(stream(shares=shares, shares_by=shares_by), MATERIALS)
    assert whole.scraps_kg == pytest.approx(1.0)
    assert 0.0 < whole.dry_kg <= 1.0
    assert whole.bran_kg == 0.0


@given(SHARES, st.floats(0.1, 20.0))
def test_litres_in_the_caddy_are_weighed_by_the_density_of_the_mix(shares, litres):
    by_volume = stream(litres, Dimension.VOLUME_RATE, shares=shares)
    mass_kg = kg_per_d(by_volume, MATERIALS)
    assert stream_kg(by_volume, MATERIALS).times(mass_kg).loose_l == pytest.approx(litres)


def test_shares_by_volume_are_weighed_each_by_its_own_density():
    light, heavy = "bread", "fruit-scraps"
    halves = stream(shares=((light, 0.5), (heavy, 0.5)), shares_by="volume")
    litre_kg = 0.5 * MATERIALS[light].loose_kg_per_l + 0.5 * MATERIALS[heavy].loose_kg_per_l
    assert 1.0 / stream_kg(halves, MATERIALS).loose_l == pytest.approx(litre_kg)


def test_nothing_comes_in_an_absence_and_more_comes_in_a_glut():
    text = USUAL["stream"] + 'absences = ["2027-03-08 to 2027-03-14"]\ngluts = ["2027-03-20 to 2027-03-21 x 3"]\n'
    asked = question(stream=text)
    came = dict(zip((day.on for day in lived(asked, 31).days), asked.year.arrivals, strict=False))
    usual = came[FIRST].scraps_kg
    assert usual == pytest.approx(5.0 / 7.0)
    assert [came[date(2027, 3, day)].scraps_kg for day in range(8, 15)] == [0.0] * 7
    assert came[date(2027, 3, 15)].scraps_kg == pytest.approx(usual)
    assert [came[date(2027, 3, day)].scraps_kg for day in (19, 20, 21, 22)] == pytest.approx(
        [usual, 3 * usual, 3 * usual, usual]
    )


@given(st.lists(st.floats(0.1, 5.0), min_size=7, max_size=7), st.floats(0.1, 10.0))
def test_busy_weekdays_move_scraps_within_the_week_and_add_none(weekdays, per_day):
    days = arrivals([stream(per_day, weekdays=tuple(weekdays))], MATERIALS, FIRST, 28)
    assert sum(each.scraps_kg for each in days) == pytest.approx(28 * per_day)


@given(SHARES, SHARES, st.floats(0.1, 5.0), st.floats(0.1, 5.0))
def test_two_streams_bring_what_each_brings(one, other, one_kg, other_kg):
    streams = [stream(one_kg, shares=one), stream(other_kg, shares=other)]
    both = arrivals(streams, MATERIALS, FIRST, 1)[0]
    alone = [arrivals([each], MATERIALS, FIRST, 1)[0] for each in streams]
    assert both == pytest.approx(alone[0].plus(alone[1]))
    assert usual_kg(streams, MATERIALS).scraps_kg == pytest.approx(1.0)


def habits(stream_amount="5 kg/week", **keeper):
    written = "".join(f'{key} = "{value}"\n' for key, value in keeper.items())
    asked = question(stream=USUAL["stream"].replace("5 kg/week", stream_amount), keeper=f"[keeper]\n{written}")
    return habits_of(asked.site, asked.knowledge)


def test_scraps_that_can_wait_in_the_cold_are_loaded_once_or_twice_a_week():
    # Each opening lets air in; a fifth of a home's week is some 2 L a day.
    assert habits(freezer="40 L").loads_every_d == 7
    assert habits(fridge="9 L").loads_every_d == 3
    assert habits().loads_every_d == 2
    assert habits(caddy="1 L").loads_every_d == 1


def test_the_keeper_who_says_how_often_is_followed():
    assert habits(loads_every="4 days").loads_every_d == 4


def test_scraps_wait_in_a_caddy_no_longer_than_they_keep_there():
    # Common practice, no source: a caddy is emptied every few days; four are taken.
    asked = question()
    a_day_l = usual_kg(asked.site.streams, asked.knowledge.materials).loose_l * 5.0 / 7.0
    huge = habits(caddy="300 L")
    assert huge.holding_l == pytest.approx(asked.knowledge.vessel.caddy_keeps_d.value * a_day_l)
    assert habits(caddy="3 L").holding_l == pytest.approx(3.0)


def test_the_cold_holds_beside_the_caddy():
    assert habits(fridge="5 L", freezer="8 L").holding_l == pytest.approx(habits().holding_l + 13.0)
