"""`validation/`: what has been published of such ferments, kept as its rules of admission say."""

import csv
import tomllib
from itertools import chain
from pathlib import Path

import pytest

from sourloam.base.source import Basis
from sourloam.evidence.materials import load_materials
from sourloam.evidence.sources import load_sources

FOLDER = Path(__file__).parents[2] / "validation"
STUDIES = {path.stem: tomllib.loads(path.read_text("utf-8")) for path in sorted((FOLDER / "studies").glob("*.toml"))}
QUANTITIES = {
    "ph",
    "lactic_g_per_kg",
    "lactic_g_per_kg_dm",
    "acetic_g_per_kg",
    "ethanol_g_per_kg",
    "nh3_n_g_per_kg",
    "lab_log10_per_g",
    "entero_log10_per_g",
}


def table(name):
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def observed(study):
    return list(chain.from_iterable(run.get("observed", []) for run in study["run"]))


def ends(value):
    return value if isinstance(value, list) else [value]


@pytest.mark.parametrize("name", STUDIES)
def test_a_study_names_what_is_known_here(name):
    study = STUDIES[name]
    ids = {each.id for each in load_materials()}
    assert study["id"] == name
    assert {study["source"], *study.get("also", [])} <= set(load_sources())
    for run in study["run"]:
        assert set(run["ingredients"]) <= ids
        assert all(share > 0 for shares in run["ingredients"].values() for share in ends(shares))


@pytest.mark.parametrize("name", STUDIES)
def test_its_inputs_and_observations_are_possible(name):
    study = STUDIES[name]
    for run in study["run"]:
        least, most = ends(run["temperature_c"])[0], ends(run["temperature_c"])[-1]
        assert -2 <= least <= most <= 60
    for each in observed(study):
        low, high = each.get("low", each.get("value")), each.get("high", each.get("value"))
        assert each["quantity"] in QUANTITIES
        assert 0 <= low <= high
        assert each["quantity"] != "ph" or 2.5 <= low <= high <= 9.5
        assert each["day"] >= 0
        assert each["place"]
        assert Basis(each["basis"])


def test_what_was_seen_before_is_never_held_out():
    assert not [name for name, study in STUDIES.items() if study["seen"] and study["held_out"]]


def test_what_serves_contrasts_alone_has_no_points():
    alone = [study for study in STUDIES.values() if study.get("contrast_only")]
    assert alone
    assert not [study["id"] for study in alone if observed(study)]


def test_a_contrast_compares_two_runs_of_its_study():
    for row in table("contrasts.csv"):
        runs = {run["id"] for run in STUDIES[row["study"]]["run"]}
        assert {row["run_a"], row["run_b"]} <= runs
        assert row["run_a"] != row["run_b"]
        assert row["quantity"] in QUANTITIES
        assert row["a_is"] in {"lower", "higher", "sooner"}


def test_the_table_of_the_readme_counts_what_is_there():
    def counted(studies):
        runs = sum(len(study["run"]) for study in studies)
        return f"{len(studies)} | {runs} | {sum(len(observed(study)) for study in studies)} |"

    told = (FOLDER / "README.md").read_text("utf-8")
    studies = STUDIES.values()
    alone = [each for each in studies if each.get("contrast_only")]
    others = [each for each in studies if not each.get("contrast_only")]
    assert f"| seen | {counted([each for each in others if each['seen']])}" in told
    assert f"| held out | {counted([each for each in others if each['held_out']])}" in told
    assert f"| contrasts only | {counted(alone)}" in told
    assert f"| all | {counted(list(studies))}" in told
    assert f"Contrasts: {len(table('contrasts.csv'))}. Refused: {len(table('refused.csv'))}." in told
