"""What an import costs and touches, each in a process of its own."""

import os
import re
import subprocess
import sys

import pytest

from tests.architecture.tree import PACKAGE, contract

HEAVY = ("numpy", "scipy", "pandas", "sqlite3", "sqlalchemy", "alembic", "starlette", "uvicorn", "jinja2", "matplotlib")
COMPILERS = ("numba", "llvmlite", "cython", "cffi")

EVERY_MODULE = """
import importlib, pkgutil, sourloam
for module in pkgutil.walk_packages(sourloam.__path__, "sourloam."):
    if module.name.rpartition(".")[2] not in ("__main__", "kernel"):
        importlib.import_module(module.name)
"""


@pytest.fixture
def loaded(tmp_path):
    """Return a function that runs Python in an empty, write-protected home and tells what was loaded."""
    home = tmp_path / "home"
    home.mkdir(mode=0o555)
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "XDG_"))}
    env = kept | {"HOME": str(home), "PYTHONDONTWRITEBYTECODE": "1"}

    def load(*arguments):
        command = [sys.executable, "-X", "importtime", *arguments]
        done = subprocess.run(command, capture_output=True, text=True, check=False, env=env, cwd=home)
        said = [line for line in done.stderr.splitlines() if not line.startswith("import time:")]
        assert done.returncode == 0, "\n".join(said)
        assert not list(home.iterdir()), "Importing must write nothing into the home folder."
        return {match[1].partition(".")[0] for match in re.finditer(r"\| +([\w.]+)$", done.stderr, re.MULTILINE)}

    return load


def test_the_package_loads_nothing_heavy(loaded):
    names = loaded("-c", "import sourloam")
    assert "sourloam" in names
    assert not names & {*HEAVY, *COMPILERS}, "Keep __init__.py to the version."


def test_help_loads_no_numerical_library(loaded):
    names = loaded("-m", "sourloam", "--help")
    assert not names & {*HEAVY, *COMPILERS}, "A verb loads what it needs when it is called, not before."


def test_no_module_but_a_kernel_loads_a_compiler(loaded):
    names = loaded("-c", EVERY_MODULE)
    assert not names & set(COMPILERS), "Only kernel.py may import the compiler; service/assemble.py passes it in."


@pytest.mark.parametrize("name", ["layers", "flow", "places"])
def test_a_floor_that_is_built_is_no_longer_optional(name):
    rules = contract(name)
    folder = PACKAGE.joinpath(*rules["containers"][0].split(".")[1:])
    optional = re.findall(r"\((\w+)\)", " ".join(rules["layers"]))
    built = [floor for floor in optional if (folder / floor).is_dir() or (folder / f"{floor}.py").is_file()]
    assert not built, f"In pyproject.toml, contract {name}: take the parentheses off {', '.join(built)}."


def test_every_pure_package_is_under_the_contract_of_purity():
    pure = {"base", "science", "site", "fleet", "plan", "logbook", "balance", "views", "draw"}
    built = {f"sourloam.{name}" for name in pure if (PACKAGE / name).is_dir()}
    assert built == set(contract("pure")["source_modules"]), "Name it in pyproject.toml, contract pure."
