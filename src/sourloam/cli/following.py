"""What verbs share that follow a vessel: how far it is, where a drawing may go."""

import sys
from pathlib import Path

import click

from sourloam.base.errors import BadInput, Problem, Surroundings

LINE = 40  # columns that a word on the way may take


def check_drawing(path: Path) -> None:
    """Refuse a drawing that could not be written, before anything is followed."""
    if path.suffix.lower() != ".svg":
        raise BadInput("--plot", (Problem("", f'"{path.name}" does not end in .svg;', "name an SVG file."),))
    if not path.parent.is_dir():
        raise Surroundings(f"{path.parent} is no folder.", "Name another file with --plot.")


def tell(words: str) -> None:
    """Show how far it is, where somebody looks on; nothing wipes the line."""
    if sys.stderr.isatty():
        click.echo(f"\r{words:<{LINE}}" + ("" if words else "\r"), err=True, nl=False)
