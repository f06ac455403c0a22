"""Programs of the machine that tests may ask for, and the Debian package that brings each.

A test says `@pytest.mark.needs_system("chromium")`. `make test` as root on a Debian-like machine installs what the
tests of this tree ask for; elsewhere such a test runs where the program is on PATH and is skipped where it is not.
Only the standard library is used here, since the set-up reads this file too.
"""

import ast
import shutil
from pathlib import Path

# Program on PATH -> Debian package. Add a line with the first test that needs it.
PARTS: dict[str, str] = {"chromium": "chromium", "pg_ctlcluster": "postgresql"}
MARK = "needs_system"


def wanted(tests: Path) -> list[str]:
    """Return the programs that tests under `tests` ask for."""
    return sorted({name for path in sorted(tests.rglob("test_*.py")) for name in asked(path.read_text("utf-8"))})


def asked(code: str) -> list[str]:
    """Return the programs that one file asks for."""
    calls = [node for node in ast.walk(ast.parse(code)) if isinstance(node, ast.Call)]
    marks = [call for call in calls if isinstance(call.func, ast.Attribute) and call.func.attr == MARK]
    return [arg.value for mark in marks for arg in mark.args if isinstance(arg, ast.Constant)]


def missing(names: list[str]) -> list[str]:
    """Return those of `names` that are not on PATH."""
    return [name for name in names if shutil.which(name) is None]


def packages(names: list[str], parts: dict[str, str] = PARTS) -> list[str]:
    """Return the Debian packages that bring `names`."""
    return sorted({parts[name] for name in names})


def advice(names: list[str], parts: dict[str, str] = PARTS) -> str:
    """Return the closing line for tests that were skipped for want of `names`."""
    command = f"apt-get install {' '.join(packages(names, parts))}"
    return f"Skipped for want of {', '.join(sorted(names))}. To run them: {command}"
