"""All fates of a batch as text for a terminal."""

import textwrap
from collections.abc import Iterator
from typing import Final

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.cli.show_place import WORD
from sourloam.views.fates import Fate, FatesView, title, wait_words

CAUTIONED: Final = 2  # fates whose cautions are told


def fates_text(view: FatesView) -> str:
    """Return the fates as a page of text: where it goes, then each place."""
    cautions = [line for each in view.fates[:CAUTIONED] for line in each.cautions]
    blocks = (
        _head(view),
        *(_fate(each, view) for each in view.fates),
        listed("With care", tuple(map(view.speech.told, dict.fromkeys(cautions)))),
        listed("Taken as given", view.assumptions),
        _foot(view),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _head(view: FatesView) -> Iterator[str]:
    yield from textwrap.wrap(view.says, WIDTH)
    yield from textwrap.wrap(f"({title(view)}; the best first for: {view.values.replace('-', ' ')}.)", WIDTH)


def _foot(view: FatesView) -> Iterator[str]:
    first = next(iter(view.reasons), None)
    why = f"Why? --why {first} opens that figure. " if first else ""
    yield from textwrap.wrap(f"{why}More on one: sourloam bed, or tub, with --place ID. Everything: --json.", WIDTH)


def _fate(fate: Fate, view: FatesView) -> Iterator[str]:
    takes = f", takes {view.speech.kg(fate.takes_kg)}" if fate.takes_kg > 0.0 else ""
    yield f"{WORD[fate.decision]}: {fate.name}{takes}"
    for each in (fate.effect, wait_words(fate), *fate.because):
        if each:
            yield from wrapped("  - ", view.speech.told(f"{each[0].upper()}{each[1:].rstrip('.')}."))
