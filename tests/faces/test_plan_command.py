"""`sourloam plan` as a process: what it prints, what it ends with, what it writes, what it refuses."""

import json
import os
import re
import resource
import signal
import subprocess
import sys

import pytest

from sourloam import __version__
from sourloam.cli.exits import Exit
from sourloam.cli.main import STOPPED, VERBS
from tests.architecture.tree import ROOT
from tests.faces.terminal import COMMAND, alone

DEMO = ROOT / "examples" / "quillet_yard.toml"
FLAT = ROOT / "tests" / "sites" / "flat.toml"
COLUMNS = 80
LIMIT = (
    '  line 6: vessel "blue": fill_limit = "850 %" is outside 10 % to 95 %: some room must stay free for gas. '
    'If you meant 85 %, write "85 %".'
)
FAULTY = """format = 1

[[vessel]]
id = "blue"
volume = "18 kg"
fill_limit = "850 %"

[stock]
brann = "4 kg"
"""


@pytest.fixture(scope="module")
def shown():
    """Return the plan of the demonstration as text."""
    return alone("plan", DEMO, cwd=ROOT)


@pytest.fixture(scope="module")
def kept(tmp_path_factory):
    """Return the plan of the flat as JSON, and the folder in which it was kept, made on the way."""
    folder = tmp_path_factory.mktemp("kept")
    return alone("plan", FLAT, "--json", "--out", "a/plan", cwd=folder), folder / "a" / "plan"


def calm(text):
    """Whether a terminal and a pipe can carry it: short lines, and nothing that moves a cursor or sets a colour."""
    lines = text.splitlines()
    return max(map(len, lines)) <= COLUMNS and all(each.isprintable() and each == each.rstrip() for each in lines)


# Help


def test_help_names_every_verb_and_fits():
    said = alone("--help", cwd=ROOT)
    assert (said.code, said.err) == (0, "")
    assert re.findall(r"^  ([a-z]+) +[A-Z]", said.out.partition("Verbs:")[2], re.MULTILINE) == list(VERBS)
    assert calm(said.out)


@pytest.mark.parametrize("verb", VERBS)
def test_help_of_a_verb_fits_and_tells_its_exit_codes(verb):
    said = alone(verb, "--help", cwd=ROOT)
    assert (said.code, said.err) == (0, "")
    assert "Exit code" in said.out
    assert calm(said.out)


def test_the_version_is_said():
    assert alone("--version", cwd=ROOT).out.strip().endswith(__version__)


# The plan as text


def test_the_answer_stands_first_and_is_the_exit_code(shown):
    assert shown.err == ""
    title, _, answer = shown.out.splitlines()[:3]
    assert title == "Quillet Yard, 1 Mar 2027 to 28 Feb 2028"
    assert shown.code == (1 if "\nWhen scraps have nowhere to go, and why\n" in shown.out else 0)
    assert answer.startswith(("Enough", "Not enough"))


def test_every_line_of_the_plan_fits_and_is_calm(shown):
    assert calm(shown.out)


def test_the_batches_are_named_with_whole_places(shown):
    _, head, *rows = shown.out.partition("The batches")[2].partition("\n\n")[0].splitlines()
    places = {"the heap", "the soil tub", "the worm bin", "the long bed", "the wall bed", "the allotment"}
    where = {row[head.index("where") :].removesuffix(" +1") for row in rows} - {""}
    assert {"the heap", "the soil tub"} <= where <= places


def test_a_plan_is_the_same_wherever_and_however_it_is_run(shown, tmp_path):
    env = os.environ | {"PYTHONHASHSEED": "7", "NO_COLOR": "1", "TERM": "dumb", "TZ": "Pacific/Apia", "LC_ALL": "C"}
    command = [sys.executable, "-O", "-m", "sourloam", "plan", os.path.relpath(DEMO, tmp_path)]
    again = subprocess.run(command, capture_output=True, check=False, cwd=tmp_path, env=env)
    assert (again.returncode, again.stdout.decode(), again.stderr) == (shown.code, shown.out, b"")
    assert not list(tmp_path.iterdir())


def test_the_longest_names_still_fit(tmp_path):
    name = "A name that goes on and on, as names of some places do, until it is eighty long"
    id_ = "an-id-of-forty-letters-as-some-may-write"
    text = FLAT.read_text("utf-8").replace('id = "flat"', f'id = "{id_}"\nname = "{name}"')
    text = text.replace('id = "bucket"', f'id = "{id_[:-2]}"\nname = "{name[:-2]}"\ncount = 2')
    text = text.replace('id = "bin"', f'id = "bin"\nname = "{name}"').replace(
        'id = "me"', f'id = "me"\nname = "{name}"'
    )
    (tmp_path / "long.toml").write_text(text, "utf-8")
    said = alone("plan", "long.toml", cwd=tmp_path)
    assert said.code in (0, 1), said.err
    assert calm(said.out)


# The plan as JSON and as files


def test_json_is_one_object_and_nothing_else(kept):
    said, folder = kept
    held = json.loads(said.out)
    assert said.out.count("\n") == 1
    assert held["schema"] == "sourloam.plan/1"
    assert said.code == (0 if held["enough"] else 1)
    assert sorted(re.findall(r"^Written: (.+)$", said.err, re.MULTILINE)) == sorted(
        str(path.relative_to(folder.parents[1])) for path in folder.iterdir()
    )


def test_the_file_holds_what_was_printed(kept):
    said, folder = kept
    assert json.loads((folder / "plan.json").read_text("utf-8")) == json.loads(said.out)


def test_the_plan_begins_on_the_day_that_was_given(tmp_path):
    held = json.loads(alone("plan", FLAT, "--json", "--today", "2027-06-01", cwd=tmp_path).out)
    assert (held["first"], held["last"]) == ("2027-06-01", "2028-05-30")
    assert min(each["date"] for each in held["tasks"]) >= "2027-06-01"


def test_a_file_in_the_way_is_named_and_nothing_else_is_printed(tmp_path):
    (tmp_path / "plan").write_text("mine", "utf-8")
    said = alone("plan", FLAT, "--json", "--out", "plan", cwd=tmp_path)
    assert said.code == 4
    assert json.loads(said.out)["schema"] == "sourloam.error/1"
    assert "Name another folder with --out." in said.err
    assert [(each.name, each.read_text("utf-8")) for each in tmp_path.iterdir()] == [("plan", "mine")]


def test_a_write_that_fails_half_way_leaves_the_old_file(tmp_path):
    (tmp_path / "plan.json").write_text("old", "utf-8")

    def narrow():  # as a full disk: the first kilobytes go in, the rest does not
        resource.setrlimit(resource.RLIMIT_FSIZE, (4096, 4096))

    command = [*COMMAND, "plan", str(FLAT), "--out", "."]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=tmp_path, preexec_fn=narrow)
    assert done.returncode == 4, done.stderr
    assert (done.stdout, "plan.json cannot be written" in done.stderr) == ("", True)
    assert [(each.name, each.read_text("utf-8")) for each in tmp_path.iterdir()] == [("plan.json", "old")]


# Why


def test_a_figure_opens_down_to_its_sources(tmp_path):
    said = alone("plan", FLAT, "--why", "bran", cwd=tmp_path)
    assert (said.code, said.err) == (0, "")
    assert said.out.startswith("bran in the year: ")
    assert 'you wrote "two handfuls/day"' in said.out
    assert "common practice, no source" in said.out
    assert calm(said.out)


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ("ferment", '"ferment" could be ferment_days_warmest or ferment_days_coldest. Write more of its name.'),
        ("weather", '"weather" is not a figure of this answer. There are: scraps_kg_per_year, bran_kg_per_year, '),
    ],
)
def test_a_figure_that_is_not_one_is_refused_with_those_that_are(asked, sentence, tmp_path):
    said = alone("plan", FLAT, "--why", asked, "--json", cwd=tmp_path)
    (problem,) = json.loads(said.out)["problems"]
    assert said.code == 2
    assert sentence in said.told
    assert f"{problem['found']} {problem['try']}" in said.told


# Refusals


def test_every_fault_of_a_file_is_named_at_once(tmp_path):
    (tmp_path / "yard.toml").write_text(FAULTY, "utf-8")
    said = alone("plan", "yard.toml", cwd=tmp_path)
    assert (said.code, said.out) == (2, "")
    assert calm(said.err)
    head, *lines = re.sub(r"\n {4}", " ", said.err).splitlines()  # what was folded made whole
    assert head == "yard.toml: 7 faults to mend first"
    assert len(lines) == 7
    for sentence in (
        '  site: id is missing; write id = "blue".',
        '  line 5: vessel "blue": volume = "18 kg" is a mass; a volume is wanted, for example "18 L" or "4 gal".',
        LIMIT,
        "  line 9: stock: brann is not a key. Did you mean bran?",
    ):
        assert sentence in lines


def test_the_faults_are_the_same_for_a_script(tmp_path):
    (tmp_path / "yard.toml").write_text(FAULTY, "utf-8")
    said = alone("plan", "yard.toml", "--json", cwd=tmp_path)
    held = json.loads(said.out)
    assert (said.code, held["schema"]) == (2, "sourloam.problems/1")
    assert [set(each) for each in held["problems"]] == [{"file", "line", "key", "found", "try"}] * 7
    assert held["problems"][-1] == {
        "file": "yard.toml",
        "line": 9,
        "key": "stock.brann",
        "found": "stock: brann is not a key.",
        "try": "Did you mean bran?",
    }


@pytest.mark.parametrize(
    ("name", "content", "sentence"),
    [
        ("none.toml", None, "none.toml: there is no such file. Check the name,"),
        ("empty.toml", b"", "empty.toml: it is empty; begin with format = 1"),
        ("latin.toml", "# f\xfcr".encode("latin-1"), "latin.toml: byte 4 is not UTF-8; save it as UTF-8 text."),
        ("page.toml", b"<html>", "this is not TOML"),
        ("large.toml", b"#" * 1_000_001, "large.toml: it is 1.0 MB large; a site file is a page or two, 1 MB at most."),
        (".", None, "this is a folder; name the site file in it"),
    ],
)
def test_what_can_be_no_site_file_is_refused(name, content, sentence, tmp_path):
    if content is not None:
        (tmp_path / name).write_bytes(content)
    said = alone("plan", name, cwd=tmp_path)
    assert (said.code, said.out) == (2, "")
    assert sentence in said.told
    assert "Traceback" not in said.err


def test_a_name_cannot_write_to_the_terminal(tmp_path):
    (tmp_path / "red.toml").write_text('format = 1\n[site]\nid = "\\u001b[31mred"\nstart = 2027-01-04\n', "utf-8")
    said = alone("plan", "red.toml", cwd=tmp_path)
    assert said.code == 2
    assert "\x1b" not in said.err + said.out


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("plan", "x.toml", "--today", "soon"), '"soon" is not a date; write one such as 2027-03-01.'),
        (("plan",), "Missing argument 'SITE'."),
        (("plann",), "No such command 'plann'"),
    ],
)
def test_words_of_the_command_that_will_not_do_are_wrong_input_too(words, sentence):
    said = alone(*words, "--json", cwd=ROOT)
    (problem,) = json.loads(said.out)["problems"]
    assert said.code == 2
    assert sentence in problem["found"]
    assert sentence in said.err


# Stopped, and nobody listening


def test_stopped_it_says_so(tmp_path):
    os.mkfifo(tmp_path / "site.toml")
    command = [*COMMAND, "plan", "site.toml"]
    process = subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    with (tmp_path / "site.toml").open("w"):  # opens when the command has come to reading, and so is at work
        process.send_signal(signal.SIGINT)
        out, err = process.communicate()
    assert (process.returncode, out, err) == (130, "", "Stopped. Nothing was written.\n")


def test_the_code_for_stopped_is_one():
    assert STOPPED == Exit.STOPPED


def test_when_nobody_reads_it_ends_quietly(tmp_path):
    command = [*COMMAND, "plan", str(FLAT)]
    with subprocess.Popen(command, cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        process.stdout.close()
        assert process.stderr.read() == b""
