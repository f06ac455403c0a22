"""The logbook as a keeper uses it: write, look, take back, check, move; each verb as a process."""

import json
import os
import sqlite3
import subprocess

import pytest

from tests.architecture.tree import ROOT
from tests.faces.terminal import COMMAND, Said

YARD = ROOT / "examples" / "quillet_yard.toml"


@pytest.fixture
def run(tmp_path):
    env = os.environ | {"SOURLOAM_BOOK": str(tmp_path / "book.sourloam")}

    def go(*words):
        command = [*COMMAND, *map(str, words)]
        done = subprocess.run(
            command, capture_output=True, text=True, check=False, env=env, cwd=tmp_path, stdin=subprocess.DEVNULL
        )
        return Said(done.returncode, done.stdout, done.stderr)

    go("import", YARD, "--on", "2027-03-01")
    return go


def test_a_week_is_written_down_and_today_follows_from_it(run):
    kept = run("log", "--on", "2027-03-02", "blue 1.5 kg peelings, some chicken, 2 handfuls")
    assert kept.code == 0
    assert "Blue 1: 1.5 kg vegetable scraps and 100 g cooked chicken, 56 g bran." in kept.out
    assert run("log", "--on", "2027-03-05", "blue-1 sealed").code == 0
    told = json.loads(run("today", "--today", "2027-03-20", "--json").out)
    assert {each["id"]: each["phase"] for each in told["vessels"]}["blue-1"] == "fermenting"
    assert "fill:blue-2/1" in [each["id"] for each in told["now"]]
    plan = json.loads(run("plan", "quillet-yard", "--today", "2027-03-20", "--json").out)
    assert "blue-1/1" in [each["id"] for each in plan["batches"]]
    assert next(each for each in plan["batches"] if each["id"] == "blue-1/1")["sealed"] == "2027-03-05"


def test_what_cannot_be_is_refused_and_nothing_is_kept(run):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    run("log", "--on", "2027-03-03", "blue-1 sealed")
    refused = run("log", "--on", "2027-03-04", "blue-1 1 kg bread")
    assert refused.code == 2
    assert 'Blue 1 is sealed since 2027-03-03; Blue 2 is empty; to fill it further, write "blue-1 unsealed"' in (
        refused.told
    )
    assert len(json.loads(run("history", "--json").out)["entries"]) == 3


def test_undo_takes_back_and_history_still_shows_it(run):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    undone = run("undo")
    assert "taken back: Blue 1: 1.0 kg bread" in undone.out
    entries = json.loads(run("history", "--json").out)["entries"]
    assert [each["withdrawn"] for each in entries] == [False, True, False]


def test_an_id_that_is_sent_twice_is_kept_once(run):
    words = ("log", "--on", "2027-03-02", "--id", "phone-7", "blue-1 1 kg bread", "--json")
    first, again = (json.loads(run(*words).out) for _ in range(2))
    assert (first["new"], again["new"]) == (True, False)
    assert first["entry"]["id"] == again["entry"]["id"] == "phone-7"


def test_a_changed_line_is_found(run, tmp_path):
    assert run("verify").code == 0
    with sqlite3.connect(tmp_path / "book.sourloam") as connection:
        connection.execute("UPDATE entry SET text = replace(text, 'Quillet', 'Quilled')")
    connection.close()
    found = run("verify")
    assert found.code == 1
    assert "line 1 is not as it was first written" in found.out


def test_the_lines_moved_elsewhere_are_the_same_book(run, tmp_path):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    run("export", "--to", tmp_path / "lines.jsonl")
    other = tmp_path / "other.sourloam"
    assert run("import", tmp_path / "lines.jsonl", "--book", other).code == 0
    assert run("export", "--book", other).out == (tmp_path / "lines.jsonl").read_text("utf-8")
    assert run("verify", "--book", other).code == 0


def test_a_script_gives_kind_and_fields(run):
    value = '{"vessel": "blue-1", "parts": {"vegetable-scraps": "1.5 kg"}, "bran": "60 g"}'
    kept = json.loads(run("log", "--kind", "layer_added", "--value", value, "--on", "2027-03-02", "--json").out)
    assert kept["entry"]["value"]["parts"] == [["vegetable-scraps", 1.5]]
    bad = run("log", "--kind", "layer_added", "--value", '{"vessel": "blue-1", "parts": {"bread": "two"}}')
    assert bad.code == 2


def test_a_vessel_that_was_begun_today_is_not_to_be_begun(run):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    told = json.loads(run("today", "--today", "2027-03-02", "--json").out)
    assert "fill:blue-1/1" not in [each["id"] for each in (*told["now"], *told["next"])]


def test_status_shows_shelf_cupboard_and_ground(run):
    run("log", "--on", "2027-03-02", "blue-1 2 kg bread, 100 g bran")
    run("log", "--on", "2027-03-05", "blue-1 sealed")
    run("log", "--on", "2027-03-30", "blue-1 to long-bed")
    run("log", "--on", "2027-03-31", "green-1 1 kg bread")
    told = json.loads(run("status", "--today", "2027-04-01", "--json").out)
    assert {each["id"]: each["phase"] for each in told["shelf"]}["green-1"] == "filling"
    assert next(each for each in told["ground"] if each["id"] == "long-bed")["mass_kg"] == pytest.approx(2.1)
    assert told["batches"] == {"ended": 1, "failed": 0}
    text = run("status", "--today", "2027-04-01").out
    assert "1 of 4 vessels in use" in text
    assert max(map(len, text.splitlines())) <= 80


def test_a_site_of_the_logbook_stands_wherever_a_command_takes_one(run, tmp_path):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    assert run("mix", "--site", "quillet-yard").code in (0, 1)
    book = ("--book", tmp_path / "book.sourloam")
    followed = json.loads(run("ferment", "blue-1/1", *book, "--members", 20, "--days", 10, "--json").out)
    assert (followed["name"], followed["first"]) == ("Blue 1, blue-1/1", "2027-03-02")
    lost = run("mix", "--site", "nowhere")
    assert lost.code == 2
    assert '"nowhere" is no file, and no site of the logbook' in lost.told


def test_forecasts_are_kept_and_shown_today_with_their_age(run):
    run("log", "--on", "2027-03-02", "blue-1 2 kg peelings, 200 g bread")
    run("log", "--on", "2027-03-05", "blue-1 sealed")
    made = json.loads(run("forecast", "--today", "2027-03-10", "--json").out)
    assert made["new"] == ["blue-1/1"]
    assert json.loads(run("forecast", "--today", "2027-03-10", "--json").out)["new"] == []
    told = json.loads(run("today", "--today", "2027-03-10", "--json").out)
    assert [(each["batch"], each["age"], each["current"]) for each in told["forecasts"]] == [
        ("blue-1/1", "just made", True)
    ]


def test_a_copy_of_the_logbook_makes_the_same_one(run, tmp_path):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    assert run("backup", tmp_path / "copy.zip").code == 0
    other = ("--book", tmp_path / "other.sourloam")
    assert run("restore", tmp_path / "copy.zip", *other).code == 0
    assert run("export", *other).out == run("export").out
    assert run("backup", tmp_path / "copy.zip").code == 2


def test_a_table_of_past_records_is_shown_then_kept(run, tmp_path):
    table = tmp_path / "past.csv"
    table.write_text("day,bucket,kg,what\n2027-03-02,blue-1,1.5,bread\n2027-03-02,red,1,bread\n", "utf-8")
    shown = run("import", table)
    assert (shown.code, len(json.loads(run("history", "--json").out)["entries"])) == (1, 1)
    assert "amount, in kg" in shown.out
    kept = json.loads(run("import", table, "--yes", "--rest", "--json").out)
    assert (kept["new"], [each["row"] for each in kept["refused"]]) == (1, [3])
    assert json.loads(run("import", table, "--yes", "--rest", "--json").out)["known"] == 1


def test_a_table_goes_out_with_its_description_and_comes_in_again(run, tmp_path):
    run("log", "--on", "2027-03-02", "blue-1 1 kg bread")
    assert run("export", "--to", tmp_path / "all.csv").code == 0
    assert json.loads((tmp_path / "all.datapackage.json").read_text("utf-8"))["resources"][0]["path"] == "all.csv"
    other = ("--book", tmp_path / "other.sourloam")
    assert run("import", tmp_path / "all.csv", *other).code == 0
    assert run("export", *other).out == run("export").out


def test_what_the_record_says_of_the_site_is_offered_and_not_taken(run):
    for day in range(1, 16):
        run("log", "--on", f"2027-03-{day:02}", "blue-1 200 g bread, 10 g bran")
    told = json.loads(run("learned", "--json").out)["values"]
    assert told["week_kg"]["seen"] == 2
    assert told["week_kg"]["site"]["value"] < told["week_kg"]["usual"]["value"]
    assert told["failing_share"]["site"] == told["failing_share"]["usual"]
    text = run("learned").out
    assert "Less than usual: scraps in a week." in text
    assert max(map(len, text.splitlines())) <= 80
    assert run("learned", "--why", "week").code == 0
