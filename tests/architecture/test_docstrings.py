"""Docstrings held to the code. That each public thing has one is ruff's to check (its rules D1)."""

import ast
import re
import tomllib

import pytest

from tests.architecture.numpydoc import carried_unit, entries, sections, stated_unit
from tests.architecture.tree import PACKAGE, functions, modules, name_of, parsed, place, told

SCIENCE = modules(PACKAGE / "science")
CHECKS = PACKAGE / "base" / "checks.py"
SOURCES = PACKAGE / "evidence" / "data" / "sources.toml"


def documented():
    """Yield every public function of science with its docstring."""
    for path in SCIENCE:
        public = (function for function in functions(parsed(path)) if not function.name.startswith("_"))
        yield from ((path, function, ast.get_docstring(function) or "") for function in public)


def raises(function: ast.AST) -> bool:
    checks = {check.name for check in functions(parsed(CHECKS)) if not check.name.startswith("_")}
    nodes = list(ast.walk(function))
    called = {name_of(node.func) for node in nodes if isinstance(node, ast.Call)}
    return any(isinstance(node, ast.Raise) for node in nodes) or bool(called & checks)


def unit_faults(docstring: str, function_name: str) -> list[str]:
    parts = sections(docstring)
    texts = list(entries(parts.get("Parameters", [])).items())
    returned = list(entries(parts.get("Returns", [])).values())
    texts += [(function_name, returned[0])] if len(returned) == 1 else []
    return [
        f"{name} says {carried_unit(name)}, its docstring [{stated_unit(text)}]"
        for name, text in texts
        if carried_unit(name) and stated_unit(text) not in (None, carried_unit(name))
    ]


def cited(docstring: str) -> list[str]:
    lines = sections(docstring).get("References", [])
    return [match[1] for line in lines if (match := re.match(r"([A-Za-z][\w-]*):", line))]


def test_the_unit_in_brackets_is_the_one_that_the_name_carries():
    faults = [
        f"{place(path, function)}: {fault}"
        for path, function, docstring in documented()
        for fault in unit_faults(docstring, function.name)
    ]
    assert not faults, told(faults, "Correct the name or the bracket: one of them is wrong.")


def test_a_cited_key_is_a_known_source():
    known = tomllib.loads(SOURCES.read_text("utf-8"))
    every = [(path, node) for path in modules(PACKAGE) for node in ast.walk(parsed(path))]
    bearing = (ast.Module, ast.ClassDef, ast.FunctionDef)
    faults = [
        f"{place(path, node)}: {key}"
        for path, node in every
        if isinstance(node, bearing)
        for key in cited(ast.get_docstring(node) or "")
        if key not in known
    ]
    assert not faults, told(faults, f"Correct the key, or add the source to {SOURCES.name}.")


def test_a_function_that_raises_says_so():
    faults = [
        f"{place(path, function)}: {function.name}"
        for path, function, docstring in documented()
        if raises(function) and not re.search(r"\bRaises\b", docstring)
    ]
    assert not faults, told(faults, "Add a Raises section, or in a short docstring a sentence: 'Raises X where ...'.")


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("total_mol_per_m3", "mol/m3"),
        ("dose_g_per_kg", "g/kg"),
        ("temperature_c", "°C"),
        ("moisture_wb_frac", "-"),
        ("ph", None),
        ("share_per_person", None),
    ],
)
def test_the_unit_of_a_name_is_read(name, unit):
    assert carried_unit(name) == unit


def test_a_wrong_bracket_is_found():
    docstring = "Sum.\n\nParameters\n----------\nmass_kg, age_d : float\n    How much\n    there is. [kg]\n"
    assert unit_faults(docstring, "f") == ["age_d says d, its docstring [kg]"]


def test_a_cited_key_is_read():
    assert cited("Sum.\n\nReferences\n----------\nrosso1993: the model.\n    More: of it.\nstyle: text.\n") == [
        "rosso1993",
        "style",
    ]
