"""The documents held to the code, both ways: nothing undocumented, and nothing documented that is gone."""

import ast
import re
import tomllib

import pytest

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.cli.exits import Exit
from sourloam.service.plan import plan_site
from sourloam.views.as_json import plan_object, reason_object
from sourloam.views.problems import error_object, problems_object
from tests.architecture.numpydoc import UNITS
from tests.architecture.tree import PACKAGE, ROOT, modules, parsed, told
from tools.write_docs import DEMO, DOCS, PAGES

ARCHITECTURE = (ROOT / "ARCHITECTURE.md").read_text("utf-8")
README = (ROOT / "README.md").read_text("utf-8")
CLI = (DOCS / "cli.md").read_text("utf-8")
WORDS = (DOCS / "words.md").read_text("utf-8")
PARTS_OF_NAMES = {"d", "c", "k", "l", "s"}  # single letters that are units only at the end of a name


def section(text, title):
    """Return what stands under a heading of the second order."""
    return text.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def first_cells(text):
    """Return what stands in code marks in the first column of each table."""
    rows = [line for line in text.splitlines() if line.startswith("| ") and not line.startswith("| ---")]
    return [name for row in rows[1:] for name in re.findall(r"`([^`]+)`", row.split("|")[1])]


@pytest.fixture(scope="module")
def view():
    return plan_site(DEMO)


@pytest.mark.parametrize("name", PAGES)
def test_a_page_that_is_made_from_the_code_is_up_to_date(name):
    assert (DOCS / name).read_text("utf-8") == PAGES[name](), "Run .venv/bin/python tools/write_docs.py"


def test_every_page_can_be_reached_from_the_index():
    index = (DOCS / "index.md").read_text("utf-8")
    lost = [path.name for path in DOCS.glob("*.md") if path.name != "index.md" and f"({path.name})" not in index]
    assert not lost, told(lost, "Put a link into docs/index.md.")


# ARCHITECTURE.md


def rooms():
    """Return every folder of the package that holds code."""
    return {path.parent.name for path in PACKAGE.rglob("*.py") if path.parent != PACKAGE} - {"verbs"}


def test_every_room_is_in_the_picture_and_no_other():
    tree = section(ARCHITECTURE, "The floors, from the ground up; each may import those above it in this list")
    assert set(re.findall(r"^ *([a-z_]+)/ ", tree, re.MULTILINE)) == rooms()


def test_every_file_that_is_named_exists():
    text = re.sub(r"ROOM", "bed", ARCHITECTURE)
    named = re.findall(r"`((?:[a-z_]+/)+[a-z_]*(?:\.[a-z]+)?)`", text)
    lost = [name for name in named if not any((base / name).exists() for base in (PACKAGE, ROOT))]
    assert "fleet/simulate.py" in named
    assert not lost, told(lost, "Name what is there.")


def test_every_place_may_be_asked_as_the_picture_says():
    protocol = next(
        node for node in parsed(PACKAGE / "science/places/offer.py").body if getattr(node, "name", "") == "Place"
    )
    methods = {node.name for node in protocol.body if isinstance(node, ast.FunctionDef)} - {"id"}
    told_of = section(ARCHITECTURE, "How to add").partition("`Place` (")[2].partition(")")[0]
    assert set(re.findall(r"`(\w+)`", told_of)) == methods


# README.md


def test_the_targets_that_are_named_exist():
    makefile = (ROOT / "Makefile").read_text("utf-8")
    for text in (README, (ROOT / "CONTRIBUTING.md").read_text("utf-8")):
        named = set(
            re.findall(r"\bmake ([a-z]+)\b(?=[`\s.])", "\n".join(re.findall(r"`[^`]+`|^make .*", text, re.MULTILINE)))
        )
        assert named
        assert named <= set(re.findall(r"^([a-z-]+):", makefile, re.MULTILINE))


def test_the_example_is_a_whole_site_file():
    (text,) = re.findall(r"```toml\n(.*?)```", README, re.DOTALL)
    assert tomllib.loads(text)["site"]["id"] == "flat"  # tests/faces plans it


def test_the_options_that_are_named_exist():
    named = set(re.findall(r"sourloam plan \S+ (--[a-z]+)", README + CLI))
    assert {"--why", "--json", "--today", "--out"} <= named
    assert named <= set(re.findall(r"--[a-z]+", (DOCS / "verbs.md").read_text("utf-8").partition("## plan")[2]))


# docs/cli.md


def test_every_exit_code_is_told_and_no_other():
    for text in (section(CLI, "Exit codes"), section(README, "Why, and for scripts")):
        codes = [int(code) for code in re.findall(r"^\| (\d+) \|", text, re.MULTILINE)]
        assert codes == [int(each) for each in Exit]
    assert re.findall(r"\| `([A-Z]+)` \|", section(CLI, "Exit codes")) == [each.name for each in Exit]


def paths(held, at=""):
    """Give the path of every value; the names of figures are left out, and what an input holds is that of its whole."""
    if isinstance(held, dict):
        for name, each in held.items():
            yield from paths(each, f"{at}.{'NAME' if at == 'figures' else name}".lstrip("."))
    elif isinstance(held, list) and at != "inputs":
        for each in held:
            yield from paths(each, f"{at}[]")
    else:
        yield f"{at}[]" if at == "inputs" else at


def test_the_fields_of_a_plan_are_told(view):
    told_of, found = set(first_cells(section(CLI, "sourloam.plan/1"))), set(paths(plan_object(view)))
    empty = {
        name
        for name in ("stalls[]", "cures[]", "closed[]", "frozen[]", "asks[]", "hints[]")
        if not plan_object(view)[name[:-2]]
    }
    unseen = {path for path in told_of - found if not path.startswith(tuple(empty or {"-"}))}
    assert found - told_of == set(), "Tell of it in docs/cli.md"
    assert unseen <= {"figures.NAME.never"}


def test_the_fields_of_a_reason_are_told(view):
    told_of = set(first_cells(section(CLI, "sourloam.reason/1")))
    for name in ("bran_kg_per_year", "stall_days_per_year"):
        held = reason_object(view.reasons[name])
        assert set(paths(held)) <= told_of | {"strongest"}
        for each in held["inputs"]:
            assert set(each) == set(held) - {"schema"}
    assert told_of - {"strongest[]"} <= set(paths(held))


def test_the_fields_of_faults_and_errors_are_told():
    faults = problems_object(BadInput("yard.toml", (Problem("site", "id is missing;", "write one.", 3, "site.id"),)))
    error = error_object("surroundings", Surroundings("The disk is full.", "Make room."))
    for held in (faults, error):
        assert list(paths(held)) == first_cells(section(CLI, held["schema"]))


# docs/words.md


def names_in(*folders):
    """Return every parameter and every field of the modules in some folders."""
    nodes = [node for path in modules(*folders) for node in ast.walk(parsed(path))]
    fields = {node.target.id for node in nodes if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name)}
    return fields | {node.arg for node in nodes if isinstance(node, ast.arg)}


def unit_endings(names):
    """Return the units that names carry: at their end, and on both sides of `per`."""
    found = set()
    for name in names:
        parts = name.split("_")
        ends = [parts[-1]] if len(parts) > 1 else []
        if "per" in parts[1:-1]:
            at = len(parts) - 1 - parts[::-1].index("per")
            ends += [parts[at - 1], *parts[at + 1 :]]
        found.update(ends)
    return found


def test_every_unit_that_science_carries_in_a_name_is_told():
    used = unit_endings(names_in(PACKAGE / "science", PACKAGE / "site", PACKAGE / "fleet"))
    listed = {
        each.removeprefix("_") for each in re.findall(r"^\| `(_\w+)`", section(WORDS, "Units in names"), re.MULTILINE)
    }
    known = set(UNITS) | {"deg", "log10", "on", "ds", "month"}
    assert used & known <= listed, told(sorted(used & known - listed), "Tell of it in docs/words.md.")
    assert listed <= used | {"s"}, told(sorted(listed - used), "No name carries it.")


def test_every_quantity_that_is_told_of_is_a_name_in_the_code():
    names = names_in(PACKAGE)
    lost = [each for each in first_cells(section(WORDS, "Quantities")) if each not in names]
    assert not lost, told(lost, "Name what is there.")


def test_no_document_speaks_of_a_word_without_a_row():
    words = re.findall(r"^\| ([a-z-]+) \|", section(WORDS, "The trade"), re.MULTILINE)[1:]
    assert len(words) == len(set(words))
    assert {"stream", "vessel", "batch", "place", "stall", "figure"} <= set(words)
