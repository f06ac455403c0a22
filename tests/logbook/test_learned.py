"""What a record says of its site: near the usual at first, near what was seen later, and never outside both."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.logbook import entries as of
from sourloam.logbook.fold import fold
from sourloam.logbook.learned import handful_times, lessons, pooled, weeks_kg
from sourloam.service.learned import usual_of
from tests.logbook.days import book, entry, known, layer

KNOWS = known().knows


def told(history):
    state = fold(history, KNOWS)
    found = lessons(state, history, usual_of(state))
    return {each.usual.name.rpartition(".")[2]: each for each in found}


def weeks(count, kg):
    """Return a record in which so much was laid in on each day of some weeks."""
    days = [(day, layer("blue-1", kg=kg, bran_kg=0.02)) for day in range(7 * count)]
    return book((0, of.Stocked("bran", "bought", 50.0)), *days)


def test_a_record_of_nothing_says_what_is_usual():
    for each in told(book()).values():
        assert each.count == 0
        assert each.site.value == pytest.approx(each.usual.value, rel=0.05)


def test_more_weeks_bring_the_value_nearer_to_what_was_seen_and_narrow_it():
    one, many = told(weeks(2, 2.0))["week_kg"], told(weeks(12, 2.0))["week_kg"]
    assert one.usual.value == pytest.approx(5.0)
    assert 5.0 < one.site.value < many.site.value <= 14.01
    assert many.site.high / many.site.low < one.site.high / one.site.low < one.usual.high / one.usual.low
    assert many.write == f'[[stream]] amount = "{many.site.value:.1f} kg/week"'


@given(st.floats(0.1, 10.0), st.floats(0.1, 10.0), st.floats(0.5, 5.0), st.integers(1, 50))
def test_a_pooled_value_lies_between_the_usual_one_and_what_was_seen(usual, seen, weighs, count):
    value = pooled(usual, seen, weighs, count)
    assert min(usual, seen) * 0.999 <= value <= max(usual, seen) * 1.001


def test_only_whole_weeks_count():
    state = fold(book((3, layer(kg=9.0)), (7, layer(kg=1.0)), (8, layer(kg=1.0)), (15, layer(kg=9.0))), KNOWS)
    assert weeks_kg(state.batches.values()) == pytest.approx([2.0])  # 2027-03-01 is a Monday: begun on a Thursday


def test_a_handful_is_told_by_two_counts_of_the_bag():
    by_hand = entry(layer(bran_kg=0.3), 2, sequence=4)

    history = [
        *book((1, of.Stocked("bran", "counted", 2.0))),
        replace(by_hand, typed="blue-1 1.5 kg peelings, ten handfuls"),
    ]
    history += [entry(layer(bran_kg=0.1), 3, sequence=5), entry(of.Stocked("bran", "counted", 1.45), 4, sequence=6)]
    assert handful_times(history) == pytest.approx([1.5])  # 0.45 kg are gone where 0.3 kg were written


def test_failures_move_the_chance_and_more_so_the_more_there_are():
    days = []
    for turn in range(4):
        days += [(30 * turn, layer()), (30 * turn + 5, of.Sealed("blue-1"))]
        days += [(30 * turn + 25, of.Failed("blue-1", "putrid")), (30 * turn + 26, of.Placed("blue-1", "heap"))]
    one, four = told(book(*days[:4]))["failing_share"], told(book(*days))["failing_share"]
    assert one.usual.value < one.site.value < four.site.value < 1.0
    assert four.count == 4


def test_days_until_ready_are_those_until_it_was_found_so():
    history = book((0, layer()), (5, of.Sealed("blue-1")), (35, of.Opened("blue-1", "ready")))
    ready = told(history)["ready_at_20c_d"]
    assert ready.count == 1
    assert ready.usual.value < ready.site.value < 30.0
