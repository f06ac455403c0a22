"""What is compiled: the model of a vessel and the life of vessels, each loaded only where it is followed."""

from importlib import import_module
from pathlib import Path
from typing import Any, Final

import click

from sourloam.fleet.rows import Run as FleetRun
from sourloam.science.ferment.stack.life import Run
from sourloam.service.compiled import compiled as model

FIRST: Final = "Compiling the model of a vessel for this machine, about half a minute; it is kept for the next time."
FIRST_FLEET: Final = "Compiling the life of vessels for this machine, about ten seconds; it is kept for the next time."


def compiled_fleet() -> FleetRun | None:
    """Return the compiled life of vessels; nothing where nothing can be kept on disk, and the readable one serves."""
    try:
        run: Any = import_module("sourloam.fleet.kernel").run
    except RuntimeError:  # the compiler finds no folder that it may write to
        return None
    if not run.signatures and not _is_kept(run):
        click.echo(FIRST_FLEET, err=True)
    return run  # type: ignore[no-any-return]


def compiled() -> Run:
    """Return the compiled model; say so before it is compiled for the first time."""
    run: Any = model()
    if not run.signatures and not _is_kept(run):
        click.echo(FIRST, err=True)
    return run  # type: ignore[no-any-return]


def _is_kept(run: Any) -> bool:  # noqa: ANN401 - what the compiler gives has no type of its own
    name = run.py_func.__qualname__.rpartition(".")[2]
    return any(Path(run.stats.cache_path).glob(f"*{name}-*.nbi"))
