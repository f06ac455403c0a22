"""What a keeper types, and what is understood."""

from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BadInput
from sourloam.logbook import entries as of
from sourloam.logbook.fold import fold
from sourloam.logbook.phrase import read_phrase
from sourloam.service.record import words_of
from tests.logbook.days import book, known, layer

STATE = fold(book((1, layer()), (2, of.Sealed("blue-1"))), known().knows)
WORDS = words_of(STATE, STATE.site, known())


def read(text):
    return read_phrase(text, WORDS)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("blue-2 sealed", of.Sealed("blue-2")),
        ("sealed blue-2", of.Sealed("blue-2")),
        ("unsealed blue-1", of.Unsealed("blue-1")),
        ("drew 300 ml off blue-1, amber", of.DrawOff("blue-1", 0.3, colour="amber")),
        ("blue-1 ph 3.9", of.Reading("blue-1", ph=3.9)),
        ("blue-1 pH 3,9", of.Reading("blue-1", ph=3.9)),
        ("blue-1 19 C", of.Reading("blue-1", temperature_c=19.0)),
        ("green smells of rot", of.Reading("green", smell="rot")),
        ("blue-1 to long bed", of.Placed("blue-1", "long-bed")),
        ("2 kg from blue-1 to the heap", of.Placed("blue-1", "heap", 2.0)),
        ("bran 2 kg bought", of.Stocked("bran", "bought", 2.0)),
        ("200 ml of serum left", of.Stocked("serum", "counted", None, 0.2)),
        ("strained 400 ml", of.Culture("strain", serum_l=0.4, what="strained 400 ml")),
        ("blue-1 failed putrid", of.Failed("blue-1", "putrid")),
        (
            "drew 300 ml off blue-1, amber, smells sour, to drain",
            of.DrawOff("blue-1", 0.3, "amber", "sour", "drain"),
        ),
        ("blue-1 remedied: 100 g bran, stirred", of.Remedy("blue-1", "100 g bran, stirred", 0.1)),
        ("green taken in 8 kg", of.VesselKept("green", "taken-in", 8.0)),
        ("milk added 1 l", of.Culture("milk", milk_l=1.0, what="milk added 1 l")),
        (
            "mixed 2 kg bran, 200 ml serum, 100 g sugar, ph 4.2",
            of.Culture(
                "mix",
                serum_l=0.2,
                bran_kg=2.0,
                sugar_kg=0.1,
                ph=4.2,
                what="mixed 2 kg bran, 200 ml serum, 100 g sugar, ph 4.2",
            ),
        ),
        ("bagged 2 kg bran", of.Culture("bag", bran_kg=2.0)),
        ("heap fed 2 kg", of.Worked("heap", "fed", "2 kg", mass_kg=2.0)),
        ("long-bed tested ph 6.4", of.Worked("long-bed", "tested", "ph 6.4", ph=6.4)),
        ("seal:blue-1/1 done", of.TaskKept("seal:blue-1/1", "done")),
        ("plant:long-bed/1 not needed", of.TaskKept("plant:long-bed/1", "not-needed")),
        ("place:blue-1/1 put off until 2027-04-03", of.TaskKept("place:blue-1/1", "put-off", date(2027, 4, 3))),
        ("long-bed dug", of.Worked("long-bed", "dug")),
        ("blue-1 moved to the shed", of.Moved("blue-1", "shed")),
        ("opened blue-1, ready", of.Opened("blue-1", "ready")),
        ("note: frost last night", of.Note("frost last night")),
    ],
)
def test_a_phrase_says_what_a_keeper_means(text, value):
    assert read(text).value == value


def test_a_layer_is_read_part_by_part():
    found = read("blue-2 1.5 kg vegetable scraps, some bread and 2 handfuls")
    assert found.value == of.LayerAdded("blue-2", (("vegetable-scraps", 1.5), ("bread", 0.1)), 0.06)
    assert found.taken == ('how much "some bread" is was not said: 100 g taken',)


def test_a_number_after_a_name_is_no_part_of_the_name():
    found = read("blue 1.5 kg vegetable scraps, 60 g bran")
    assert found.value == of.LayerAdded("blue-2", (("vegetable-scraps", 1.5),), 0.06)
    assert found.taken == ("which of them was not said: blue-2 taken",)  # blue-1 is sealed


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "there is nothing in it"),
        ("purple 2 kg bread", "no vessel, place or stock of the site is named in it; Vessels: blue-1"),
        ("blue-2 2 kg unobtainium", "unobtainium"),
        ("blue-1 failed", "how it failed is not said"),
        ("drew some off blue-1", "how much, and off which vessel"),
    ],
)
def test_what_cannot_be_read_says_what_can(text, says):
    with pytest.raises(BadInput, match=says):
        read(text)


def test_what_would_move_a_cursor_is_written_out():
    assert read("note a\x1b[31mb").value == of.Note("a\\x1b[31mb")
    with pytest.raises(BadInput) as caught:
        read("blue-2 \x1b[31m 1 kg bread")
    assert str(caught.value).isprintable()


TOKENS = st.sampled_from(
    ["blue-1", "blue", "1.5", "kg", "ml", "bran", "to", "heap", "ph", "some", ",", "sealed", "drew", "1/0", "°", "two"]
)


@given(st.one_of(st.text(max_size=60), st.lists(TOKENS, max_size=8).map(" ".join)))
def test_whatever_is_typed_is_read_or_refused_inwords_of(text):
    with suppress(BadInput):
        assert read(text).value
