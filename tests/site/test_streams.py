"""`site.streams`: how much comes on which day, and how that is written."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.days import Span
from sourloam.base.fields import Asking, Fault
from sourloam.base.units import Dimension
from sourloam.site.streams import Flow, Flows, Glut, Gluts, Stream

ASKING = Asking(0.03)
FLOW = Flow(0.5, Dimension.MASS_RATE)
FACTORS = st.floats(0.1, 10.0)
DAYS = st.dates(date(2020, 1, 1), date(2040, 12, 31))


@given(weekdays=st.tuples(*[FACTORS] * 7), on=DAYS)
def test_any_week_brings_what_was_said_however_busy_its_days(weekdays, on):
    stream = Stream("house", FLOW, weekdays=weekdays)
    assert sum(stream.usual_times(on + timedelta(days=each)) for each in range(7)) == pytest.approx(7.0)


@given(season=st.tuples(*[FACTORS] * 12))
def test_the_months_of_a_year_bring_what_was_said_however_busy_each_is(season):
    stream = Stream("house", FLOW, season=season)
    assert sum(stream.usual_times(date(2027, month, 1)) for month in range(1, 13)) == pytest.approx(12.0)


def test_nothing_comes_in_an_absence_even_in_a_glut():
    week = Span(date(2027, 8, 7), date(2027, 8, 13))
    stream = Stream("house", FLOW, absences=(week,), gluts=(Glut(week, 3.0),))
    assert stream.usual_times(week.first) == stream.usual_times(week.last) == 0.0
    assert stream.usual_times(week.last + timedelta(days=1)) == 1.0


def test_of_two_gluts_at_once_the_larger_counts():
    week = Span(date(2027, 9, 1), date(2027, 9, 21))
    stream = Stream("house", FLOW, gluts=(Glut(week, 2.0), Glut(week, 3.5)))
    assert stream.usual_times(date(2027, 9, 10)) == 3.5


@pytest.mark.parametrize(
    ("typed", "per_day", "by_volume"),
    [("7 kg/week", 1.0, False), ("7 L/week", 1.0, True), ("two handfuls a day", 0.06, False)],
)
def test_an_amount_is_by_mass_or_by_volume(typed, per_day, by_volume):
    flow = Flows().read(typed, ASKING)
    assert (flow.per_day, flow.is_by_volume, flow.typed) == (per_day, by_volume, typed)


@given(per_day=st.floats(0.001, 500.0), by=st.sampled_from([Dimension.MASS_RATE, Dimension.VOLUME_RATE]))
def test_an_amount_that_nobody_typed_is_written_so_that_it_reads_back(per_day, by):
    flow = Flows().read(Flows().write(Flow(per_day, by)).strip('"'), ASKING)
    assert (flow.per_day, flow.by) == (per_day, by)


@pytest.mark.parametrize(
    ("raw", "sentence"),
    [
        (5, '5 has no unit; write "4 kg/week" or "9 lb/week" or "12 L/week" or "3 gal/week".'),
        ("-4 kg/week", '"-4 kg/week" is -0.571429 kg a day; from 0.001 to 500 kg a day can be planned.'),
        ("9 t/day", '"9 t/day" is 9000 kg a day; from 0.001 to 500 kg a day can be planned.'),
    ],
)
def test_an_amount_that_cannot_be_planned_is_refused(raw, sentence):
    with pytest.raises(Fault) as caught:
        Flows().read(raw, ASKING)
    assert f"{caught.value.found} {caught.value.remedy}" == sentence


def test_gluts_are_read_earliest_first():
    raw = ["2027-09-01 to 2027-09-21 x 2.5", "2027-07-01 to 2027-07-02  x3"]
    read = Gluts().read(raw, ASKING)
    assert [(each.span.first.month, each.times) for each in read] == [(7, 3.0), (9, 2.5)]


@pytest.mark.parametrize(
    "raw",
    ["2027-09-01 to 2027-09-21", "2027-09-01 to 2027-09-21 x 1", "2027-09-01 to 2027-09-21 x 51", "x 3", 5, ""],
)
def test_a_glut_without_a_time_and_a_factor_is_refused(raw):
    with pytest.raises(Fault) as caught:
        Gluts().read([raw], ASKING)
    assert str(caught.value.found) == f'"{raw}" is not a time and how many times the usual, up to 50;'
    assert caught.value.remedy == 'write ["2027-09-01 to 2027-09-21 x 2.5"].'
