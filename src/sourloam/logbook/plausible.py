"""What may have happened and is unlikely: it is kept, with a mark that says what is doubtful."""

from typing import Final

from sourloam.logbook.entries import DrawOff, LayerAdded, Placed, Reading
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import State

LEAST_SEALED_D: Final = 7  # JUDGEMENT: nothing is ready in a week, save in great heat
MOST_FILLED: Final = 1.25  # of the room, as the table packs it: JUDGEMENT, a table's density is that far off
MOST_BRAN: Final = 0.25  # kg per kg of scraps; JUDGEMENT: some times what anybody advises
SOUR_PH: Final = 3.0  # JUDGEMENT: no ferment of scraps is reported to go lower
NOT_SOUR_PH: Final = 8.5
WARM_C: Final = 45.0


def doubt(before: State, entry: Entry, after: State) -> str:
    """Return what is doubtful about an entry that was accepted, or nothing."""
    value = entry.value
    if isinstance(value, LayerAdded):
        return _of_layer(value, after)
    if isinstance(value, DrawOff):
        vessel = next(each for each in before.must()[0].vessels if each.id == value.vessel)
        if not vessel.has_drain:
            return f"{vessel.name or vessel.id} has no drain, as the site says"
        return ""
    if isinstance(value, Placed):
        sealed_on = before.vessel(value.vessel).sealed_on
        days = (entry.on - sealed_on).days if sealed_on else LEAST_SEALED_D
        return f"it had been sealed for {days} days only" if days < LEAST_SEALED_D else ""
    return _of_reading(value) if isinstance(value, Reading) else ""


def _of_layer(value: LayerAdded, after: State) -> str:
    vessel = after.vessel(value.vessel)
    room = next(each.usable_l for each in after.must()[0].vessels if each.id == value.vessel)
    scraps = sum(mass for _, mass in value.parts)
    if vessel.contents.pressed_l > MOST_FILLED * room:
        return f"with it the vessel would hold {vessel.contents.pressed_l:.0f} L, and it has room for {room:.0f} L"
    if value.bran_kg > MOST_BRAN * scraps:
        return f"{value.bran_kg * 1000:.0f} g of bran is much for {scraps:.2g} kg of scraps"
    return ""


def _of_reading(value: Reading) -> str:
    if value.ph is not None and not SOUR_PH <= value.ph <= NOT_SOUR_PH:
        return f"a pH of {value.ph:g} is seldom read there"
    if value.temperature_c is not None and value.temperature_c > WARM_C:
        return f"{value.temperature_c:.0f} °C is hot for a vessel; a heap may be so"
    return ""
