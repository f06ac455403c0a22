"""What entries add up to: by the order in which they happened, whatever the order in which they were written."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.logbook import entries as of
from sourloam.logbook.accept import accept
from sourloam.logbook.fold import fold
from sourloam.logbook.state import Impossible
from tests.logbook.days import book, entry, known, layer

KNOWS = known().knows
VALUES = st.one_of(
    st.builds(layer, st.sampled_from(["blue-1", "blue-2", "green"]), st.floats(0.1, 2.0), st.floats(0.0, 0.2)),
    st.builds(of.Sealed, st.sampled_from(["blue-1", "blue-2", "green"])),
    st.builds(of.Unsealed, st.sampled_from(["blue-1", "green"])),
    st.builds(of.DrawOff, st.sampled_from(["blue-1", "green"]), st.floats(0.0, 0.5)),
    st.builds(of.Placed, st.sampled_from(["blue-1", "green"]), st.sampled_from(["long-bed", "heap"])),
    st.builds(of.Failed, st.sampled_from(["blue-1", "green"]), st.sampled_from(of.FAILINGS)),
    st.builds(of.Joined, st.just("blue-2"), st.just("blue-1")),
    st.builds(of.Stocked, st.just("bran"), st.sampled_from(["bought", "used"]), st.floats(0.0, 2.0)),
    st.builds(of.Withdrawn, st.sampled_from([f"e{each}" for each in range(2, 12)])),
)
HISTORIES = st.lists(st.tuples(st.integers(0, 90), VALUES), max_size=14).map(lambda rows: book(*rows))


def facts(state):
    return state.situation, dict(state.batches), dict(state.stocks), state.damaged, state.past


@given(HISTORIES, st.randoms(use_true_random=False))
def test_the_order_in_which_entries_are_handed_over_is_nothing(history, chance):
    mixed = list(history)
    chance.shuffle(mixed)
    assert facts(fold(mixed, KNOWS)) == facts(fold(history, KNOWS))


@given(HISTORIES, VALUES, st.integers(0, 90))
def test_an_entry_that_is_taken_back_is_as_if_it_had_not_been(history, value, day):
    number = len(history) + 1
    more = [*history, entry(value, day, sequence=number)]
    undone = [*more, entry(of.Withdrawn(f"e{number}"), 91, sequence=number + 1)]
    if not isinstance(value, of.Withdrawn):
        assert facts(fold(undone, KNOWS)) == facts(fold(history, KNOWS))
    redone = [*undone, entry(of.Withdrawn(f"e{number + 1}"), 91, sequence=number + 2)]
    assert facts(fold(redone, KNOWS)) == facts(fold(more, KNOWS))


@given(HISTORIES)
def test_what_was_laid_in_is_in_a_vessel_drawn_off_or_placed(history):
    state = fold(history, KNOWS)
    given_out = sum(mass for each in state.batches.values() for _, _, mass in each.placings)
    drawn = sum(each.drawn_l for each in state.batches.values())
    laid = sum(each.scraps_kg + each.bran_kg for each in state.batches.values())
    held = sum(each.mass_kg for each in state.situation.vessels)
    assert laid == pytest.approx(held + drawn + given_out)
    assert state.situation.bran_kg >= 0.0


@given(HISTORIES, VALUES)
def test_what_is_accepted_at_the_end_is_what_the_fold_then_says(history, value):
    number = len(history) + 1
    try:
        found = accept(history, entry(value, 95, sequence=number), KNOWS)
    except Impossible:
        return
    assert facts(found.state) == facts(fold([*history, found.entry], KNOWS))


def test_past_days_are_seen_as_they_were():
    history = book((1, layer()), (5, of.Sealed("blue-1")), (40, of.Placed("blue-1", "long-bed")))
    assert fold(history, KNOWS, until=date(2027, 3, 4)).vessel("blue-1").phase == "filling"
    assert fold(history, KNOWS, until=date(2027, 3, 10)).vessel("blue-1").phase == "fermenting"
    assert fold(history, KNOWS).vessel("blue-1").phase == "empty"


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (layer(), r"blue-1 is sealed since 2027-03-06; blue-2 is empty; .*unsealed"),
        (of.Sealed("blue-1"), "sealed already since 2027-03-06"),
        (of.Placed("green", "heap"), "green is empty"),
        (of.Placed("blue-1", "heap", 9.0), "9 kg cannot have come from blue-1: it holds 1.56 kg"),
        (of.DrawOff("blue-1", 5.0), "5 L cannot have come"),
        (layer("green", 1.0, 30.0), "30 kg of bran cannot have been taken: by the record there are 4.94 kg"),
        (of.Sealed("red"), 'no vessel "red"; there are: blue-1, blue-2, green'),
        (of.Placed("blue-1", "nowhere"), "no place .*long-bed, heap"),
        (of.Withdrawn("e99"), 'no entry "e99"; the last one is e3'),
        (of.VesselKept("blue-1", "washed"), "not empty"),
    ],
)
def test_what_cannot_be_is_refused_with_the_nearest_that_can(value, says):
    history = book((1, layer()), (5, of.Sealed("blue-1")))
    with pytest.raises(Impossible, match=says):
        accept(history, entry(value, 9, sequence=4), KNOWS)


def test_a_batch_is_not_placed_twice():
    history = book((1, layer()), (5, of.Sealed("blue-1")), (40, of.Placed("blue-1", "long-bed")))
    with pytest.raises(Impossible, match=r"blue-1 is empty: blue-1/1 went to the long bed on 2027-04-10"):
        accept(history, entry(of.Placed("blue-1", "heap"), 41, sequence=5), KNOWS)


def test_a_late_entry_is_held_against_its_own_day():
    history = book((1, layer()), (5, of.Sealed("blue-1")))
    found = accept(history, entry(layer(), 3, sequence=4), KNOWS)
    assert found.state.batches["blue-1/1"].layers == 2
    with pytest.raises(Impossible, match="is sealed since"):
        accept(history, entry(layer(), 6, sequence=4), KNOWS)


def test_a_later_entry_that_no_longer_fits_is_kept_and_shown():
    history = book((1, layer()), (5, of.Sealed("blue-1")), (40, of.Placed("blue-1", "long-bed")))
    found = accept(history, entry(of.Placed("blue-1", "heap"), 30, sequence=5), KNOWS)
    assert [each.entry.id for each in found.clashes] == ["e4"]
    assert found.state.batches["blue-1/1"].placings[0][0] == "heap"


def test_a_correction_says_what_is_so_instead():
    history = book((1, layer(kg=15.0)), (5, of.Sealed("blue-1")))
    right = of.Corrected("e2", {"vessel": "blue-1", "parts": [["vegetable-scraps", 1.5]], "bran_kg": 0.06})
    found = accept(history, entry(right, 6, sequence=4), KNOWS)
    assert found.state.batches["blue-1/1"].scraps_kg == pytest.approx(1.5)


def test_the_doubtful_is_kept_with_a_mark():
    history = book((1, layer()), (5, of.Sealed("blue-1")))
    found = accept(history, entry(of.Placed("blue-1", "heap"), 8, sequence=4), KNOWS)
    assert found.entry.mark == "it had been sealed for 3 days only"


def test_what_became_of_batches_moves_the_forecast():
    history = book((1, layer()), (5, of.Sealed("blue-1")), (20, of.Failed("blue-1", "putrid")))
    past = fold(history, KNOWS).past
    assert (past.batches, past.putrid, past.failed) == (1, 1, 1)
