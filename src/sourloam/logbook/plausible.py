"""What may have happened and is unlikely: it is kept, with a mark that says what is doubtful."""

from sourloam.logbook.entries import DrawOff, LayerAdded, Placed, Reading, VesselKept
from sourloam.logbook.entry import Entry
from sourloam.logbook.parameters import LogbookParameters
from sourloam.logbook.state import State


def doubt(before: State, entry: Entry, after: State, likely: LogbookParameters) -> str:
    """Return what is doubtful about an entry that was accepted, or nothing."""
    value = entry.value
    if isinstance(value, VesselKept) and value.mass_kg:
        return "what is in it, and since when, nobody knows"
    if isinstance(value, LayerAdded):
        return _of_layer(value, after, likely)
    if isinstance(value, DrawOff):
        vessel = next(each for each in before.must()[0].vessels if each.id == value.vessel)
        if not vessel.has_drain:
            return f"{vessel.name or vessel.id} has no drain, as the site says"
        return ""
    if isinstance(value, Placed):
        sealed_on = before.vessel(value.vessel).sealed_on
        if sealed_on is None or (days := (entry.on - sealed_on).days) >= likely.least_sealed_d.value:
            return ""
        return f"it had been sealed for {days} days only"
    return _of_reading(value, likely) if isinstance(value, Reading) else ""


def _of_layer(value: LayerAdded, after: State, likely: LogbookParameters) -> str:
    vessel = after.vessel(value.vessel)
    room = next(each.usable_l for each in after.must()[0].vessels if each.id == value.vessel)
    scraps = sum(mass for _, mass in value.parts)
    if vessel.contents.pressed_l > likely.most_filled_frac.value * room:
        return f"with it the vessel would hold {vessel.contents.pressed_l:.0f} L, and it has room for {room:.0f} L"
    if value.bran_kg > likely.most_bran_kg_per_kg.value * scraps:
        return f"{value.bran_kg * 1000:.0f} g of bran is much for {scraps:.2g} kg of scraps"
    return ""


def _of_reading(value: Reading, likely: LogbookParameters) -> str:
    if value.ph is not None and not likely.least_ph.value <= value.ph <= likely.most_ph.value:
        return f"a pH of {value.ph:g} is seldom read there"
    if value.temperature_c is not None and value.temperature_c > likely.most_c.value:
        return f"{value.temperature_c:.0f} °C is hot for a vessel; a heap may be so"
    return ""
