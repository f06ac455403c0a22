"""`sitefile.lines` against the TOML reader of the standard library, on documents that were written key by key."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.sitefile.lines import DEEPEST, line_map
from tests.sitefile.documents import documents


@given(written=documents())
def test_every_key_and_table_has_the_line_on_which_it_stands(written):
    text, paths = written
    assert line_map(text) == paths


@given(written=documents())
def test_the_keys_that_have_a_line_are_those_that_the_reader_sees(written):
    text, paths = written
    assert set(table_paths(tomllib.loads(text), (), paths)) == set(paths)


def table_paths(table, path, written):
    """Give the path of every key of every table; a value in braces or brackets stands on the line of its key."""
    tables = {each[:-1] for each in written}
    for name, value in table.items():
        here = (*path, name)
        yield here
        if isinstance(value, dict) and here in tables:
            yield from table_paths(value, here, written)
        if isinstance(value, list) and here in tables:
            for number, each in enumerate(value):
                yield (*here, number)
                yield from table_paths(each, (*here, number), written)


@given(text=st.text())
def test_any_text_has_a_map_whether_or_not_it_means_anything(text):
    count = text.count("\n") + 1
    assert all(1 <= line <= count for line in line_map(text).values())


@given(text=st.text(alphabet="[]{}\"'#=.\\ \n\rab", max_size=60))
def test_any_heap_of_signs_has_a_map(text):
    count = text.count("\n") + 1
    assert all(1 <= line <= count for line in line_map(text).values())


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("", {}),
        ("a = 1", {("a",): 1}),
        ("\n# b = 1\na = 1 # c = 2\n", {("a",): 3}),
        (
            "[[bed]]\n[[bed.planting]]\n[[bed.planting]]\ncrop = 1\n[[bed]]\n[[bed.planting]]\n",
            {
                ("bed",): 1,
                ("bed", 0): 1,
                ("bed", 0, "planting"): 2,
                ("bed", 0, "planting", 0): 2,
                ("bed", 0, "planting", 1): 3,
                ("bed", 0, "planting", 1, "crop"): 4,
                ("bed", 1): 5,
                ("bed", 1, "planting"): 6,
                ("bed", 1, "planting", 0): 6,
            },
        ),
    ],
)
def test_a_plain_document_is_mapped(text, lines):
    assert line_map(text) == lines


def test_a_key_of_very_many_parts_is_followed_only_as_deep_as_anything_is_declared():
    found = line_map("x = 1\n" + ".".join("a" * 5000) + " = 1\n")
    assert max(map(len, found)) == DEEPEST
