"""The compiled model of a vessel, loaded only where a batch is followed."""

from importlib import import_module
from pathlib import Path
from typing import Any, Final

import click

from sourloam.science.ferment.stack.life import Run

FIRST: Final = "Compiling the model of a vessel for this machine, about half a minute; it is kept for the next time."


def compiled() -> Run:
    """Return the compiled model; say so before it is compiled for the first time."""
    run: Any = import_module("sourloam.science.ferment.kernel").live_all()
    name = run.py_func.__qualname__.rpartition(".")[2]
    if not run.signatures and not any(Path(run.stats.cache_path).glob(f"*{name}-*.nbi")):
        click.echo(FIRST, err=True)
    return run  # type: ignore[no-any-return]
