"""The table of verbs. A verb is loaded when it is called, so that help and small jobs start at once."""

import sys
from importlib import import_module
from types import MappingProxyType
from typing import Final

import click

from sourloam import __version__

STOPPED: Final = 130  # Exit.STOPPED, which takes longer to load than to say

# Each verb with the one line that help shows; the module of that name holds the rest.
VERBS: Final = MappingProxyType(
    {
        "new": "Begin: a few plain questions, a site file from the answers, and the plan.",
        "mix": "Judge a load before the lid goes on: will it sour, and what to add if not.",
        "ferment": "Follow a batch: when it is sour, ready and due, and what may go wrong.",
        "watch": "What is going on in a vessel, by what you saw and smelled; what to do now.",
        "wrong": "Something is wrong: at most five plain questions, and what to do.",
        "place": "Sort a batch: what each place of a site can take today, and what comes of it.",
        "bed": "What a bed does with a batch: how much, how deep, when to plant, what it feeds.",
        "tub": "Finish a batch in a tub of soil: how much soil, how many days, how many tubs.",
        "leachate": "The liquid: how strong it is, what to thin it to, and where it may go.",
        "pile": "Put a batch into a pile: with what, how warm it gets, when to turn.",
        "worms": "Feed a batch to worms: how much now, with what, when again.",
        "ails": "Something is wrong with a pile, worms, a tub or plants: what, what to do.",
        "charcoal": "Charcoal beside a batch: how much, what it takes up, what to mind.",
        "hens": "Hens beside the vessels: how much they have room for, and whom to ask.",
        "leaves": "Leaf mould: when, how much is left; green matter saved up for a pile.",
        "heap": "What a heap of garden matter takes that is to sour under a sheet.",
        "culture": "Make bran, and never be without a starter: amounts, dates, what is still alive.",
        "plan": "Plan the year of a site: is it enough, what to do when, and why.",
        "size": "Will the chain ever stall by chance, and what would cure it.",
        "today": "What to do today and next, and how everything stands, by the logbook.",
        "status": "How everything stands by the logbook: shelf, cupboard, ground.",
        "learned": "This site's own values by its record, beside the usual ones.",
        "forecast": "Work out the forecasts that today's list is made from, and keep them.",
        "log": "Write down what happened, in your own words.",
        "undo": "Take back the last entry of the logbook, or one that is named.",
        "history": "What was written down: all of it, or of one vessel, place or batch.",
        "verify": "Whether any line of the logbook was changed or is missing.",
        "import": "Take a site file, or the lines of another logbook, into the logbook.",
        "export": "Give out the logbook's lines, or its site as a file.",
        "backup": "The whole logbook in one file, read back to be sure.",
        "restore": "A logbook from such a copy, on either database.",
        "materials": "What goes in: what it is made of, and where that is from.",
        "serve": "Open the pages for a browser, on this machine alone.",
        "audit": "How every value of the tool came to be known.",
    }
)
MODULES: Final = MappingProxyType({"import": "import_"})  # a word that Python keeps for itself


class Verbs(click.Group):
    """A group whose commands are modules."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the verbs in the order of the table."""
        return list(VERBS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Load a verb."""
        if cmd_name not in VERBS:
            return None
        command: click.Command = import_module(f"sourloam.cli.verbs.{MODULES.get(cmd_name, cmd_name)}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the verbs without loading them."""
        with formatter.section("Verbs"):
            formatter.write_dl(list(VERBS.items()))


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(__version__, prog_name="sourloam")
def commands() -> None:
    """Plan a chain of fermented scraps, from the kitchen to the ground.

    Begin with "sourloam new"; a larger site file is examples/quillet_yard.toml.
    """


def main() -> None:
    """Run the command line; the exit codes are in `exits.py`."""
    try:
        sys.exit(commands.main(prog_name="sourloam", standalone_mode=False))
    except click.ClickException as error:
        error.show()
        sys.exit(_refused(error))
    except click.Abort:  # stopped before a verb had begun
        sys.stderr.write("Stopped. Nothing was written.\n")
        sys.exit(STOPPED)


def _refused(error: click.ClickException) -> int:
    """Say what is wrong with the words of the command as any other wrong input, where a script listens."""
    if "--json" in sys.argv:
        import_module("sourloam.cli.exits").refused(error.format_message())
    return error.exit_code
