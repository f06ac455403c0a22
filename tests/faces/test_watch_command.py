"""`sourloam watch` and `sourloam wrong` as processes: what they print, end with and refuse."""

import json

import pytest

from sourloam.cli.exits import Exit
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import calm

FEW = ("--members", "100")
STATES = {"sound", "yeasty", "putrid", "mouldy", "stuck", "drowned"}


def watched(*readings, verb="watch"):
    words = [part for each in readings for part in ("--reading", each)]
    done = alone(verb, *words, *FEW, "--json", cwd=ROOT)
    return done.code, json.loads(done.out)


def test_without_a_batch_a_smell_is_enough_and_what_was_taken_is_said():
    code, held = watched("day 9 smell pickle")
    assert code == Exit.DONE
    assert held["schema"] == "sourloam.watch/1"
    assert {each["state"] for each in held["diagnosis"]} == STATES
    assert sum(held["twenty"].values()) == 20
    assert held["do"]
    assert held["worry_if"]
    assert held["figures"]["ready_day"]["value"] > 0.0
    assert any("mixed household scraps" in each for each in held["assumptions"])


def test_rot_is_treated_as_failed_with_a_way_out_and_a_contradiction_is_said():
    code, held = watched("day 9 smell rotten", "day 9 strip 3.8 core")
    assert code == Exit.NO
    assert not held["sound"]
    assert "Never to worms" in held["route"]
    assert "do not go together" in held["contradictions"][0]


def test_the_text_is_calm_and_says_the_answer_first():
    done = alone("watch", "--reading", "day 9 growth white", *FEW, cwd=ROOT)
    assert done.code == Exit.DONE
    assert done.out.startswith("This load, day 9: ")
    assert calm(done.out)


def test_every_fault_is_named_at_once():
    done = alone("watch", "--reading", "day 9 pH 15", "--reading", "day 9 smell banana", cwd=ROOT)
    assert done.code == Exit.INPUT
    assert "pH 15 cannot be" in done.err
    assert "banana" in done.err


def test_a_chance_opens_to_the_table_of_signs():
    done = alone("watch", "--reading", "day 9 smell rancid", *FEW, "--why", "chance_putrid", cwd=ROOT)
    assert done.code == Exit.DONE
    assert "rotten vessels that show it" in done.out


def test_a_drawing_is_written(tmp_path):
    file = tmp_path / "it.svg"
    done = alone("watch", "--reading", "day 9 strip 4.1", *FEW, "--plot", str(file), cwd=ROOT)
    assert done.code == Exit.DONE
    text = file.read_text("utf-8")
    assert "Of 20 vessels that read like yours" in text.replace("\n", " ")
    assert "4.1" in text


def test_what_a_site_has_seen_moves_the_chances_and_a_sign_that_is_none_is_named(tmp_path):
    site = tmp_path / "yard.toml"
    text = (ROOT / "tests" / "sites" / "flat.toml").read_text("utf-8")

    def sound(signs):
        site.write_text(f"{text}\n[past]\nbatches = 60\nsigns = {signs}\n", encoding="utf-8")
        return alone("watch", "--site", str(site), "--reading", "day 14 growth blue", *FEW, "--json", cwd=ROOT)

    chances = []
    for signs in ("[]", '["growth blue in 50 of 60 sound"]'):
        held = json.loads(sound(signs).out)
        chances.append(next(each["chance"]["value"] for each in held["diagnosis"] if each["state"] == "sound"))
    assert chances[1] > chances[0] + 0.2
    refused = sound('["growth tartan in 1 of 2 sound"]')
    assert refused.code == Exit.INPUT
    assert "tartan" in refused.err


def test_a_vessel_that_stood_for_two_years_is_taken_as_it_was_when_it_was_last_known():
    code, held = watched("day 600 smell pickle")
    assert code == Exit.DONE
    assert any("taken to stay as it is" in each for each in held["assumptions"])


def test_rancid_is_not_left_shut():
    code, held = watched("day 14 smell rancid")
    assert code == Exit.NO
    assert held["heading"].startswith("Treat it as failed, unless only the liquid smells so")
    assert "Bury it" in held["route"]


@pytest.mark.parametrize(
    ("answers", "says"),
    [
        (("--trouble", "full", "--days", "10"), "oldest vessel"),
        (("--trouble", "frozen"), "what is frozen waits"),
        (("--trouble", "planted", "--days", "5", "--warmth", "12 C"), "Too early by about"),
        (("--trouble", "smells", "--smell", "rotten"), "Treat it as failed"),
    ],
)
def test_a_trouble_is_answered_from_options_alone(answers, says):
    done = alone("wrong", "--yes", *answers, *FEW, "--json", cwd=ROOT)
    assert done.code in (Exit.DONE, Exit.NO)
    held = json.loads(done.out)
    assert says in held["says"]
    assert held["do"]


def test_answers_that_are_none_are_refused_together_and_nobody_is_asked_without_a_terminal():
    done = alone("wrong", "--yes", "--smell", "banana", "--days", "x", cwd=ROOT)
    assert done.code == Exit.INPUT
    assert "banana" in done.err
    assert "no number of days" in done.err
    assert alone("wrong", cwd=ROOT).code == Exit.INPUT
