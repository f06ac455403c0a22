"""A sizing as text for a terminal."""

import textwrap
from collections.abc import Iterator

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show_mix import number_lines
from sourloam.plan.words import share
from sourloam.views.size import SizeView, month_words


def size_text(view: SizeView) -> str:
    """Return a sizing as a page of text."""
    blocks = (
        textwrap.wrap(view.stopped, WIDTH),
        textwrap.wrap(view.says, WIDTH),
        listed("Today", view.today),
        _options(view),
        listed("What binds when", [month_words(month, link) for month, link, _ in view.sizing.binds]),
        _fleets(view),
        number_lines("In numbers (in brackets: nine years in ten lie between)", view.numbers, view.speech),
        textwrap.wrap(
            f"{view.replications} years were lived, each with its own chance (seed {view.seed}). How uneven days are "
            "and how many batches fail is a judgement: --failing changes it, --why opens a figure.",
            WIDTH,
        ),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _options(view: SizeView) -> Iterator[str]:
    if not view.sizing.options:
        return
    yield "What if you ... (stalled weeks, a full vessel's weight)"
    for each in view.sizing.options:
        heavy = ", more than you lift" if each.mass_kg > view.lift_kg else ""
        yield from wrapped(
            f"  {share(each.chance):>7}  {view.speech.kg(each.mass_kg):>8}  ", f"{each.what}{heavy}?", hang=0
        )


def _fleets(view: SizeView) -> Iterator[str]:
    if not view.sizing.fleets:
        return
    yield "Equal vessels that would be enough"
    for each in view.sizing.fleets:
        many = "no number that was tried" if each.vessels is None else f"{each.vessels}"
        heavy = ", more than you lift" if each.mass_kg > view.lift_kg else ""
        yield f"  {many} of {view.speech.size(each.volume_l)}, {view.speech.kg(each.mass_kg)} when full{heavy}"
