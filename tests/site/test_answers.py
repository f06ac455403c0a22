"""From answers to a site: whatever is answered, the file reads back to the same site and says nothing that was not."""

import tomllib
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sourloam.base.fields import Fault
from sourloam.evidence.parameters import load_parameters
from sourloam.service.assemble import known_names
from sourloam.service.begin import begin, regions
from sourloam.site.answers import DIETS, PLACES, PREMISES, Answers
from sourloam.site.draft import HouseholdParameters
from sourloam.site.vessels import ROOMS
from sourloam.sitefile.first import write_draft
from sourloam.sitefile.questions import MOST, answered, keys, questions, reply
from sourloam.sitefile.read import parse_site

REGIONS = regions()
KNOWN = known_names()
START = date(2027, 3, 1)
SITE = Path("hut.toml")
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")

# What a person may type, by attribute.
TYPED = {
    "name": st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=80),
    "premises": st.sampled_from(PREMISES),
    "people": st.integers(1, 1000).map(str),
    "flow": st.sampled_from(("4 kg/week", "12 L/week", "9 lb/week", "two handfuls/day", "1,5 kg/day")),
    "diet": st.sampled_from(DIETS),
    "buckets": st.sampled_from(("18 L", "2 x 20 L", "3 of 5 gal", "12×16 L", "2,5 gal")),
    "has_drain": st.sampled_from(("yes", "no")),
    "stands": st.sampled_from(ROOMS),
    "indoors_c": st.sampled_from(("18 C", "66 F")),
    "climate": st.sampled_from((*REGIONS, "2 south", "Rome")),
    "latitude_deg": st.sampled_from(("-37 deg", "52 deg")),
    "places": st.lists(st.sampled_from(PLACES)).map(", ".join),
    "bed_m2": st.sampled_from(("6 m2", "120 sq ft")),
    "pile_l": st.sampled_from(("300 L", "1 m3")),
    "worm_m2": st.just("0.3 m2"),
    "tub_l": st.just("15 gal"),
    "fridge_l": st.sampled_from(("0", "none", "5 L")),
    "freezer_l": st.sampled_from(("0", "8 L")),
    "bran_from": st.sampled_from(("made", "bought")),
    "bran_kg": st.sampled_from(("0", "2 lb", "500 g")),
    "days": st.lists(st.sampled_from(DAYS), min_size=1).map(", ".join),
}


@st.composite
def typed_answers(draw):
    chosen = draw(st.lists(st.sampled_from(tuple(TYPED)), unique=True))
    answers = Answers()
    for attribute in chosen:
        answers = answered(answers, attribute, draw(TYPED[attribute]), REGIONS)
    return answers


def drafted(answers):
    return begin(answers, SITE, START)


def read(draft):
    return parse_site(write_draft(draft), SITE.name, KNOWN)


def said(**typed):
    answers = Answers()
    for attribute, text in typed.items():
        answers = answered(answers, attribute, text, REGIONS)
    return answers


def test_everything_that_can_be_answered_is_tried_here():
    assert set(TYPED) == set(keys())


@settings(max_examples=60)
@given(typed_answers())
def test_the_file_reads_back_to_the_same_site(answers):
    draft = drafted(answers)
    assert read(draft).site == draft.site


@settings(max_examples=60)
@given(typed_answers())
def test_the_file_says_what_was_said_and_nothing_else(answers):
    draft = drafted(answers)
    raw = tomllib.loads(write_draft(draft))
    assert {(part, key) for part, table in tables(raw) for key in table} == draft.said


def tables(raw):
    for name, held in raw.items():
        if isinstance(held, dict):
            yield name, held
        elif isinstance(held, list):
            yield from ((each["id"], each) for each in held)


@pytest.mark.parametrize("typed", [{}, {"people": "3"}, {"buckets": "18 L"}], ids=str)
def test_what_was_not_said_is_an_assumption_of_the_plan(typed):
    assumed = {each.says for each in read(drafted(said(**typed))).assumptions}
    assert {"It stands in the kitchen.", "Bran is made at home.", "The kitchen is at 20 °C all year."} <= assumed


def test_what_was_said_is_no_assumption_even_where_it_is_the_default():
    draft = drafted(said(stands="kitchen", bran_from="made", indoors_c="20 C"))
    assumed = {each.says for each in read(draft).assumptions}
    assert not {"It stands in the kitchen.", "Bran is made at home.", "The kitchen is at 20 °C all year."} & assumed


@given(st.sampled_from(PREMISES), st.integers(1, 499))
def test_twice_the_people_bring_twice_as_much(premises, people):
    one, two = (
        drafted(Answers(people=count, premises=premises)).site.streams[0].flow.per_day for count in (people, 2 * people)
    )
    assert two == pytest.approx(2.0 * one, rel=0.1)  # both are rounded to two digits


def test_an_amount_that_was_weighed_goes_before_the_people():
    draft = drafted(said(people="6", flow="18.36 kg/week"))
    assert draft.site.streams[0].flow.per_day == pytest.approx(18.36 / 7.0)
    assert ("scraps", "amount") not in draft.notes


def test_the_amount_of_so_many_people_is_said_to_be_a_judgement():
    draft = drafted(said(people="4"))
    assert "4 people at 0.35 kg each a day" in draft.notes["scraps", "amount"]
    assert "a judgement" in draft.notes["scraps", "amount"]


def test_where_no_place_is_named_the_waste_bin_is_written():
    assert [each.kind for each in drafted(Answers()).site.takers] == ["waste-bin"]
    assert drafted(said(places="neighbour")).site.takers[0].kind == "neighbour"


@pytest.mark.parametrize(
    ("typed", "part"),
    [({"bed_m2": "6 m2"}, "bed"), ({"pile_l": "300 L"}, "pile"), ({"worm_m2": "0.3 m2"}, "worm_bin")],
    ids=str,
)
def test_a_place_whose_size_was_said_is_there(typed, part):
    site = drafted(said(**typed)).site
    assert len(site.parts()[part]) == 1
    assert not site.takers


def test_plants_only_make_the_whole():
    household = load_parameters(HouseholdParameters, "household")
    assert sum(share for _, share in household.plants) == pytest.approx(1.0)


def test_south_of_the_equator_the_latitude_is_negative():
    draft = drafted(said(climate="mild-maritime south"))
    assert draft.site.facts.latitude_deg == -REGIONS["mild-maritime"].latitude_deg
    assert draft.site.facts.climate == "mild-maritime"


def test_a_climate_brings_the_latitude_of_its_like_and_says_so():
    draft = drafted(said(climate="boreal"))
    assert draft.site.facts.latitude_deg == REGIONS["boreal"].latitude_deg
    assert "Saint Petersburg" in draft.notes["site", "latitude"]


def test_never_more_than_a_dozen_questions_are_asked():
    paths = [
        Answers(places=places, bran_from=bran_from)
        for places in (None, (), ("bed", "pile"))
        for bran_from in (None, "made", "bought")
    ]
    counts = [sum(each.is_asked(path) for each in questions(REGIONS)) for path in paths]
    assert max(counts) == MOST == 12


@pytest.mark.parametrize("question", questions(REGIONS), ids=lambda each: each.words)
def test_every_question_has_an_option_and_can_be_left_open(question):
    assert set(question.attributes) <= keys().keys()
    for unknown in ("", "?", "I don't know", "I don’t know", str(len(question.labels) + 1) if question.labels else ""):
        assert reply(Answers(), question, unknown, REGIONS) == Answers()


@pytest.mark.parametrize("question", [each for each in questions(REGIONS) if each.labels], ids=lambda each: each.words)
def test_a_choice_may_be_named_by_its_number_its_name_or_its_words(question):
    for number, (name, label) in enumerate(question.labels, start=1):
        by_number, by_name, by_label = (
            reply(Answers(), question, text, REGIONS) for text in (str(number), name, label)
        )
        assert by_number == by_name == by_label != Answers()


@pytest.mark.parametrize(
    ("attribute", "text", "sentence"),
    [
        ("buckets", "61 x 20 L", "61 buckets will not do; write a number from 1 to 60."),
        ("buckets", "2 x 300 L", '"300 L" is outside 1 L to 250 L'),
        ("buckets", "big", '"big" holds no number;'),
        ("buckets", "2", '"2" has no unit;'),
        ("people", "some", '"some" will not do; write a whole number from 1 to 1000.'),
        ("flow", "4 kg", '"4 kg" is a mass;'),
        ("has_drain", "perhaps", '"perhaps" is neither yes nor no; write yes or no.'),
        ("stands", "moon", '"moon" is not one of kitchen, indoors, cellar, shed, outdoors.'),
        ("days", "sat, someday", '"someday" is not one of mon'),
        ("climate", "martian", '"martian" is not a climate that is known.'),
        ("bed_m2", "0", '"0" has no unit;'),
    ],
)
def test_a_wrong_answer_is_refused_with_its_sentence(attribute, text, sentence):
    with pytest.raises(Fault) as caught:
        answered(Answers(), attribute, text, REGIONS)
    assert f"{caught.value.found} {caught.value.remedy}".startswith(sentence)


def test_a_second_answer_replaces_the_first_with_all_that_was_typed():
    answers = answered(said(bed_m2="60 sq ft"), "bed_m2", "7 m2", REGIONS)
    assert answers.typed == (("bed_m2", "7 m2"),)
    assert replace(answers, typed=()).bed_m2 == 7.0
