"""The declarations of `site` and of the places: what they promise to a person must hold."""

from dataclasses import MISSING, fields

import pytest

from sourloam.base.fields import Asking, Key, Table, declared
from sourloam.science.places.bed.bed import Planting
from sourloam.site.facts import Facts
from sourloam.site.people import Keeper
from sourloam.site.site import REPEATED
from sourloam.site.stocks import Stock

KINDS = (Facts, Stock, Keeper, Planting, *REPEATED.values())
KEYS = [(kind, name, mark) for kind in KINDS for name, mark in declared(kind) if isinstance(mark, Key)]
ASKING = Asking(Keeper.handful_kg)

each_key = pytest.mark.parametrize(
    ("kind", "attribute", "key"), KEYS, ids=[f"{kind.__name__}-{key.name}" for kind, _, key in KEYS]
)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_field_is_declared_and_no_key_twice(kind):
    marks = declared(kind)
    assert [name for name, _ in marks] == [each.name for each in fields(kind)]
    assert len({mark.name for _, mark in marks}) == len(marks)


@each_key
def test_a_default_is_the_same_in_a_file_and_in_code(kind, attribute, key):
    default = next(each.default for each in fields(kind) if each.name == attribute)
    if key.is_required:
        assert default is MISSING
    elif key.default is None:
        assert default is None
    else:
        assert key.kind.read(key.default, ASKING) == default


@each_key
def test_every_key_is_explained_in_a_sentence(kind, attribute, key):
    assert key.help[0].isupper()
    assert key.help.endswith(".")
    assert key.kind.wanted


@each_key
def test_a_default_that_is_told_is_told_in_a_sentence(kind, attribute, key):
    assert not key.assume or (key.assume[0].isalnum() and key.assume.endswith("."))
    assert not (key.assume and key.is_required)


@pytest.mark.parametrize("kind", [each for each in KINDS if each in REPEATED.values()], ids=lambda kind: kind.__name__)
def test_every_repeated_table_has_an_id_and_a_name(kind):
    names = [mark.name for _, mark in declared(kind)]
    assert names[0] == "id"
    assert "name" in names


def test_tables_within_tables_are_declared_as_such():
    nested = [(kind, mark.name, mark.of) for kind in KINDS for _, mark in declared(kind) if isinstance(mark, Table)]
    assert nested == [(REPEATED["bed"], "planting", Planting)]
