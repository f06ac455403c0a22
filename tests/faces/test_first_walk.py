"""Somebody new, in a flat with one bucket: writes a site file, mends it as told, follows the cure, and has a plan."""

import json
import re

import pytest

from tests.architecture.tree import ROOT
from tests.faces.terminal import alone

(EXAMPLE,) = re.findall(r"```toml\n(.*?)```", (ROOT / "README.md").read_text("utf-8"), re.DOTALL)


@pytest.fixture
def plan(tmp_path):
    """Return a function that saves a site file and plans it."""

    def planned(text, *options):
        (tmp_path / "flat.toml").write_text(text, "utf-8")
        return alone("plan", "flat.toml", *options, cwd=tmp_path)

    return planned


def test_a_first_file_with_slips_is_mended_by_what_is_said(plan):
    slips = EXAMPLE.replace('"12 L"', '"12 kg"').replace("[[soil_tub]]", "[[soiltub]]").replace("2027-01-04", '"4 Jan"')
    said = plan(slips)
    assert (said.code, said.out) == (2, "")
    assert 'volume = "12 kg" is a mass; a volume is wanted' in said.err
    assert "[soiltub] is not a table of a site. Did you mean soil_tub?" in said.err
    assert re.search(r'line 5: site: start = "4 Jan" .*2027-03-01', said.err)


def test_the_example_of_the_readme_is_planned_and_its_cure_cures(plan):
    first = json.loads(plan(EXAMPLE, "--json").out)
    assert not first["enough"]
    assert first["stalls"]
    assert any(each["what"] == "hold back up to 10 L of scraps in the fridge or freezer" for each in first["cures"])
    held = plan(f'{EXAMPLE}\n[keeper]\nfridge = "10 L"\n', "--json")
    then = json.loads(held.out)
    assert then["stalls"] == [], "no day of the middle year is stalled any more"
    chances = [each["figures"]["stall_chance_per_week"]["value"] for each in (first, then)]
    assert chances[1] < chances[0], "and by chance it stalls less often"
    assert then["enough"] == (held.code == 0) == (chances[1] <= 0.01)


def test_the_plan_of_a_flat_can_be_followed(plan):
    held = json.loads(plan(EXAMPLE, "--json").out)
    days = [each["date"] for each in held["tasks"]]
    assert days == sorted(days)
    assert all(each["what"][:1].isupper() and each["because"] for each in held["tasks"])
    done = {each["id"].partition(":")[0] for each in held["tasks"]}
    assert {"buy", "fill", "seal", "place"} <= done
    assert held["assumptions"]
    for batch in held["batches"]:  # filled, then sealed, then ready, then placed
        dates = [batch[key] for key in ("first_layer", "sealed", "ready", "placed") if batch[key]]
        assert dates == sorted(dates)
    assert {each["place"] for each in held["batches"] if each["place"]} <= {"tub", "bin"}
