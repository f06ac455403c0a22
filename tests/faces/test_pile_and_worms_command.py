"""`sourloam pile`, `worms`, `charcoal`, `leaves` and `ails` as processes: exit codes, JSON, refusals, drawings."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = Path(sys.executable).parent / "sourloam"
FEW = ("--members", "100")


def run(*words, cwd=None):
    return subprocess.run(
        [PROGRAM, *words], capture_output=True, text=True, stdin=subprocess.DEVNULL, check=False, cwd=cwd
    )


def told(*words):
    done = run(*words, "--json")
    return json.loads(done.stdout), done.returncode


def test_a_pile_with_enough_of_all_takes_a_batch_and_heats():
    view, code = told(
        "pile", "--product", "60 kg", "--at-hand", "1200 L dry leaves", "--at-hand", "800 L grass clippings", *FEW
    )
    assert (code, view["decision"]) == (0, "yes")
    wanted = {
        "c_to_n",
        "moisture_pct",
        "free_air_space_pct",
        "bulk_density_kg_m3",
        "volume_l",
        "water_l",
        "peak_c",
        "days_over_55c",
    }
    assert wanted <= view["figures"].keys()
    assert {each["met"] for each in view["rules"]} == {False}
    assert all(each["likely"] in {"yes", "unsure", "no"} for each in view["rules"])
    assert view["amounts"][0]["kg"] == pytest.approx(60.0)


def test_a_pile_of_twenty_litres_will_not_heat_and_says_so():
    done = run("pile", "--product", "4 kg", "--volume", "20 L", "--at-hand", "30 L dry leaves", *FEW)
    assert "It will not heat" in done.stdout.replace("\n", " ")


def test_without_browns_it_says_how_much_is_short():
    view, code = told("pile", "--product", "10 kg", "--at-hand", "1 L dry leaves", *FEW)
    assert (code, view["decision"]) == (1, "not yet")
    assert view["short"][0]["kg"] > 1.0


@pytest.mark.parametrize(("state", "decision"), [("unfinished", "not yet"), ("failed", "no"), ("unknown", "no")])
def test_what_is_not_sound_goes_into_no_small_pile(state, decision):
    view, code = told("pile", "--product", "5 kg", "--state", state, "--at-hand", "100 L dry leaves", *FEW)
    assert (code, view["decision"]) == (1, decision)


def test_readings_of_every_zone_meet_a_rule_and_a_forecast_does_not():
    readings = [f"{day} {zone} 60 C" for day in range(1, 17) for zone in ("core", "edge", "base")]
    words = [word for each in readings for word in ("--reading", each)]
    base = ("pile", "--product", "60 kg", "--at-hand", "1200 L dry leaves", "--at-hand", "800 L grass clippings", *FEW)
    view, _ = told(*base, *words, "--turned", "3, 5, 7, 9, 11")
    met = {each["rule"] for each in view["rules"] if each["met"]}
    assert {"US503-PFRP-WINDROW", "DE-BIOABFV-55"} <= met


def test_worms_at_38_degrees_stop():
    view, code = told("worms", "--at", "38 C", *FEW)
    assert (code, view["decision"]) == (1, "no")
    assert view["says"].startswith("stop")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("pile", "--volume", "0 L"), '"0 L" is no pile'),
        (("pile", "--reading", "core hot"), "is no reading"),
        (("pile", "--turned", "x"), "is no list of days"),
        (("pile", "--at-hand", "5 kg moondust"), "moondust"),
        (("worms", "--area", "0 m2"), "cannot be"),
        (("worms", "--at", "300 C"), "cannot be"),
        (("worms", "--worms", "5 L"), "is a volume"),
        (("worms", "--ph", "15"), "15"),
        (("ails", "pile", "blue"), "cold, ammonia, smell"),
        (("ails", "pile", "cold", "--seen", "unicorns"), "unicorns"),
        (("leaves", "3 kg moondust"), "moondust"),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_do(words, says):
    done = run(*words)
    assert done.returncode == 2
    assert says in (done.stdout + done.stderr).replace("\n ", "")


@pytest.mark.parametrize("figure", ["c_to_n", "peak_c", "volume_l"])
def test_a_figure_of_a_pile_opens_to_its_sources(figure):
    done = run("pile", "--why", figure, *FEW)
    assert done.returncode == 0
    assert "from:" in done.stdout


def test_a_pile_is_drawn_in_two_sizes(tmp_path):
    done = run("pile", "--plot", "pile.svg", "--days", "30", *FEW, cwd=tmp_path)
    drawn = (tmp_path / "pile.svg").read_text("utf-8")
    assert "Written" in done.stderr
    assert 'class="wide"' in drawn
    assert 'class="tall"' in drawn
    assert "rules ask for" in drawn


def test_worms_are_drawn_with_their_limits(tmp_path):
    done = run("worms", "--at", "20 C", "--plot", "worms.svg", *FEW, cwd=tmp_path)
    drawn = (tmp_path / "worms.svg").read_text("utf-8")
    assert "Written" in done.stderr
    assert "salt in the fed corner" in drawn


@pytest.mark.parametrize(("kind", "code"), [("wood", 0), ("barbecue", 1), ("ash", 1)])
def test_charcoal_by_its_kind(kind, code):
    assert run("charcoal", "--kind", kind).returncode == code


def test_what_is_wrong_has_chances_that_add_up_and_a_next_look():
    view, code = told("ails", "pile", "cold", "--seen", "dry")
    assert code == 0
    assert 0.8 < sum(each["chance"] for each in view["causes"]) <= 1.0 + 1e-9
    assert view["causes"][0]["id"] == "pile-cold-dry"
    assert view["look"].endswith("?")


def test_hens_are_always_to_be_asked_about():
    done = run("hens", "6", "--scraps", "4 kg/week")
    assert done.returncode == 0
    assert done.stdout.startswith("Ask first: where it is allowed,")
    assert "animal health authority" in done.stdout


@pytest.mark.parametrize("asked", [("0",), ("6", "--share", "3"), ("6", "--ration", "9 kg"), ("many",)])
def test_what_no_flock_is_cannot_be_used(asked):
    assert run("hens", *asked).returncode == 2
