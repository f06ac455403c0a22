"""Faults and errors as plain objects for JSON."""

from typing import Any, Final

from sourloam.base.errors import BadInput

PROBLEMS: Final = "sourloam.problems/1"
ERROR: Final = "sourloam.error/1"


def problems_object(error: BadInput) -> dict[str, Any]:
    """Return all faults of an input."""
    rows = [
        {
            "file": error.name,
            "line": each.line,
            "key": each.key,
            "found": f"{each.where}: {each.found}".removeprefix(": "),
            "try": each.remedy,
        }
        for each in error.problems
    ]
    return {"schema": PROBLEMS, "problems": rows}


def error_object(kind: str, error: Exception) -> dict[str, Any]:
    """Return an error that no input could cure."""
    return {"schema": ERROR, "kind": kind, "says": str(error)}
