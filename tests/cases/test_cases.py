"""Every answered case holds, and moves the stated way when a number of its situation changes."""

import pytest

from tests.cases.answering import HERE, KINDS, PROGRAM, answers, cases, faults, holds, leaves, sourced, variant_faults
from tests.cases.yardstick import table

ANSWERS = answers()
VARIANTS = [(answer, variant) for answer in ANSWERS for variant in answer.variants]
SOURCE = HERE.parents[1] / "src"


@pytest.mark.parametrize("answer", ANSWERS, ids=[each.case for each in ANSWERS])
def test_the_answer_holds(answer):
    assert not (found := faults(answer)), "\n".join(found)


@pytest.mark.parametrize(
    ("answer", "variant"), VARIANTS, ids=[f"{answer.case}: {variant.words}" for answer, variant in VARIANTS]
)
def test_the_answer_follows_the_situation(answer, variant):
    assert not (found := variant_faults(answer, variant)), "\n".join(found)


def test_the_table_is_whole():
    assert len(cases()) == len({each.id for each in cases()}) == 130


@pytest.mark.parametrize("answer", ANSWERS, ids=[each.case for each in ANSWERS])
def test_an_answer_is_well_put(answer):
    assert answer.case in {each.id for each in cases()}
    assert answer.kind in KINDS
    assert answer.must
    assert len(answer.variants) >= 2
    assert all(each.moves or each.must or each.gone for each in answer.variants)
    assert answer.kind == "advice" or answer.why, "a computed answer opens the reason of a figure"


def test_no_case_has_two_answers():
    assert len({each.case for each in ANSWERS}) == len(ANSWERS)


def test_no_case_is_known_to_the_code():
    code = {path: path.read_text("utf-8") for path in SOURCE.rglob("*") if path.suffix in {".py", ".toml", ".csv"}}
    known = [f"{path.name}: {row.id}" for path, text in code.items() for row in cases() if row.id in text]
    asked = [f"{path.name}: {row.id}" for path, text in code.items() for row in cases() if row.question in text]
    assert not known + asked, "The code answers situations, it does not know them."


def test_a_case_that_is_unanswered_counts_as_such():
    answered = {ANSWERS[0].case: ANSWERS[0]}
    topic = next(each.topic for each in cases() if each.id == ANSWERS[0].case)
    counts = table(cases(), answered)
    assert sum(each["computed"] + each["advice"] for each in counts.values()) == 1
    assert counts[topic][ANSWERS[0].kind] == 1
    assert sum(each["total"] for each in counts.values()) == 130


FOUND = {"days": {"value": 14.0, "low": 10.0, "high": 21.0}, "never": None, "hints": ["Dry it."], "on": "2027-03-05"}


@pytest.mark.parametrize(
    "must",
    [
        {"path": "days.value", "from": 15, "to": 20},
        {"path": "days", "holds": 22},
        {"path": "days", "overlaps": [22, 30]},
        {"path": "days", "at_least": 15},
        {"path": "days.value", "is": 15},
        {"path": "hints", "says": "wet"},
        {"path": "on", "from": "2027-03-06", "to": "2027-03-09"},
        {"path": "nowhere.at.all", "from": 0, "to": 1},
        {"path": "never", "holds": 1},
    ],
    ids=str,
)
def test_what_is_not_there_is_missed(must):
    assert not holds(must, FOUND)


def test_a_leaf_without_a_source_is_seen():
    bare = {"name": "bare", "source": "", "typed": "", "inputs": []}
    read = {"name": "read", "source": "A book.", "typed": "", "inputs": []}
    assert [each["name"] for each in leaves({"inputs": [bare, read]}) if not sourced(each)] == ["bare"]


def test_the_public_command_is_run():
    assert PROGRAM.is_file()
