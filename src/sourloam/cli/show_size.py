"""A sizing as text for a terminal."""

import textwrap
from collections.abc import Iterator

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show_mix import number_lines
from sourloam.plan.words import money, share
from sourloam.views.size import SizeView, month_words


def size_text(view: SizeView) -> str:
    """Return a sizing as a page of text."""
    blocks = (
        textwrap.wrap(view.stopped, WIDTH),
        textwrap.wrap(view.says, WIDTH),
        listed("Today", view.today),
        _options(view),
        _what_ifs(view),
        listed("What binds when", [month_words(month, link) for month, link, _ in view.sizing.binds]),
        _fleets(view),
        listed("Winter", view.sizing.winter),
        number_lines("In numbers (in brackets: nine years in ten lie between)", view.numbers, view.speech),
        textwrap.wrap(
            f"{view.replications} years were lived, each with its own chance (seed {view.seed}). How uneven days are "
            "and how many batches fail is a judgement: --failing changes it, --why opens a figure.",
            WIDTH,
        ),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _options(view: SizeView) -> Iterator[str]:
    if view.helping:
        yield "What if you ... (stalled weeks, a full vessel's weight)"
    for each in view.helping:
        heavy = ", more than you lift" if each.mass_kg > view.lift_kg else ""
        costs = f" for {money(each.cost, view.currency)}" if each.cost else ""
        yield from wrapped(
            f"  {share(each.chance):>7}  {view.speech.kg(each.mass_kg):>8}  ", f"{each.what}{costs}{heavy}?", hang=0
        )
    if view.useless:
        yield from wrapped("  ", f"No help here: {'; '.join(each.what for each in view.useless)}.", hang=2)


def _what_ifs(view: SizeView) -> Iterator[str]:
    if not view.sizing.what_ifs:
        return
    yield f"What if ... (stalled weeks; now {share(view.sizing.figures['stall_chance_per_week'].value)})"
    for each in view.sizing.what_ifs:
        yield from wrapped(f"  {share(each.chance):>7}  ", f"{each.what}?", hang=0)


def _fleets(view: SizeView) -> Iterator[str]:
    if not view.sizing.fleets:
        return
    yield "Equal vessels that would be enough"
    for each in view.sizing.fleets:
        many = "no number that was tried" if each.vessels is None else f"{each.vessels}"
        heavy = ", more than you lift" if each.mass_kg > view.lift_kg else ""
        yield f"  {many} of {view.speech.size(each.volume_l)}, {view.speech.kg(each.mass_kg)} when full{heavy}"
