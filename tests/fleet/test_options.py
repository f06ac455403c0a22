"""The table of options without chance, as worked by hand: a steady stream, one vessel open, each away for 14 days.

A vessel that fills in f days is sealed on the last of them and emptied 14 days later, and is filled again on that day.
So n vessels go round in f + 13 days, and of these f + 13 - n f are stalled, if that is more than nothing.
"""

import pytest

from sourloam.fleet.fast import day_lines, live_fast
from sourloam.fleet.kernel import run
from sourloam.fleet.simulate import simulate
from tests.fleet.worlds import DAILY, LOOSE_KG_PER_L, PLAIN, opened, steady, vessels, world_of

ROOM_L, FILL_D, ROUNDS = 18.0, 10, 10
DAY_L = ROOM_L * 0.6 / FILL_D / LOOSE_KG_PER_L  # as the caddy holds it


def stalled(count, *, fill_d=FILL_D, holding_l=0.0, numbers=PLAIN, least_d=14.0):
    """Return the stalled days of ten rounds."""
    days = ROUNDS * (fill_d + 13)
    room_l = ROOM_L * fill_d / FILL_D
    habits = DAILY._replace(holding_l=holding_l, least_d=least_d)
    world = world_of(vessels(count, room_l), steady(fill_d, days, room_l), numbers=numbers, habits=habits)
    life = simulate(opened(world), days, world)
    assert day_lines(live_fast(run, opened(world), world)) == life.days
    return life.stalled_days


@pytest.mark.parametrize(
    ("option", "by_hand", "keys"),
    [
        ("one vessel", 130, {"count": 1}),
        ("one more vessel", 30, {"count": 2}),
        ("two more", 0, {"count": 3}),
        ("a vessel half as large again", 130, {"count": 1, "fill_d": 15}),  # of 280 days in place of 230
        ("two of those", 0, {"count": 2, "fill_d": 15}),
        ("two, and three days held in the cold", 0, {"count": 2, "holding_l": 3.001 * DAY_L}),
        (
            "two, that ferment in 7 days in a warmer spot",
            0,
            {"count": 2, "numbers": PLAIN._replace(ready_at_20c_d=7.0), "least_d": 7.0},
        ),
        (
            "one, that ferments in 7 days in a warmer spot",
            84,  # rounds of 10 + 6 days: 14 whole ones of 6 in 230 days, and 6 days of filling
            {"count": 1, "numbers": PLAIN._replace(ready_at_20c_d=7.0), "least_d": 7.0},
        ),
    ],
)
def test_the_days_that_an_option_leaves_are_those_worked_by_hand(option, by_hand, keys):
    assert stalled(**keys) == by_hand, option
