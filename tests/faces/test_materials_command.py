"""`sourloam materials` and `sourloam audit` as processes."""

import csv
import json

import pytest

from sourloam.base.source import Basis
from sourloam.cli.exits import Exit
from tests.architecture.tree import ROOT
from tests.faces.terminal import alone
from tests.faces.test_plan_command import calm


def asked(*arguments):
    return alone(*arguments, cwd=ROOT)


def test_one_material_is_shown_in_full_with_its_sources():
    done = asked("materials", "potato", "peel")
    assert done.out.startswith("potato peel (potato-peel), vegetable\n")
    assert "[usda_sr28] NDB 11362" in done.out
    assert calm(done.out)


@pytest.mark.parametrize("words", ["zucchini", "Courgette ends", "courgette-ends"])
def test_a_material_answers_to_any_of_its_names(words):
    assert asked("materials", words).out.startswith("courgette ends (courgette-ends)")


def test_a_kind_or_a_part_of_a_name_gives_a_list():
    assert "dog faeces" in asked("materials", "pet").out
    assert "potato" in asked("materials", "peel").out
    assert calm(asked("materials").out)


def test_a_name_that_is_none_is_refused_with_near_ones():
    done = asked("materials", "zuchini")
    assert (done.code, done.out) == (Exit.INPUT, "")
    assert '"zuchini" is not a known material. Did you mean courgette-ends?' in done.err


def test_scripts_get_all_of_it():
    held = json.loads(asked("materials", "--json").out)
    assert held["schema"] == "sourloam.materials/1"
    assert len(held["materials"]) >= 220
    for each in held["materials"]:
        assert {"name", "synonyms", "kind", "rule", "source", "basis", "method"} <= each.keys()
        assert each["basis"] in list(Basis)


def test_a_table_has_a_row_for_each():
    rows = list(csv.DictReader(asked("materials", "vegetable", "--csv").out.splitlines()))
    assert len(rows) >= 60
    assert all(float(row["water_g_per_kg"]) > 0.0 for row in rows)


def test_the_audit_says_how_much_is_by_rule():
    held = json.loads(asked("materials", "--audit", "--json").out)
    assert held["commonest"]["rule_pct"] <= 40.0
    assert len(held["commonest"]["ids"]) == 60
    assert calm(asked("materials", "--audit").out)


def test_every_value_of_the_tool_is_audited():
    held = json.loads(asked("audit", "--json").out)
    tables = {each["table"] for each in held["values"]}
    assert {"materials", "load", "bed", "ferment", "inoculum", "crops", "climates", "cautions"} <= tables
    assert sum(held["counts"].values()) == len(held["values"])
    assert all(each["text"] for each in held["values"]), "a value rests on a source that is not in the list"


def test_the_audit_of_one_basis_lists_its_values():
    done = asked("audit", "memory")
    assert "load\n  dry_most_frac: 0.52" in done.out
    assert calm(done.out)
