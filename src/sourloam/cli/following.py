"""What verbs share that follow a vessel: the compiled model, how far it is, where a drawing may go."""

import sys
from pathlib import Path
from typing import Any

import click

from sourloam.base.errors import BadInput, Problem, Surroundings
from sourloam.science.ferment.stack.life import Run

LINE = 40  # columns that a word on the way may take
FIRST = "Compiling the model of a vessel for this machine, about half a minute; it is kept for the next time."


def check_drawing(path: Path) -> None:
    """Refuse a drawing that could not be written, before anything is followed."""
    if path.suffix.lower() != ".svg":
        raise BadInput("--plot", (Problem("", f'"{path.name}" does not end in .svg;', "name an SVG file."),))
    if not path.parent.is_dir():
        raise Surroundings(f"{path.parent} is no folder.", "Name another file with --plot.")


def announced(run: Any) -> Run:  # noqa: ANN401 - a compiled function has no type of its own
    """Return the compiled model; say so before it is compiled for the first time."""
    name = run.py_func.__qualname__.rpartition(".")[2]
    if not run.signatures and not any(Path(run.stats.cache_path).glob(f"*{name}-*.nbi")):
        click.echo(FIRST, err=True)
    return run  # type: ignore[no-any-return]


def tell(words: str) -> None:
    """Show how far it is, where somebody looks on; nothing wipes the line."""
    if sys.stderr.isatty():
        click.echo(f"\r{words:<{LINE}}" + ("" if words else "\r"), err=True, nl=False)
