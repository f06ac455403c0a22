"""Twenty situations of the yardstick, told as far as a person would tell them, typed at the questions of `wrong`.

The questions are put by the program itself; a person answers those that they are asked, in their own words, and
presses Enter at the rest. What each answer must say is taken from what experienced people agree on.
"""

import json
import re
from dataclasses import dataclass, field

import pytest

from sourloam.cli.exits import Exit
from sourloam.service.wrong import Answered, next_question
from sourloam.service.wrong_answers import read_answer
from tests.architecture.tree import ROOT
from tests.faces.terminal import at_a_terminal

FEW = ("--members", "100", "--json")


@dataclass(frozen=True)
class Situation:
    """What somebody types where they are asked, and what the answer must say or must not."""

    told: str
    typed: dict[str, str]
    code: Exit
    says: tuple[tuple[str, str], ...]
    never: tuple[tuple[str, str], ...] = field(default=())


BURIED = ("route", r"Bury it 30 cm deep.*Never to worms")
FAILED = ("says", r"^Treat it as failed")
NOT_LOST = ("route", r".")
TWENTY = {
    "C001": Situation(
        "meat and fat in the first load, shut for three days, unbearable",
        {"trouble": "it stinks", "smell": "rotten meat, awful", "where": "everything", "days": "3", "fed": "meat"},
        Exit.NO,
        (FAILED, BURIED, ("hints", r"plant scraps.*meat and fish back.*extra dose"), ("watch.causes", r"much meat")),
    ),
    "C002": Situation(
        "fetid in spite of white fuzz; scraps had stood on the counter",
        {"trouble": "2", "growth": "white fuzz", "smell": "fetid", "days": "two weeks", "fed": "counter"},
        Exit.NO,
        (FAILED, BURIED, ("hints", r"White film or fluff says little"), ("watch.causes", r"begun to rot")),
    ),
    "C004": Situation(
        "a tap, a reek, droplets under the lid; more and more bran does nothing",
        {"trouble": "liquid", "wet": "droplets", "smell": "stinks"},
        Exit.NO,
        (("do", r"newspaper.*swap it when it is soggy"), ("do", r"Strew no more bran against the wet")),
    ),
    "C007": Situation(
        "lifted once, a little liquid below, now it stinks there",
        {"trouble": "smells", "smell": "bad eggs", "where": "juice", "days": "9"},
        Exit.NO,
        (("do", r"Empty all the liquid, however little.*rinse"), ("says", r"^Only the liquid")),
        (NOT_LOST, ("says", r"Treat it as failed")),
    ),
    "C008": Situation(
        "no bran on a large load, no tap, liquid up in the food",
        {"trouble": "juice", "wet": "it swims", "smell": "sewage", "days": "10"},
        Exit.NO,
        (FAILED, ("route", r"Bury"), ("watch.causes", r"^liquid stands in it"), ("do", r"(?i)ladle")),
    ),
    "C009": Situation(
        "looks as it went in after two weeks, smells of pickle or old wine",
        {"trouble": "looks the same", "days": "15 days", "warmth": "20 C", "smell": "pickle"},
        Exit.DONE,
        (("says", r"^Sound so far"), ("hints", r"look much as they went in")),
    ),
    "C011": Situation(
        "half full and forgotten, one blue-green spot among white, vinegar",
        {"trouble": "mould", "growth": "one blue spot", "smell": "vinegar", "days": "a month"},
        Exit.NO,
        (("says", r"at risk, not lost"), ("do", r"Lift the mould out.*do not breathe"), ("do", r"asthma"),
         ("hints", r"Bread, coffee and cardboard"), ("do", r"Press it down")),
        (NOT_LOST,),
    ),
    "C012": Situation(
        "two weeks over, and no white growth ever came",
        {"trouble": "mould", "growth": "nothing", "smell": "sour", "days": "14"},
        Exit.DONE,
        (("says", r"^Sound so far"), ("hints", r"No white growth is needed.*smell, days and acid")),
    ),
    "C014": Situation(
        "blue-green growth and a rancid smell after two weeks",
        {"trouble": "mould", "growth": "blue", "smell": "rancid", "days": "14"},
        Exit.NO,
        (FAILED, BURIED),
    ),
    "C015": Situation(
        "dark mould; which of the usual reasons",
        {"trouble": "fur", "growth": "black", "days": "14", "fed": "no bran"},
        Exit.NO,
        (FAILED, ("watch.causes", r"^too little live bran"), ("watch.causes", r"too wet"),
         ("watch.causes", r"air gets in")),
    ),
    "C016": Situation(
        "islands of blue-green mould between zones that are well soured",
        {"trouble": "mould", "growth": "blue", "smell": "pickle", "days": "3 weeks"},
        Exit.NO,
        (("says", r"^Sour in the main, mouldy in places"), ("do", r"two handfuls of bran")),
        (NOT_LOST,),
    ),
    "C018": Situation(
        "the first liquid came on day 8, under a pint, dark red-brown",
        {"trouble": "liquid", "liquid": "1 cup", "days": "8", "smell": "sour"},
        Exit.DONE,
        (("says", r"By day 8 about .* of liquid is usual.*yours is among it"),),
    ),
    "C022": Situation(
        "half a litre from a full bucket: is that usual",
        {"trouble": "tea", "liquid": "half a litre", "days": "three weeks", "smell": "soy sauce"},
        Exit.DONE,
        (("says", r"of liquid is usual.*yours is among it"),),
    ),
    "C038": Situation(
        "an outdoor set with a loose fit, full of grubs",
        {"trouble": "maggots", "insects": "it crawls"},
        Exit.NO,
        (("says", r"no ferment any more"), ("do", r"finish outdoors.*leaves"), ("do", r"mend the lid")),
    ),
    "C039": Situation(
        "the tub of soil crawled with grubs, half of it gone",
        {"trouble": "larvae", "insects": "lots"},
        Exit.NO,
        (("says", r"about 5\.0 kg of 10\.0 kg"), ("says", r"neither bite nor sting"), ("hints", r"mesh")),
    ),
    "C040": Situation(
        "vinegar flies all over the kitchen",
        {"trouble": "flies", "insects": "fruit flies", "warmth": "21"},
        Exit.NO,
        (("says", r"gone in about 1[2-4] days"), ("do", r"nothing out overnight.*fridge"), ("do", r"once a day")),
    ),
    "C062": Situation(
        "pails filled twenty months ago, shut, sour",
        {"trouble": "nothing", "days": "20 months", "warmth": "15 C", "smell": "sour"},
        Exit.DONE,
        (("says", r"^(Sound|Probably sound) so far"), ("do", r"It is ready"), ("watch.assumptions", r"year or two")),
    ),
    "C063": Situation(
        "left for two months: extra sour, liquid, white fuzz, small blue spots",
        {"trouble": "mould", "growth": "small blue specks", "smell": "sour", "days": "2 months"},
        Exit.NO,
        (("says", r"at risk, not lost"), ("hints", r"in gloves, and draw"), ("worry_if", r"sewage or ammonia")),
        (NOT_LOST,),
    ),
    "C106": Situation(
        "a mix of ferment and soil, ten days old: too sour for roots, and no strips",
        {"trouble": "planted", "days": "10", "warmth": "15 C"},
        Exit.NO,
        (("says", r"^Too early by about"), ("look_next", r"baking soda.*fizz")),
    ),
    "C107": Situation(
        "sour, fizzes, two weeks in the warm: is it done",
        {"trouble": "done", "days": "14", "warmth": "24 C", "smell": "sour"},
        Exit.DONE,
        (("says", r"^Sound so far"), ("watch.cautions", r"not sanitised")),
    ),
}  # fmt: skip


def lines_of(situation):
    """Return what a person types, a line for each question that is put to them."""
    answered, lines = Answered(), []
    while (question := next_question(answered)) is not None:
        lines.append(situation.typed.get(question.name, ""))
        answered = answered.said(question.name, read_answer(question, lines[-1]))
    return lines


def texts(held, path):
    """Return the texts at a path of the printed object."""
    for step in path.split("."):
        held = held[step]
    found = held if isinstance(held, list) else [held]
    return [each if isinstance(each, str) else f"{each['do']}: {each['because']}" for each in found]


@pytest.mark.parametrize("case", TWENTY)
def test_the_questions_help_the_person_of_a_situation(case):
    situation = TWENTY[case]
    lines = lines_of(situation)
    assert len(lines) <= 5
    done = at_a_terminal("wrong", *FEW, answers=lines, cwd=ROOT)
    assert done.code == situation.code, done.err
    held = json.loads(done.out)
    for path, pattern in situation.says:
        assert any(re.search(pattern, each) for each in texts(held, path)), (path, pattern, texts(held, path))
    for path, pattern in situation.never:
        assert not any(re.search(pattern, each) for each in texts(held, path)), (path, texts(held, path))


def test_nonsense_is_answered_with_what_would_do_and_the_question_stays_open():
    done = at_a_terminal(
        "wrong", "--members", "100", answers=["banana", "planted", "soon", "5", "cold", "12 C"], cwd=ROOT
    )
    assert done.code == Exit.NO
    assert '"banana" is none of the answers; take one of: smells, mould' in done.told
    assert '"soon" is no number of days; write one such as 9, or "two weeks".' in done.told
    assert "A cool cellar is about 12 C" in done.told
    assert done.told.count("Question 2 of at most 5") == 1
    assert done.out.startswith("Too early by about")


def test_enter_at_every_question_still_gives_an_answer():
    done = at_a_terminal("wrong", "--members", "100", answers=[""] * 5, cwd=ROOT)
    assert done.code == Exit.DONE
    assert "Nothing read yet." in done.out


def test_ctrl_d_ends_the_questions_and_what_was_said_is_answered():
    done = at_a_terminal("wrong", "--members", "100", answers=["smells", "rotten"], cwd=ROOT)
    assert done.code == Exit.NO
    assert "Treat it as failed" in done.out


def test_ctrl_d_before_anything_was_said_stops():
    done = at_a_terminal("wrong", answers=[], cwd=ROOT)
    assert done.code == Exit.STOPPED
    assert not done.out


def test_back_takes_an_answer_back():
    lines = ["frozen", "back", "planted", "90", "20 C"]
    done = at_a_terminal("wrong", "--members", "100", answers=lines, cwd=ROOT)
    assert "the soil has had its rest" in " ".join(done.out.split())
