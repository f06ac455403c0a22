"""What is kept beside the lines is what the fold over all of them says, whatever was written and in which order."""

import json
from contextlib import suppress

from hypothesis import given
from hypothesis import strategies as st

from sourloam.logbook import entries as of
from sourloam.logbook.accept import accept
from sourloam.logbook.fold import fold
from sourloam.logbook.kept import batches_wanted, change, head_of, state_of_parts, whole
from sourloam.logbook.state import Impossible
from tests.logbook.days import book, entry, known
from tests.logbook.test_fold import HISTORIES, VALUES

KNOWS = known().knows
MORE = st.one_of(
    VALUES,
    st.builds(of.Moved, st.sampled_from(["blue-1", "green"]), st.sampled_from(["shed", "cellar"])),
    st.builds(of.TaskKept, st.sampled_from(["fill:green/1", "place:blue-1/1"]), st.just("done")),
    st.builds(of.Worked, st.just("long-bed"), st.sampled_from(of.WORKS)),
    st.builds(of.Reading, st.sampled_from(["blue-1", "heap"]), st.floats(3.0, 7.0)),
    st.builds(of.VesselKept, st.just("green"), st.sampled_from(of.VESSEL_ACTS)),
    st.builds(of.Opened, st.just("blue-1"), st.sampled_from(of.FOUND)),
    st.builds(of.Remedy, st.just("blue-1"), st.just("more bran"), st.floats(0.0, 0.2)),
)


def through_text(held):
    return json.loads(json.dumps(held))


def back(head, parts, *, is_whole=True):
    rows = [(kind, id_, through_text(held)) for (kind, id_), held in parts.items()]
    return state_of_parts(through_text(head), rows, KNOWS, is_whole=is_whole)


def part_of(state):
    """Return as much of a state as the store hands over for an entry at the end."""
    wanted = {("batch", each) for each in batches_wanted(head_of(state))}
    parts = {part: held for part, held in whole(state).parts.items() if part in wanted or part[0] in ("place", "clash")}
    return back(head_of(state), parts, is_whole=False)


@given(HISTORIES)
def test_a_state_comes_back_from_its_texts_as_it_was(history):
    state = fold(history, KNOWS)
    assert back(head_of(state), whole(state).parts) == state


@given(HISTORIES, st.lists(st.tuples(st.integers(0, 100), MORE), max_size=8))
def test_what_is_kept_after_each_entry_is_what_the_fold_says(history, more):
    kept, parts = fold(history, KNOWS), dict(whole(fold(history, KNOWS)).parts)
    for day, value in more:
        asked = entry(value, day, sequence=len(history) + 1)
        with suppress(Impossible):
            before = part_of(kept)
            found = accept(history, asked, KNOWS, before=before)
            if found.is_over_again:
                head, parts = head_of(found.state), dict(whole(found.state).parts)
            else:
                head, new, gone, _ = change(before, found.state)
                parts = {part: held for part, held in (parts | dict(new)).items() if part not in gone}
            history = [*history, found.entry]
            kept = back(head, parts)
            assert kept == fold(history, KNOWS)


def test_an_entry_at_the_end_writes_only_what_it_touches():
    history = book((1, of.Stocked("bran", "bought", 1.0)), (2, of.Worked("heap", "turned")))
    state = fold(history, KNOWS)
    after = accept(history, entry(of.Worked("heap", "turned"), 3, sequence=4), KNOWS, before=state).state
    assert set(change(state, after).parts) == {("work", "4")}
