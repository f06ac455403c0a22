"""What is wrong at a place, as text for a terminal."""

import textwrap

from sourloam.cli.lines import WIDTH, listed
from sourloam.views.ails import AilsView


def ails_text(view: AilsView) -> str:
    """Return it as a page of text: what it is, what to do, what to look at next."""
    guesses = [f"{each.words[0].upper()}{each.words[1:]}: {each.counted}" for each in view.guesses]
    answered = f"(then --seen {view.thing} or --not-seen {view.thing})" if view.thing else ""
    look = [f"{view.look} {answered}".strip()] if view.look else []
    blocks = (
        textwrap.wrap(view.says, WIDTH),
        listed("Do this now", view.do),
        listed("Look at this next", look),
        listed("Of 20 that look like yours", guesses),
        listed("Taken as given", view.assumptions),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)
