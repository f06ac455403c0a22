"""A validation from end to end, with a study that was made up for it."""

import json
from types import SimpleNamespace

import numpy as np
import pytest

from sourloam.evidence.parameters import load_parameters
from validation.baseline import ThermalRule, baseline_ph, best_spread, soured_day
from validation.contrasts import difference, is_right
from validation.run import main
from validation.studies import Contrast, Observed, Run, Study, load_studies

MEMBERS = "6"  # fewer than the compiler is asked for
SEEN = (
    Observed(2.0, "ph", 3.5, 7.0),
    Observed(2.0, "lab_log10_per_g", 4.0, 9.0),
    Observed(1.0, "ph", 5.0, 5.0, "at most"),
)
RUN = Run("plain", [18.0, 22.0], {"cabbage-leaves": 1.0}, "chopped", "raw", added={"salt_pct": 2.0}, observed=SEEN)
OPEN = Study("made_up", "vegetable ferment", is_seen=False, part="open", runs=(RUN,))
HELD = Study("held", "vegetable ferment", is_seen=False, part="held out", runs=(RUN,))


def numbers(out):
    return json.loads((out / "validation.json").read_text("utf-8"))


def test_what_is_held_out_comes_first_and_what_is_not_beside_it(tmp_path, capsys):
    assert main(["--members", MEMBERS], studies=(OPEN, HELD), out=tmp_path) == 0
    held = numbers(tmp_path)
    for told, part, study in ((held, "held out", "held"), (held["not_held_out"], "not held out", "made_up")):
        assert (told["part"], told["points"], told["held_out"]) == (part, 3, 1)
        assert [row["study"] for row in told["by_study"]] == [study]
        assert 0.0 <= told["coverage_low"] <= told["coverage_90"] <= told["coverage_high"] <= 1.0
        assert told["score"] > 0.0
    said = capsys.readouterr().out
    assert said.index("here: held out") < said.index("here: not held out")
    assert len((tmp_path / "validation_points.csv").read_text("utf-8").splitlines()) == 7


def test_while_the_model_is_changed_only_what_is_not_held_out_is_run(tmp_path, capsys):
    assert main(["--open", "--members", MEMBERS], studies=(OPEN, HELD), out=tmp_path) == 0
    assert [row["study"] for row in numbers(tmp_path)["by_study"]] == ["made_up"]
    assert "here: held out" not in capsys.readouterr().out


def test_two_studies_that_are_not_held_out_run(tmp_path):
    chosen = tuple(each for each in load_studies() if each.id in {"kimchi_mheen", "kimchi_ripening"})
    assert not any(each.is_held_out for each in chosen)
    main(["--open", "--members", MEMBERS], studies=chosen, out=tmp_path)
    assert numbers(tmp_path)["points"] == 4


def test_the_rule_falls_in_a_straight_line_and_stays():
    known = load_parameters(ThermalRule, "thermal_rule")
    day = soured_day(RUN, known)
    assert baseline_ph(RUN, 0.0, known) == 6.0
    assert baseline_ph(RUN, 0.5 * day, known) == pytest.approx(5.1)
    assert baseline_ph(RUN, 2.0 * day, known) == pytest.approx(4.2)


def test_the_spread_of_the_rule_is_its_best_one():
    known = load_parameters(ThermalRule, "thermal_rule")
    late = Run("late", 20.0, {}, "chopped", "raw", observed=tuple(Observed(90.0, "ph", x, x) for x in (3.9, 4.5)))
    study = Study("late", "", is_seen=False, part="open", runs=(late,))
    assert best_spread((study,), known) == pytest.approx(0.3, abs=0.011)


def course(*values):
    return SimpleNamespace(course=lambda _: np.array([values], dtype=float))


PAIR = {"id": "c", "study": "s", "run_a": "a", "run_b": "b", "quantity": "ph", "day": None, "level": None}


@pytest.mark.parametrize(
    ("changed", "right"),
    [
        ({"a_is": "lower"}, True),
        ({"a_is": "higher"}, False),
        ({"a_is": "lower", "day": 3.0}, False),
        ({"a_is": "sooner"}, True),
        ({"a_is": "sooner", "level": 4.0}, True),
        ({"a_is": "sooner", "level": 3.0}, False),
    ],
)
def test_a_pair_is_compared_in_the_printed_direction(changed, right):
    runs = {"s/a": course(6.0, 4.5, 4.0, 4.0), "s/b": course(6.0, 5.5, 4.5, 3.9)}
    pair = Contrast(**PAIR | changed)
    assert is_right(pair, difference(pair, runs)) is right
