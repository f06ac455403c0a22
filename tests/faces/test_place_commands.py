"""`sourloam bed`, `tub`, `leachate` and `place` as processes: what they print, what they end with, what they refuse."""

import json
import re

import pytest

from sourloam.cli.exits import Exit
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import calm

YARD = "examples/quillet_yard.toml"
BED = ("bed", "--product", "10 kg", "--area", "9 m2", "--on", "2027-04-15")
TUB = ("tub", "--product", "16 L", "--volume", "60 L", "--every", "2 weeks", "--on", "2027-04-15")
LIQUID = ("leachate", "--liquid", "500 ml", "--on", "2027-04-15")
PLACE = ("place", "--site", YARD, "--product", "11 kg", "--on", "2027-04-15")
OWN = {  # what one verb has beside what all have
    "bed": r"limit|takes_kg|crops.*",
    "tub": "takes_kg",
    "leachate": r"keeps_d|drink|by_day.*",
}


def said(*arguments):
    return alone(*arguments, cwd=ROOT)


@pytest.mark.parametrize(
    ("asked", "begins"),
    [
        (BED, "Yes: dig in all 10.0 kg.\n"),
        (TUB, "Yes: mix in all 12.8 kg; soil by about"),
        (LIQUID, "Yes: thin 1 part with 100 of water"),
        (PLACE, "Put 11.0 kg into the long bed.\n"),
    ],
)
def test_the_decision_comes_first_and_the_page_fits_a_terminal(asked, begins):
    done = said(*asked)
    assert (done.code, done.err) == (Exit.DONE, "")
    assert done.out.startswith(begins)
    assert calm(done.out)


@pytest.mark.parametrize("asked", [BED, TUB, LIQUID], ids=lambda each: each[0])
def test_the_fields_of_a_place_are_told(asked):
    held = json.loads(said(*asked, "--json").out)
    shown = {each for each in paths(held) if not re.fullmatch(OWN[asked[0]], each)}
    told = section(CLI, "sourloam.place/1")
    assert shown <= set(first_cells(told))
    stems = {re.sub(r"^(phosphorus|potassium|sodium)_", "nitrogen_", each) for each in held["figures"]}
    assert all(f"`{name}`" in told for name in stems - {"dry_leaves_l"})


def test_the_fields_of_a_sorting_are_told():
    held = json.loads(said(*PLACE, "--json").out)
    assert set(paths(held)) == set(first_cells(section(CLI, "sourloam.place.sorting/1")))


@pytest.mark.parametrize(
    ("asked", "figure"), [(BED, "dose"), (BED, "rest_days_sowing"), (TUB, "days"), (LIQUID, "dilution")]
)
def test_a_figure_opens_to_its_sources(asked, figure):
    done = said(*asked, "--why", figure)
    assert done.code == Exit.DONE
    assert "from: " in done.out


@pytest.mark.parametrize("why", ["dose", "long-bed.dose", "tub.days"])
def test_a_sorting_opens_the_figures_of_its_places(why):
    done = said(*PLACE, "--why", why)
    assert done.code == Exit.DONE
    assert "from: " in done.out


def test_a_seedling_test_tells_of_the_batch_that_lies_in_a_bed_and_not_of_the_new_one():
    passed = said(*PLACE, "--place", "wall-bed", "--seedlings", "10/10").out
    failed = said(*PLACE, "--place", "wall-bed", "--seedlings", "3/10").out
    assert "What lies there already: the seedling test is passed" in " ".join(passed.split())
    assert "wait two weeks, and test again" in " ".join(failed.split())
    assert passed.startswith("No place takes it today")


@pytest.mark.parametrize(
    ("asked", "code"),
    [
        ((*BED, "--state", "unfinished"), Exit.NO),
        ((*BED, "--state", "unfinished", "--anyway"), Exit.DONE),
        ((*BED, "--soil", "frozen"), Exit.NO),
        ((*LIQUID, "--for", "drain"), Exit.DONE),
        ((*LIQUID, "--for", "pond"), Exit.NO),
        ((*BED, "--ph", "15"), Exit.INPUT),
        (("bed", "--area", "0 m2"), Exit.INPUT),
        (("bed", "--place", "long-bed"), Exit.INPUT),
        (("bed", "nowhere.toml"), Exit.INPUT),
        (("tub", "--volume", "0 L"), Exit.INPUT),
        (("place",), Exit.INPUT),
        ((*PLACE, "--place", "nowhere"), Exit.INPUT),
        ((*PLACE, "--seedlings", "8/10"), Exit.INPUT),
        ((*PLACE, "--why", "nothing"), Exit.INPUT),
        ((*BED, "--plot", "bed.png"), Exit.INPUT),
    ],
)
def test_exit_codes_say_yes_no_and_what_cannot_be_used(asked, code):
    assert said(*asked).code == code


def test_it_speaks_pounds_and_fahrenheit_to_those_who_do():
    done = said(*BED, "--units", "us")
    assert "dig in all 22.0 lb" in done.out
    assert not re.search(r"\d cm|\d m2? ", done.out)
    assert re.search(r"trench, a spade wide +[\d.]+ ft", done.out)
    assert re.search(r"ground that all of it wants +[\d.]+ sq ft", done.out)


def test_the_drawing_is_written(tmp_path):
    done = said(*BED, "--plot", str(tmp_path / "bed.svg"))
    assert done.code == Exit.DONE
    assert (tmp_path / "bed.svg").read_text("utf-8").startswith("<svg")
