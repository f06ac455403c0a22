"""A heap as text for a terminal."""

import textwrap
from typing import Final

from sourloam.cli.lines import WIDTH, listed
from sourloam.cli.show_mix import number_lines
from sourloam.views.heap import HeapView

NUMBERS: Final = "In numbers (in brackets: nine in ten lie between)"


def heap_text(view: HeapView) -> str:
    """Return a heap as a page of text."""
    blocks = (
        textwrap.wrap(view.says, WIDTH),
        listed("How to build it", view.steps),
        listed("Mind", view.notes),
        number_lines(NUMBERS, view.numbers, view.speech),
        listed("Not agreed on", view.asks),
        ["Why? --why culture opens that figure. Everything: --json."] if view.is_built else (),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)
