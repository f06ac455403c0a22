"""A vessel that is watched as text for a terminal."""

import textwrap
from collections.abc import Iterator, Sequence
from typing import Final

from sourloam.cli.lines import WIDTH, listed, wrapped
from sourloam.views.ferment import DATES
from sourloam.views.ferment_verdict import never_words
from sourloam.views.mix import ToDo
from sourloam.views.reason import Number
from sourloam.views.watch import WatchView

KINDS: Final = 9
OFTEN: Final = 18
DATE_WORDS: Final = {"soured_day": "sour", "ready_day": "ready", "due_day": "due", "hold_day": "held sour"}


def watch_text(view: WatchView) -> str:
    """Return what is going on as a page of text: the answer, what to do, what to look at, then why."""
    blocks = (
        _head(view),
        _todo("Do this now", view.do),
        _looks(view),
        listed("Worry if", view.worry_if),
        _states(view),
        listed("What does not go together", view.conflicts),
        listed("What may be behind it", tuple(f"{each}." for each in view.causes)),
        _dates(view),
        _todo("What would have helped from the start", view.next_time),
        listed("To know", view.hints),
        listed("With care", view.forecast.cautions),
        listed("Taken as given", view.assumptions),
        _foot(),
    )
    return "\n\n".join("\n".join(lines) for lines in map(list, blocks) if lines)


def _head(view: WatchView) -> Iterator[str]:
    yield from textwrap.wrap(f"{view.batch.name}, day {view.day}: {view.says}", WIDTH)


def _todo(title: str, acts: Sequence[ToDo]) -> Iterator[str]:
    if not acts:
        return
    yield title
    for number, each in enumerate(acts, start=1):
        yield from wrapped(f"  {number}. ", f"{each.do}: {each.because}.")


def _looks(view: WatchView) -> Iterator[str]:
    if not view.look_next:
        return
    yield "Look at this next"
    for each in view.look_next[:2]:
        yield from wrapped("  - ", each.what + (" (needs a strip or a thermometer)" if each.buys else ""))


def _states(view: WatchView) -> Iterator[str]:
    if not view.is_known:
        return
    counts = ", ".join(f"{count} {state}" for state, count in view.twenty)
    like = "that read like yours" if view.readings else "filled like yours"
    yield from textwrap.wrap(f"Of 20 vessels {like}: {counts}", WIDTH)
    for each in view.diagnosis:
        if each.chance.value is not None and each.chance.value >= 0.05:
            yield from wrapped(f"  {each.state:<{KINDS}} {_often(each.chance):<{OFTEN}} ", f"{each.because}.")


def _often(chance: Number) -> str:
    """Return a chance in 20 with its interval."""
    value, low, high = (round(20.0 * (each or 0.0)) for each in (chance.value, chance.low, chance.high))
    return f"{value} in 20" + (f" ({low} to {high})" if low < high else "")


def _dates(view: WatchView) -> Iterator[str]:
    if view.route or not view.is_known:
        return
    count = len(view.batch.filling.layers)
    since = "after the last layer" if count > 1 and view.batch.last_d > 0.0 else "after it was laid in"
    yield f"Days {since}: as it is read, and as it was forecast before"
    for each in view.forecast.numbers:
        if each.name in DATES:
            before = view.before.number(each.name)
            then = f"before: {_day(before)}" if before is not None else ""
            yield f"  {DATE_WORDS[each.name]:<10} {_day(each):<22} {then}".rstrip()


def _day(number: Number) -> str:
    if number.value is None or number.low is None or number.high is None:
        return never_words(number.never_frac)
    low, middle, high = (round(each) for each in (number.low, number.value, number.high))
    return f"{middle}" + (f" ({low} to {high})" if low < high else "")


def _foot() -> Iterator[str]:
    yield "Why? --why chance_sound opens that figure. Drawn: --plot FILE.svg. All: --json."
