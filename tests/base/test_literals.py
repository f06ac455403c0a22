"""`base.literals` against the TOML reader of the standard library."""

import tomllib
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.literals import LONGEST_SHOWN, listed, literal, quoted, shown

TEXTS = st.text(st.characters(exclude_categories=["Cs"]))
PLAIN = TEXTS | st.booleans() | st.integers(-(2**63), 2**63 - 1) | st.floats(allow_nan=False) | st.dates()
NAMES = st.from_regex(r"\A[a-z][a-z0-9-]{0,6}\Z")
VALUES = st.recursive(PLAIN, lambda inner: st.lists(inner) | st.dictionaries(NAMES, inner), max_leaves=8)


def reads(text):
    return tomllib.loads(f"key = {text}")["key"]


@given(text=TEXTS)
def test_any_text_is_quoted_so_that_it_reads_back_on_one_line(text):
    assert reads(quoted(text)) == text
    assert quoted(text).isprintable()


@given(value=VALUES)
def test_any_value_of_a_file_is_written_as_it_stands_in_one(value):
    assert reads(literal(value)) == value


@given(value=VALUES)
def test_what_a_message_shows_is_never_long(value):
    assert len(shown(value)) <= LONGEST_SHOWN


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (True, "true"),
        (("a", 2), '["a", 2]'),
        ({"bread": "5 %"}, '{ bread = "5 %" }'),
        ({}, "{}"),
        (date(2027, 3, 1), "2027-03-01"),
    ],
)
def test_values_look_as_a_person_would_write_them(value, text):
    assert literal(value) == text


def test_items_that_are_written_already_make_a_list():
    assert listed(['"a"', "2"]) == '["a", 2]'
