"""`sourloam new` as a process: questions at a terminal, options without one, and what it refuses."""

import json
import re
import tomllib

import pytest
import vobject

from sourloam.sitefile.questions import MOST
from tests.faces.terminal import alone, at_a_terminal

START = ("--today", "2027-03-01")

# Three people who have never seen the tool, as they would answer, a line each; the second line of the flat to
# "What comes?" follows a refusal.
PEOPLE = {
    "flat": ("1", "2", "everything", "1", "12 L", "no", "kitchen", "2", "soil-tub", "4 L", "2", "500 g"),
    "family": (
        "home",
        "5 people",
        "",
        "3 x 5 gal",
        "?",
        "4",
        "Montréal",
        "1, 2",
        "120 sq ft",
        "20 L",
        "I make it",
        "2, 6",
    ),
    "school": (
        "school",
        "25 L/week",
        "2",
        "4 x 20 L",
        "yes",
        "3",
        "continental",
        "shared-garden",
        "0",
        "1",
        "I don't know",
    ),
}


@pytest.fixture(scope="module", params=PEOPLE)
def person(request, tmp_path_factory):
    """Let somebody answer, and return their name, what was said, and the folder in which all of it lies."""
    folder = tmp_path_factory.mktemp(request.param)
    asked = ("new", f"{request.param}.toml", "--json", "--out", "plan", *START)
    return request.param, at_a_terminal(*asked, answers=PEOPLE[request.param], cwd=folder), folder


def test_somebody_new_gets_from_questions_to_a_plan(person):
    name, said, _ = person
    held = json.loads(said.out)
    assert said.code == (0 if held["plan"]["enough"] else 1), said.err
    assert (held["schema"], held["file"]) == ("sourloam.new/1", f"{name}.toml")
    assert len(re.findall(r"^\d+\. ", said.err, re.MULTILINE)) <= MOST == 12
    assert held["plan"]["batches"]


def test_the_file_that_was_written_gives_the_same_plan(person):
    name, said, folder = person
    again = alone("plan", f"{name}.toml", "--json", cwd=folder)
    assert json.loads(again.out) == json.loads(said.out)["plan"]


def test_the_calendar_of_somebody_new_holds_their_tasks(person):
    _, said, folder = person
    calendar = vobject.readOne((folder / "plan" / "plan.ics").read_text("utf-8"))
    tasks = json.loads(said.out)["plan"]["tasks"]
    assert sorted(each.summary.value for each in calendar.vevent_list) == sorted(each["what"] for each in tasks)


@pytest.mark.parametrize("person", ["flat"], indirect=True)
def test_the_flat_is_as_it_was_said(person):
    _, said, folder = person
    site = tomllib.loads((folder / "flat.toml").read_text("utf-8"))
    assert '"everything" is not one of all, plants.' in said.err
    assert site["vessel"] == [
        {"id": "bucket", "name": "the bucket", "volume": "12 L", "drain": False, "stands": "kitchen"}
    ]
    assert site["stock"] == {"bran": "500 g", "bran_from": "bought"}
    assert [each["id"] for each in site["soil_tub"]] == ["tub"]
    assert "taker" not in site


@pytest.mark.parametrize("person", ["family"], indirect=True)
def test_what_the_family_did_not_know_is_an_assumption_of_the_plan(person):
    _, said, folder = person
    site = tomllib.loads((folder / "family.toml").read_text("utf-8"))
    held = json.loads(said.out)
    assert [each["volume"] for each in site["vessel"]] == ["5 gal"] * 3
    assert (site["bed"][0]["area"], site["site"]["climate"], site["keeper"]["days"]) == (
        "120 sq ft",
        "continental-cold",
        ["tue", "sat"],
    )
    assert not any("drain" in each for each in site["vessel"])
    assert any("It has a tap" in each for each in held["plan"]["assumptions"])
    assert any(each["key"] == "amount" and "5 people" in each["says"] for each in held["taken"])


@pytest.mark.parametrize("person", ["school"], indirect=True)
def test_a_school_has_five_days_a_week(person):
    _, _, folder = person
    site = tomllib.loads((folder / "school.toml").read_text("utf-8"))
    (stream,) = site["stream"]
    assert (stream["premises"], stream["amount"]) == ("school", "25 L/week")
    assert stream["weekdays"] == [1.0] * 5 + [0.0] * 2
    assert site["keeper"]["days"] == ["mon", "tue", "wed", "thu", "fri"]


def test_options_do_without_questions(tmp_path):
    said = alone("new", "hut.toml", "--people", "2", "--bucket", "18 L", "--yes", *START, cwd=tmp_path)
    assert said.code in (0, 1)
    assert said.err == ""
    assert "hut, 1 Mar 2027 to 28 Feb 2028" in said.out
    assert "Your site stands in hut.toml." in said.out
    assert "sourloam plan hut.toml --out plan" in said.out


def test_two_runs_on_the_same_day_write_the_same_bytes(tmp_path):
    for folder in ("one", "two"):
        alone("new", f"{folder}/site.toml", "--yes", "--out", folder, *START, cwd=tmp_path)
    one, two = (
        {path.name: path.read_bytes() for path in sorted((tmp_path / folder).iterdir())} for folder in ("one", "two")
    )
    assert {"site.toml", "plan.json", "plan.html", "plan.ics"} <= one.keys()
    assert one == two


def test_what_an_option_says_is_not_asked(tmp_path):
    said = at_a_terminal("new", "--people", "3", *START, answers=("1",), cwd=tmp_path, stop=True)
    assert "2. What comes?" in said.err
    assert "How many people" not in said.err


def test_a_file_that_is_there_is_left_as_it_is(tmp_path):
    (tmp_path / "site.toml").write_text("mine", "utf-8")
    said = alone("new", "--yes", cwd=tmp_path)
    assert (said.code, (tmp_path / "site.toml").read_text("utf-8")) == (2, "mine")
    assert "site.toml: this file is there already" in said.err
    assert "--overwrite" in said.err
    assert alone("new", "--yes", "--overwrite", *START, cwd=tmp_path).code in (0, 1)
    assert "format = 1" in (tmp_path / "site.toml").read_text("utf-8")


def test_a_folder_is_no_file(tmp_path):
    said = alone("new", ".", "--yes", cwd=tmp_path)
    assert said.code == 2
    assert "this is a folder; name a file in it: site.toml" in said.err


def test_without_a_terminal_it_says_what_to_do(tmp_path):
    said = alone("new", cwd=tmp_path)
    assert said.code == 2
    assert "there is no terminal on which to ask; say --yes" in said.err
    assert not list(tmp_path.iterdir())


def test_wrong_options_are_all_named_and_nothing_is_written(tmp_path):
    said = alone("new", "--yes", "--people", "0", "--bucket", "18 kg", "--climate", "moon", cwd=tmp_path)
    assert said.code == 2
    for sentence in (
        "--people: 0 will not do; write a whole number from 1 to 1000.",
        '--bucket: "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        '--climate: "moon" is not a climate that is known.',
    ):
        assert sentence in said.told
    assert not list(tmp_path.iterdir())


def test_stopped_at_a_question_it_has_written_nothing(tmp_path):
    said = at_a_terminal("new", answers=("1", "2"), cwd=tmp_path, stop=True)
    assert said.code == 130
    assert "Stopped. Nothing was written." in said.err
    assert not list(tmp_path.iterdir())


def test_back_takes_an_answer_back(tmp_path):
    answers = ("school", "back", "home", *("",) * MOST)
    said = at_a_terminal("new", *START, answers=answers, cwd=tmp_path)
    assert said.code in (0, 1), said.err
    assert tomllib.loads((tmp_path / "site.toml").read_text("utf-8"))["stream"][0]["premises"] == "home"


def test_nothing_but_enter_is_a_site_too(tmp_path):
    said = at_a_terminal("new", *START, answers=("",) * MOST, cwd=tmp_path)
    site = tomllib.loads((tmp_path / "site.toml").read_text("utf-8"))
    assert said.code in (0, 1), said.err
    assert site["taker"] == [{"id": "bin", "kind": "waste-bin", "name": "the waste bin"}]
    assert "Taken: 2 people" in said.out
