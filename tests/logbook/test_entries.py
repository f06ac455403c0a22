"""Each kind of entry in each version that a release wrote is read for ever."""

import json
from pathlib import Path

import pytest

from sourloam.base.errors import BadInput
from sourloam.logbook import entries as of
from sourloam.logbook.entry import check, entry_of, plain
from tests.logbook.days import entry, layer

DATA = Path(__file__).parent / "data"
LINES = [line for each in sorted(DATA.glob("entries_*.jsonl")) for line in each.read_text("utf-8").splitlines()]


@pytest.mark.parametrize("line", LINES, ids=lambda line: "{kind} {version}".format_map(json.loads(line)))
def test_what_a_release_wrote_is_read_and_says_the_same(line):
    held = json.loads(line)
    assert plain(entry_of(held)) == held | {"version": of.KINDS[held["kind"]][1]}


def test_every_older_version_has_a_line_and_a_step_to_the_next():
    written = {(held["kind"], held["version"]) for held in map(json.loads, LINES)}
    older = {(name, version) for name, (_, last) in of.KINDS.items() for version in range(1, last)}
    assert older == set(of.OLDER)
    assert written >= older


def test_every_kind_has_a_line_of_its_present_version():
    written = {(held["kind"], held["version"]) for held in map(json.loads, LINES)}
    assert written >= {(name, version) for name, (_, version) in of.KINDS.items()}


def test_what_a_newer_release_wrote_is_refused_in_words():
    held = plain(entry(layer())) | {"version": 9}
    with pytest.raises(BadInput, match="version 9, is not known; a newer release wrote it"):
        entry_of(held)


@pytest.mark.parametrize(
    ("value", "says"),
    [
        (of.Reading("blue-1", ph=15.0), "ph = 15.0 is outside 0 to 14: a reading there is a fault"),
        (layer(kg=-2.0), "parts = -2 is outside 0.1 g to 500 kg"),
        (of.DrawOff("blue-1", 80.0), "litres = 80 is outside 0 L to 60 L"),
        (of.Failed("blue-1", "sad"), '"sad" is not one of'),
    ],
)
def test_an_impossible_number_is_refused(value, says):
    with pytest.raises(BadInput, match=says):
        check(value)
