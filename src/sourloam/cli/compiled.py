"""The compiled model of a vessel, loaded only where a batch is followed."""

from importlib import import_module
from pathlib import Path
from typing import Final

import click

from sourloam.science.ferment.stack.life import Run

FIRST: Final = "Compiling the model of a vessel for this machine, about half a minute; it is kept for the next time."


def compiled() -> Run:
    """Return the compiled model; say so before it is compiled for the first time."""
    run: Run = import_module("sourloam.science.ferment.kernel").live_all()
    kept = Path(run._cache.cache_path)  # type: ignore[attr-defined]  # noqa: SLF001 - nothing public tells
    name = run.py_func.__qualname__.rpartition(".")[2]  # type: ignore[attr-defined]
    if not any(kept.glob(f"*{name}-*.nbi")) and not run.signatures:  # type: ignore[attr-defined]
        click.echo(FIRST, err=True)
    return run
