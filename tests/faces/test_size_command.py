"""`sourloam size` as a process: what it prints, what it ends with."""

import json

from sourloam.cli.exits import Exit
from tests.architecture.test_docs import CLI, first_cells, paths, section
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import calm

SITE = "examples/quillet_yard.toml"
FEW = ("--replications", "3")


def test_it_answers_first_and_fits_a_terminal():
    done = alone("size", SITE, *FEW, "--chance-only", cwd=ROOT)
    assert done.code == Exit.NO
    assert done.out.startswith("Not enough: scraps have nowhere to go in ")
    assert calm(done.out)


def test_its_fields_are_told():
    held = json.loads(alone("size", SITE, "--replications", "2", "--json", cwd=ROOT).out)
    told = set(first_cells(section(CLI, "sourloam.size/1")))
    assert set(paths(held)) - {"today"} <= told
    assert all(f"`{name}`" in section(CLI, "sourloam.size/1") for name in held["figures"])


def test_a_chance_opens_to_its_sources():
    done = alone("size", SITE, *FEW, "--chance-only", "--why", "stall_chance", cwd=ROOT)
    assert "part of all batches that fails" in done.out
