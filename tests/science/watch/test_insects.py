"""Days of vinegar flies against what is printed of them, and by their own law."""

import pytest

from sourloam.base.errors import OutOfRange
from sourloam.evidence.parameters import load_parameters
from sourloam.science.watch.insects import LONGEST_D, InsectParameters, left_kg, stage_d
from tests.published import Published

KNOWN = load_parameters(InsectParameters, "insects")
OUTSIDE = [  # the line was drawn through 18 and 25 °C; these are others
    Published("vinegar_fly_pages", "egg to fly, 21 °C", (21.0,), "14", "less a day for eggs", 2.0),
    Published("vinegar_fly_pages", "egg to fly, 29 °C", (29.0,), "7", "two pages differ by so much", 1.0),
]


def grown(room_c):
    return stage_d(room_c, KNOWN.fly_grown_degree_days.value, KNOWN.fly_stops_c.value)


@pytest.mark.parametrize("case", OUTSIDE, ids=str)
def test_published_days_to_the_next_fly_are_met(case):
    assert grown(*case.given) == pytest.approx(float(case.want), abs=case.tolerance)


def test_in_a_cellar_they_take_longer_than_is_printed_for_it():
    assert grown(12.0) > 50.0  # over 50 days at 12 °C


def test_the_colder_the_longer_and_never_past_the_end():
    days = [grown(each) for each in (28.0, 22.0, 16.0, 10.0, -5.0)]
    assert days == sorted(days)
    assert days[-1] == LONGEST_D


def test_eggs_hatch_in_about_a_day_at_25_degrees():
    assert stage_d(25.0, KNOWN.fly_hatch_degree_days.value, KNOWN.fly_stops_c.value) == pytest.approx(1.0, abs=0.1)


def test_a_room_that_cannot_be_is_refused():
    with pytest.raises(OutOfRange, match="room_c"):
        grown(90.0)


def test_what_grubs_eat_is_gone():
    assert left_kg(10.0, 0.5) == pytest.approx(5.0)
