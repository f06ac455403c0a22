"""The compiled model of a vessel, loaded only where one is followed."""

from importlib import import_module
from typing import Any

from sourloam.science.ferment.stack.life import Run


def compiled() -> Run:
    """Return the compiled model."""
    run: Any = import_module("sourloam.science.ferment.kernel").live_all()
    return run  # type: ignore[no-any-return]
