"""The shelf in words: what is so on its day, and of each vessel its state and one date."""

from collections import Counter
from datetime import date
from typing import Final

from sourloam.draw.scale import NO_BREAK, day_words, span_words
from sourloam.plan.answer import Batch
from sourloam.plan.shelf import OnShelf
from sourloam.plan.words import Speech
from sourloam.views.shelf import Shelved

COUNTS: Final = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def finding(view: Shelved) -> str:
    """Return what is so on the day of the shelf, in a sentence."""
    vessels = view.shelf.vessels
    day = day_words(view.shelf.on)
    used = Counter(each.phase for each in vessels if each.phase != "empty")
    if not used:
        return f"On {day} all vessels are empty"
    parts = ", ".join(
        f"{count_words(used[phase])} {phase}" for phase in ("filling", "fermenting", "ready") if used[phase]
    )
    if len(vessels) == 1:
        return f"On {day} the one vessel is {next(iter(used))}"
    whole = sum(used.values())
    of = "all" if whole == len(vessels) else f"{count_words(whole)} of"
    return f"On {day} {of} {count_words(len(vessels))} vessels are in use: {parts}"


def name_of(vessel: OnShelf, view: Shelved) -> str:
    """Return what the keeper calls a vessel."""
    return view.names.get(vessel.vessel, vessel.vessel)


def dated(vessel: OnShelf, view: Shelved) -> tuple[str, str]:
    """Return the one date of a vessel in words, and its interval where it is a forecast."""
    batch = next((each for each in view.batches if each.id == vessel.batch), None)
    match vessel.phase:
        case "filling":
            sealed = batch.sealed if batch else None
            return (f"seal {day_words(sealed)}" if sealed else "not full this year", "")
        case "fermenting":
            return _ready(batch)
        case "ready":
            return (f"since {day_words(vessel.ready)}" if vessel.ready else "", "")
    following = _next_filling(vessel, view)
    return (f"next filled {day_words(following)}" if following else "not needed this year", "")


def _ready(batch: Batch | None) -> tuple[str, str]:
    if batch is None or batch.ready is None or batch.ready_low is None:
        return ("not ready this year", "")
    late = batch.ready_high
    between = span_words(batch.ready_low, late) if late else f"{day_words(batch.ready_low)} or later"
    return (f"ready about {day_words(batch.ready)}", f"({between})")


def _next_filling(vessel: OnShelf, view: Shelved) -> date | None:
    starts = (each.first_layer for each in view.batches if each.vessel == vessel.vessel)
    return min((each for each in starts if each > view.shelf.on), default=None)


def spoken(vessel: OnShelf, view: Shelved) -> str:
    """Return a vessel in one sentence."""
    state = ", ".join(each for each in (vessel.phase, " ".join(dated(vessel, view)).strip()) if each)
    layers = "1 layer" if len(vessel.layers) == 1 else f"{len(vessel.layers)} layers"
    holds = f", {view.speech.kg(vessel.mass_kg)} in {layers}" if vessel.mass_kg > 0.0 else ""
    return f"{name_of(vessel, view)}: {state}{holds}."


def count_words(number: int) -> str:
    """Return a count in words up to ten, in digits from there."""
    return COUNTS[number] if number < len(COUNTS) else str(number)


def fill_limit(vessel: OnShelf, speech: Speech) -> str:
    """Return the room at which a vessel counts as full."""
    return size_words(vessel.fill_limit_frac * vessel.volume_l, speech)


def size_words(value_l: float, speech: Speech) -> str:
    """Return the size of a vessel in words that stay on one line."""
    return speech.size(value_l).replace(" ", NO_BREAK)


def table_row(vessel: OnShelf, view: Shelved) -> tuple[str, ...]:
    """Return a vessel as one row of the table."""
    return (
        name_of(vessel, view),
        vessel.phase,
        " ".join(dated(vessel, view)).strip(),
        view.speech.kg(vessel.mass_kg) if vessel.mass_kg > 0.0 else "nothing",
        str(len(vessel.layers)),
        view.speech.litres(vessel.liquid_l) if vessel.liquid_l > 0.0005 else "none",
        f"{fill_limit(vessel, view.speech)} of {size_words(vessel.volume_l, view.speech)}",
    )
