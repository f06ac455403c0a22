"""The questions of a trouble: never more than five, the most telling first, none twice."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sourloam.base.errors import BadInput
from sourloam.service.wrong import Answered, next_question
from sourloam.service.wrong_answers import read_answer
from sourloam.views.trouble import FIRST, MOST, QUESTIONS, needless


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
    given = {"trouble": trouble}
    first = [each for each in FIRST[trouble] if not needless(each, given)]
    assert names[: len(first)] == first


def test_a_smell_is_asked_before_what_grows():
    names = asked("maggots")
    assert names.index("smell") < names.index("growth") if "growth" in names else "smell" in names


def test_what_an_answer_says_decides_what_is_asked_next():
    assert asked("smells", {"smell": "rancid"}) == ["smell", "where", "days", "fed"]
    assert "where" not in asked("smells", {"smell": "pickle"})
    assert asked("maggots", {"insects": "flies"}) == ["insects", "warmth"]
    assert asked("maggots", {"insects": "many"}) == ["insects"]
    assert len(asked("full")) == 2


@pytest.mark.parametrize(
    ("name", "text", "answer"),
    [
        ("smell", "4", "rancid"),
        ("smell", "9", ""),
        ("days", "9 days", "9"),
        ("warmth", "68 F", "20 C"),
        ("warmth", "21", "21 C"),
        ("days", "two weeks ago", "14"),
        ("days", "a fortnight ago", "14"),
        ("days", "about 20 months", "609"),
        ("smell", "like baby sick", "rancid"),
        ("smell", "cheesy", "cheese"),
        ("smell", "dunno", ""),
        ("trouble", "it stinks!", "smells"),
        ("growth", "green all over", "wide"),
        ("wet", "it is swimming", "stands"),
        ("liquid", "1 pint", "0.473 L"),
        ("liquid", "none", "none"),
        ("fed", "no bran", "nobran"),
        ("insects", "it crawls", "many"),
        ("fizz", "yes", "yes"),
    ],
)
def test_an_answer_is_read_by_number_name_or_words(name, text, answer):
    assert read_answer(QUESTIONS[name], text) == answer


@pytest.mark.parametrize(
    ("name", "text"),
    [("days", "soon"), ("days", "-3"), ("days", "3000"), ("days", "nan"), ("warmth", "cold"), ("warmth", "200"),
     ("liquid", "a lot"), ("liquid", "90 L"), ("smell", "banana"), ("fed", "banana"), ("fizz", "42")],
)  # fmt: skip
def test_what_is_no_answer_is_refused_with_what_would_do(name, text):
    with pytest.raises(BadInput) as caught:
        read_answer(QUESTIONS[name], text)
    assert caught.value.problems[0].remedy


@given(st.sampled_from(sorted(QUESTIONS)), st.text(max_size=60))
def test_anything_that_is_typed_is_an_answer_or_refused(name, text):
    with suppress(BadInput):
        assert isinstance(read_answer(QUESTIONS[name], text), str)
