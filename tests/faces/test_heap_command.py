"""`sourloam heap` as a process: what it prints, what it ends with, what it refuses."""

import json
import re

import pytest

from sourloam.cli.exits import Exit
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import COLUMNS, calm

HEAP = ("2 m3 grass clippings", "20 kg hay")


def heaped(*arguments):
    return alone("heap", *arguments, cwd=ROOT)


def test_it_says_how_long_and_how_and_fits_a_terminal():
    done = heaped(*HEAP)
    assert (done.code, done.err) == (Exit.DONE, "")
    assert done.out.startswith("It can sour as a heap under a sheet, in 6 to 8 weeks while it is warm.\n")
    assert calm(done.out)


def test_its_fields_are_told():
    held = json.loads(heaped(*HEAP, "--json").out)
    assert set(paths(held)) == set(first_cells(section(CLI, "sourloam.heap/1")))
    assert all(f"`{name}`" in section(CLI, "sourloam.heap/1") for name in held["figures"])


def test_each_figure_opens_to_its_sources():
    done = heaped(*HEAP, "--why", "culture")
    assert "live culture, such as serum, to a cubic metre" in done.out
    assert max(map(len, done.out.splitlines())) <= COLUMNS


def test_it_speaks_the_units_of_its_keeper():
    done = heaped(*HEAP, "--units", "us")
    assert " gal of live culture" in " ".join(done.out.split())
    assert "m3" not in done.out.partition("In numbers")[0]


def test_nothing_that_sours_is_no_heap():
    done = heaped("3 m3 sawdust")
    assert done.code == Exit.NO
    assert "Sawdust stays out. It is wood, which does not sour." in done.out
    assert "this answer has no figures" in heaped("3 m3 sawdust", "--why", "culture").told


def test_a_wet_heap_gets_its_culture_alone_and_is_told_how_much_straw():
    wet, dry = (" ".join(heaped(*each).out.split()) for each in (["3 m3 cow manure"], ["200 kg hay"]))
    assert "sprinkle the culture on alone" in wet
    assert re.search(r"Fork in \d+ kg of straw at least .* which stops that; \d+ kg make it as moist", wet)
    assert "Stir " in dry
    assert "straw" not in dry


def test_what_is_too_little_for_a_heap_gets_no_sheet():
    done = heaped("10 L grass clippings")
    assert done.code == Exit.NO
    assert done.out.startswith("10 L are too little for a heap under a sheet, which wants 100 L or more:")
    assert "sheet of" not in done.out


@pytest.mark.parametrize(
    ("amount", "says"),
    [
        ("200 m3 hay", '"200 m3 hay" is no amount that can be soured; write more than nothing, and 100000 kg or L'),
        ("3 m3 moonrock", "moonrock"),
        ("-2 m3 hay", '"-2 m3 hay" is no amount that can be soured'),
    ],
)
def test_what_cannot_be_read_is_refused(amount, says):
    done = heaped(amount)
    assert (done.code, done.out) == (Exit.INPUT, "")
    assert says in done.told
