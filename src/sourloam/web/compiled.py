"""The compiled model of a vessel, loaded with the first page that follows one."""

from importlib import import_module
from typing import Any

from sourloam.science.ferment.stack.life import Run


def compiled() -> Run:
    """Return the compiled model."""
    run: Any = import_module("sourloam.science.ferment.kernel").live_all()
    return run  # type: ignore[no-any-return]
