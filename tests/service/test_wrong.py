"""The questions of a trouble: never more than five, the most telling first, none twice."""

import pytest

from sourloam.service.wrong import Answered, next_question, read_answer
from sourloam.views.trouble import FIRST, MOST, QUESTIONS


def asked(trouble, answers=()):
    told, names = Answered({"trouble": trouble}), []
    while (question := next_question(told)) is not None:
        names.append(question.name)
        told = told.said(question.name, dict(answers).get(question.name, ""))
    return names


@pytest.mark.parametrize("trouble", FIRST)
def test_no_trouble_asks_more_than_five_and_none_twice(trouble):
    names = asked(trouble)
    assert 1 + len(names) <= MOST
    assert len(names) == len(set(names))
    assert names[: len(FIRST[trouble])] == list(FIRST[trouble])


def test_a_smell_is_asked_before_what_grows():
    names = asked("maggots")
    assert names.index("smell") < names.index("growth") if "growth" in names else "smell" in names


def test_what_an_answer_says_decides_what_is_asked_next():
    assert asked("smells", {"smell": "rancid"})[:2] == asked("smells", {"smell": "pickle"})[:2]
    assert len(asked("full")) == 2


@pytest.mark.parametrize(
    ("name", "text", "answer"),
    [
        ("smell", "4", "rancid"),
        ("smell", "9", ""),
        ("days", "9 days", "9"),
        ("warmth", "68 F", "20 C"),
        ("fizz", "yes", "yes"),
    ],
)
def test_an_answer_is_read_by_number_name_or_words(name, text, answer):
    assert read_answer(QUESTIONS[name], text) == answer
