"""A life written independently with a general library of events gives the same days on the same random inputs."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.fleet.chance import stream_of
from sourloam.fleet.simulate import simulate
from sourloam.fleet.world import Habits, Luck
from sourloam.science.ferment.clock import clock_rate
from tests.fleet.events import Yard, live
from tests.fleet.worlds import (
    CARDINAL,
    EVERY_DAY,
    KG_PER_L,
    LOOSE_KG_PER_L,
    PLAIN,
    opened,
    scraps,
    taker,
    vessels,
    world_of,
)

DAYS, ROOM_L, LOG_SD = 365, 18.0, 0.25


def both(seed, count, *, litres, fetched_on, every_d, holding_l, settles_frac=0.2, days=DAYS):
    """Return a situation with its world, and the same yard for the other model."""
    random = stream_of(seed, 0, "the same inputs")
    kg = (random.gamma(2.0, litres * LOOSE_KG_PER_L / 2.0, days)).tolist()
    steps = random.standard_normal(days * count).tolist()
    numbers = PLAIN._replace(settles_frac=settles_frac)
    owned = vessels(count, ROOM_L)
    world = world_of(
        owned,
        [scraps(each) for each in kg],
        places=(taker(days=fetched_on),),
        numbers=numbers,
        habits=Habits(EVERY_DAY, every_d, holding_l, least_d=14.0),
        temperature_c=18.0,
        luck=Luck(tuple(steps), (False,)),
        scatter={each.id: (LOG_SD,) * days for each in owned},
    )
    yard = Yard(
        loose_l=[each / LOOSE_KG_PER_L for each in kg],
        room_l=owned[0].usable_l,
        count=count,
        pressed_per_loose=LOOSE_KG_PER_L / KG_PER_L,
        settles_frac=settles_frac,
        settling_d=numbers.settling_d,
        pace=float(clock_rate(18.0, **CARDINAL)),
        ready_d=numbers.ready_at_20c_d,
        steps=[math.exp(LOG_SD * each) for each in steps],
        least_d=14.0,
        fetch_days=frozenset(EVERY_DAY.index(each) for each in fetched_on or EVERY_DAY),
        every_d=every_d,
        holding_l=holding_l,
    )
    return opened(world), world, yard


@settings(max_examples=25, deadline=None)
@given(
    st.integers(0, 9999),
    st.integers(1, 5),
    st.floats(0.8, 6.0),
    st.sampled_from(((), ("sat",), ("mon", "thu"))),
    st.integers(1, 4),
    st.floats(0.0, 12.0),
)
def test_both_stall_and_fetch_on_the_same_days(seed, count, litres, fetched_on, every_d, holding_l):
    situation, world, yard = both(
        seed, count, litres=litres, fetched_on=fetched_on, every_d=every_d, holding_l=holding_l
    )
    life, other = simulate(situation, DAYS, world), live(yard)
    first = life.days[0].on
    stalled = {(each.on - first).days: each.turned_away_l for each in life.days if each.is_stalled}
    assert stalled.keys() == other.away_l.keys()
    assert list(stalled.values()) == pytest.approx([other.away_l[each] for each in stalled], abs=1e-6)
    assert sorted((each.ready_on - first).days for each in life.batches if each.ready_on) == sorted(other.ready)
    assert sorted((each.placed_on - first).days for each in life.batches if each.is_placed) == sorted(other.fetched)


def test_the_two_are_held_to_each_other_where_there_is_much_to_compare():
    situation, world, yard = both(1, 2, litres=4.0, fetched_on=("sat",), every_d=2, holding_l=8.0)
    life, other = simulate(situation, DAYS, world), live(yard)
    assert life.stalled_days == len(other.away_l) > 50
    assert len(other.fetched) > 15
