"""`base.fields`: one declaration, one reader; every fault has its line, and every default that matters is told."""

from dataclasses import dataclass
from typing import Annotated

import pytest

from sourloam.base.fields import Assumption, Key, Reading, Table, declared, read_record, written_record
from sourloam.base.kinds import Flag, Ident, Text, amount


@dataclass(frozen=True)
class Sprig:
    """Something that stands in a pot."""

    herb: Annotated[str, Key("herb", Text(20), "Which.")]


@dataclass(frozen=True)
class Pot:
    """A pot."""

    id: Annotated[str, Key("id", Ident(), "A short name.")]
    volume_l: Annotated[float, amount("volume", "1 L", "9 L", help="What it holds.", why="it is a pot.")]
    is_glazed: Annotated[bool, Key("glazed", Flag(), "Whether it breathes.", default=False, assume="It breathes.")]
    shade: Annotated[str | None, Key("shade", Text(20), "Its colour.", default=None)] = None
    sprigs: Annotated[tuple[Sprig, ...], Table("sprig", Sprig, "What stands in it.")] = ()
    weight_kg: float = 0.0  # not declared: nothing that a file could say


def reading_of(raw, lines=None):
    reading = Reading(lines or {})
    pot = read_record(Pot, raw, where='pot "red"', path=("pot", 0), reading=reading)
    return pot, reading


def test_a_table_becomes_a_value():
    raw = {"id": "red", "volume": "2 L", "glazed": True, "shade": "red", "sprig": [{"herb": "thyme"}]}
    pot, reading = reading_of(raw)
    assert pot == Pot("red", 2.0, is_glazed=True, shade="red", sprigs=(Sprig("thyme"),))
    assert (reading.problems, reading.assumptions) == ([], [])


def test_what_is_left_out_takes_its_default_and_is_told_where_it_matters():
    pot, reading = reading_of({"id": "red", "volume": "2 L"})
    assert pot == Pot("red", 2.0, is_glazed=False)
    assert reading.assumptions == [Assumption('pot "red"', "It breathes.")]


def test_all_faults_are_told_at_once_each_on_its_line():
    raw = {"volume": "2 kg", "glazed": "no", "shadow": "red", "sprig": [{"herb": 5}, {"herb": "mint", "on": 1}]}
    lines = {("pot", 0): 3, ("pot", 0, "volume"): 4, ("pot", 0, "sprig", 1, "on"): 12, ("pot", 0, "sprig", 0): 9}
    pot, reading = reading_of(raw, lines)
    assert pot is None
    assert [str(problem) for problem in reading.problems] == [
        'line 3: pot "red": shadow is not a key. Did you mean shade?',
        'line 3: pot "red": id is missing; write id = "blue".',
        'line 4: pot "red": volume = "2 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        'line 3: pot "red": glazed = "no" is neither yes nor no; write true or false, without quotes.',
        'line 9: pot "red", sprig 1: herb = 5 is not text; write it in quotes.',
        'line 12: pot "red", sprig 2: on is not a key. Known here: herb.',
    ]
    assert reading.problems[2].key == "pot.0.volume"


def test_a_key_that_is_like_nothing_brings_the_list_of_those_that_are_known():
    _, reading = reading_of({"id": "red", "volume": "2 L", "zzz": 1})
    assert [problem.remedy for problem in reading.problems] == ["Known here: id, volume, glazed, shade, sprig."]


@pytest.mark.parametrize("raw", ["thyme", {"herb": "thyme"}, ["thyme"]])
def test_a_repeated_table_that_is_none_is_a_fault(raw):
    pot, reading = reading_of({"id": "red", "volume": "2 L", "sprig": raw})
    assert pot is None
    assert str(reading.problems[0]) == 'pot "red": sprig is not a repeated table; write [[pot.sprig]].'


def test_a_fault_is_told_in_a_few_lines_whatever_was_written():
    _, reading = reading_of({"id": "red", "volume": "2 L", "k" * 100_000: 1})
    assert len(str(reading.problems[0])) < 500


def test_declarations_come_in_the_order_of_the_class():
    assert [name for name, _ in declared(Pot)] == ["id", "volume_l", "is_glazed", "shade", "sprigs"]


def test_a_record_is_written_key_by_key_and_what_is_absent_is_left_out():
    pot = Pot("red", 2.0, is_glazed=False, sprigs=(Sprig("thyme"),))
    assert [(mark.name, value) for mark, value in written_record(pot)] == [
        ("id", '"red"'),
        ("volume", '"2 L"'),
        ("glazed", "false"),
        ("sprig", (Sprig("thyme"),)),
    ]
