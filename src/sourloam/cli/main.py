"""The table of verbs. A verb is loaded when it is called, so that help and small jobs start at once."""

import sys
from importlib import import_module
from types import MappingProxyType
from typing import Final

import click

from sourloam import __version__

# Each verb with the one line that help shows; the module of that name holds the rest.
VERBS: Final = MappingProxyType({"plan": "Plan the year of a site: is it enough, what to do when, and why."})


class Verbs(click.Group):
    """A group whose commands are modules."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the verbs in the order of the table."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load a verb."""
        if cmd_name not in VERBS:
            return None
        command: click.Command = import_module(f"sourloam.cli.verbs.{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the verbs without loading them."""
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(__version__, prog_name="sourloam")
def commands() -> None:
    """Plan a chain of fermented scraps, from the kitchen to the ground.

    Begin with a site file: see examples/quillet_yard.toml.
    """


def main() -> None:
    """Run the command line; the exit codes are in `exits.py`."""
    sys.exit(commands(prog_name="sourloam"))
