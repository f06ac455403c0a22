"""`sourloam ferment` as a process: from a file, from amounts, from a site; what it prints, ends with and refuses."""

import json
import os
import pty
import signal
import subprocess

import pytest

from sourloam.cli.exits import Exit
from tests.architecture.tree import ROOT
from tests.faces.terminal import COMMAND, alone
from tests.faces.test_plan_command import COLUMNS, calm

BATCH = ROOT / "examples" / "batch.toml"
SITE = ROOT / "examples" / "quillet_yard.toml"
FEW = ("--members", "20")
FIGURES = {
    *("soured_day", "ready_day", "due_day", "hold_day", "chance_not_ready", "final_ph", "leachate_l"),
    *("leachate_ec_ds_m", "leachate_nitrogen_g_per_l", "leachate_potassium_g_per_l"),
    *("leachate_forage_l", "sinks_cm", "dry_matter_loss_pct", "nitrogen_loss_pct", "lactic_g_per_kg", "gas_l"),
}


def fermented(*arguments):
    return alone("ferment", *arguments, *FEW, cwd=ROOT)


def told(*arguments):
    done = fermented(*arguments, "--json")
    return done.code, json.loads(done.out)


def test_the_example_in_words_says_first_when_and_fits_a_terminal():
    done = fermented(BATCH)
    assert done.code in (Exit.DONE, Exit.NO)
    assert done.out.startswith("Blue 1: ")
    assert calm(done.out)
    blocks = [block.partition("\n")[0] for block in done.out.split("\n\n")]
    wanted = ["Days after the last layer", "What may go wrong", "While it ferments", "With care", "In numbers"]
    places = [next(at for at, line in enumerate(blocks) if line.startswith(each)) for each in wanted]
    assert places == sorted(places)


def test_the_example_for_scripts():
    code, held = told(BATCH)
    assert (held["schema"], held["first"], held["last_layer_day"]) == ("sourloam.ferment/1", "2027-03-01", 12.0)
    assert held["figures"].keys() == FIGURES
    assert len(held["layers"]) == 10
    chance = held["figures"]["chance_not_ready"]
    assert 0.0 <= chance["low"] <= chance["value"] <= chance["high"] <= 1.0
    assert code in (Exit.DONE, Exit.NO)


def test_amounts_are_laid_in_at_once_and_what_was_taken_is_said():
    _, held = told("3 kg vegetable peelings", "200 g bread", "--at", "68 F", "--days", "21")
    assert any("laid in at once" in each for each in held["assumptions"])
    assert any("--no-drain" in each for each in held["assumptions"])
    assert held["course"]["day"][-1] == 21
    assert held["first"] is None


def test_a_filling_of_the_plan_stands_as_warm_as_its_place():
    _, held = told("green-1/1", "--site", SITE)
    assert held["name"].endswith("green-1/1")
    assert held["first"].startswith("2027-03")
    assert "on average" in held["because"]  # a shed follows the year
    assert any("usual week" in each for each in held["assumptions"])


def test_colder_is_later():
    amounts = ("3 kg vegetable peelings", "--at")
    warm, cold = (told(*amounts, each)[1] for each in ("20 C", "8 C"))
    assert cold["figures"]["soured_day"]["value"] > warm["figures"]["soured_day"]["value"]


def test_a_figure_opens_to_what_moves_it():
    done = fermented(BATCH, "--why", "ready")
    assert "days from the last layer until it keeps" in done.out
    assert "the vessel, followed layer by layer" in done.out
    assert max(map(len, done.out.splitlines())) <= COLUMNS


def test_it_is_drawn_as_one_file(tmp_path):
    done = fermented(BATCH, "--plot", tmp_path / "blue.svg")
    assert (tmp_path / "blue.svg").read_text("utf-8").startswith("<svg ")
    assert f"Written: {tmp_path / 'blue.svg'}" in done.out


def test_us_kitchens_are_told_in_their_units():
    done = fermented("6 lb vegetable peelings", "--at", "60 F", "--units", "us")
    assert "°F" in done.out
    assert "°C" not in done.out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ([], "BATCH: there are 0 names; name one batch file"),
        (["no.toml"], "no.toml: there is no such file."),
        (["2 kg bread", "1 kg peel"], "there are 2 names;"),
        (["blue-9/1", "--site", SITE], 'BATCH: "blue-9/1" is no batch of the plan. There are: blue-1/1'),
        (["2 kg bread", "--at", "160 C"], '--at: "160 C" is outside -30 C to 60 C'),
        (["2 kg bread", "--at", "warm"], "--at: "),
        (["2 kg frobs", "--at", "16 C"], '"frobs" is not a known material.'),
        (["2 kg bread"], 'BATCH: "2 kg bread" is an amount; say how warm it stands: --at "16 C".'),
        (["-2 kg bread", "--at", "16 C"], 'amounts: "-2 kg bread" is no amount'),
        ([BATCH, "--plot", "blue.png"], '--plot: "blue.png" does not end in .svg; name an SVG file.'),
        (["2 kg plastic", "--at", "16 C"], "plastic does not go in"),
        (["2 kg bread", "--at", "16 C", "--vessel", "3 kg"], '--vessel: "3 kg" is a mass'),
        ([BATCH, "--why", "weather"], '"weather" is not a figure of this answer'),
    ],
    ids=str,
)
def test_what_cannot_be_used_is_refused_with_what_would_do(arguments, says):
    done = fermented(*arguments)
    assert done.code == Exit.INPUT
    assert says in done.err
    assert done.out == ""


def test_the_faults_of_a_file_are_told_to_scripts_all_at_once(tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text('format = 1\ntemperature = "x"\n[vessel]\nvolume = 3\n', encoding="utf-8")
    code, held = told(path)
    assert (code, held["schema"]) == (Exit.INPUT, "sourloam.problems/1")
    assert len(held["problems"]) == 3


def test_a_disk_that_cannot_be_written_is_said(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    done = fermented(BATCH, "--plot", tmp_path / "file" / "blue.svg")
    assert done.code == Exit.SURROUNDINGS
    assert "Name another file with --plot." in done.err


def test_no_folder_is_made_for_a_drawing(tmp_path):
    done = fermented(BATCH, "--plot", tmp_path / "new" / "blue.svg")
    assert (done.code, done.out) == (Exit.SURROUNDINGS, "")
    assert not (tmp_path / "new").exists()


def test_a_cold_below_nothing_is_a_temperature():
    assert fermented("--at", "-5 C", "2 kg vegetable peelings").out.startswith("This load: It stands frozen throughout")


def test_a_figure_may_be_called_as_the_table_calls_it():
    assert "held sour" in fermented(BATCH, "--why", "held_sour").out


def test_fish_without_bran_ends_with_1(tmp_path):
    path = tmp_path / "bare.toml"
    above = 'format = 1\ntemperature = "20 C"\n[vessel]\nvolume = "20 L"\n'
    path.write_text(f'{above}[[layer]]\namounts = ["3 kg vegetable peelings", "500 g raw fish"]\n', encoding="utf-8")
    done = fermented(path)
    assert done.code == Exit.NO
    assert "Leave out the raw white fish until there is bran." in done.out.replace("\n", " ")


def test_somebody_at_a_terminal_sees_how_far_it_is_and_can_stop_it():
    own, theirs = pty.openpty()
    command = [*COMMAND, "ferment", str(BATCH), "--members", "5000"]
    process = subprocess.Popen(command, stdin=theirs, stdout=subprocess.PIPE, stderr=theirs, cwd=ROOT)
    os.close(theirs)
    seen = b""
    while b"Followed" not in seen:
        seen += os.read(own, 4096)
    process.send_signal(signal.SIGINT)
    out, _ = process.communicate()
    os.close(own)
    assert process.returncode == Exit.STOPPED
    assert out == b""
