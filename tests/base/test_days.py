"""`base.days` against the calendar of the standard library."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.days import WEEKDAYS, Span, after, before, daily, last_on, next_on, weekday

DAYS = st.dates(date(2000, 1, 1), date(2100, 12, 31))
SOME = st.sets(st.sampled_from(WEEKDAYS), min_size=1).map(tuple)


@given(one=DAYS, other=DAYS)
def test_a_span_holds_its_first_day_its_last_day_and_those_between(one, other):
    span = Span(min(one, other), max(one, other))
    assert span.first in span
    assert span.last in span
    assert span.first - timedelta(days=1) not in span
    assert span.last + timedelta(days=1) not in span
    assert span.days == len(list(daily(span.first, span.days)))
    assert list(daily(span.first, span.days))[-1] == span.last


def test_a_span_is_said_as_it_is_written():
    assert str(Span(date(2027, 7, 10), date(2027, 7, 24))) == "2027-07-10 to 2027-07-24"


@pytest.mark.parametrize(("days", "want"), [(0.0, 1), (0.2, 2), (1.0, 2), (13.5, 15)])
def test_a_part_of_a_day_counts_as_a_whole_one(days, want):
    assert after(date(2027, 3, 1), days) == date(2027, 3, want)
    assert before(date(2027, 3, want), days) == date(2027, 3, 1)


@given(day=DAYS)
def test_days_of_the_week_are_those_of_the_calendar(day):
    assert day.strftime("%a").lower() == weekday(day)


@given(day=DAYS, wanted=SOME)
def test_the_next_day_of_a_kind_is_the_first_that_comes(day, wanted):
    found = next_on(day, wanted)
    assert weekday(found) in wanted
    assert not any(weekday(each) in wanted for each in daily(day, (found - day).days))


@given(day=DAYS, wanted=SOME)
def test_the_last_day_of_a_kind_is_the_latest_that_was(day, wanted):
    found = last_on(day, wanted)
    assert weekday(found) in wanted
    assert not any(weekday(each) in wanted for each in daily(found + timedelta(days=1), (day - found).days))


@given(day=DAYS)
def test_where_any_day_will_do_it_is_the_same_day(day):
    assert next_on(day, ()) == last_on(day, ()) == day
