"""The code of the package as syntax trees, for the tests beside this file."""

import ast
import subprocess
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "sourloam"
Function = ast.FunctionDef | ast.AsyncFunctionDef


@cache
def project():
    """Return pyproject.toml."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))


def contract(name: str) -> dict:
    """Return one import contract."""
    return next(c for c in project()["tool"]["importlinter"]["contracts"] if c["id"] == name)


@cache
def parsed(path: Path) -> ast.Module:
    """Return the syntax tree of one file."""
    return ast.parse(path.read_text("utf-8"), filename=str(path))


def modules(*folders: Path) -> list[Path]:
    """Return all modules under `folders` that hold anything."""
    return [path for folder in folders for path in sorted(folder.rglob("*.py")) if path.stat().st_size]


def pure_modules() -> list[Path]:
    """Return the modules that the contract `pure` names."""
    return modules(*(ROOT / "src" / name.replace(".", "/") for name in contract("pure")["source_modules"]))


def functions(tree: ast.Module) -> Iterator[Function]:
    """Yield every function and method, nested ones too."""
    return (node for node in ast.walk(tree) if isinstance(node, Function))


def place(path: Path, node: ast.AST | None = None) -> str:
    """Return where something stands, as an editor understands it."""
    return f"{path.relative_to(ROOT)}:{getattr(node, 'lineno', 1)}"


def name_of(node: ast.AST) -> str:
    """Return `a.b.c` for a name or an attribute of one, else nothing."""
    match node:
        case ast.Name(id=name):
            return name
        case ast.Attribute(value=value, attr=attr):
            return f"{name_of(value)}.{attr}"
    return ""


def committed() -> list[Path]:
    """Return every file that is, or with the next commit may be, in the repository."""
    command = ["git", "-c", "safe.directory=*", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]
    names = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True).stdout.split("\0")
    return [ROOT / name for name in names if name and (ROOT / name).is_file()]


def told(faults: list[str], cure: str) -> str:
    """Return the message of a failing test: what to do, then where."""
    return "\n".join([cure, *faults])
