"""A batch of the logbook as it was laid: its layers by their days, where it stands, what was read of it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput
from sourloam.base.figure import written
from sourloam.evidence.signs import load_signs
from sourloam.fleet.arrivals import week_kg
from sourloam.fleet.setting import temperatures_c
from sourloam.logbook.entries import Reading as Read
from sourloam.logbook.entry import Entry
from sourloam.logbook.state import BatchRecord, Laid
from sourloam.plan.words import Speech
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer
from sourloam.science.load.assess import Known, Portion
from sourloam.science.materials.composition import Material
from sourloam.science.readings.read import Setting, read_readings
from sourloam.science.vessel.geometry import floor_m2
from sourloam.service.assemble import climate_of, knowledge
from sourloam.service.named import Named
from sourloam.service.portions import BRAN
from sourloam.site.vessels import Vessel
from sourloam.views.batch import Batch, has_animal

FOLLOW_D: Final = 42  # after the last layer, where nothing else is asked
MOST_LAYERS: Final = 12  # more are laid together: the model is no truer by them, and slower
CRUMB_KG: Final = 0.01


def batch_of_record(
    named: Named, record: BatchRecord, known: Known, *, members: int, days: int | None = None, units: str | None = None
) -> Batch:
    """Return a batch of the logbook as it is to be followed."""
    assert named.state is not None  # noqa: S101 - the record came from there
    site = named.site
    table = knowledge(site.materials).materials
    vessel = next(each for each in site.vessels if each.id == record.vessel)
    first = record.began_on
    laid, taken = _laid(named, record, table)
    layers = tuple(_layer(each, first, table, members=members) for each in _together(laid))
    last_d = round(layers[-1].laid_d)
    climate, _ = climate_of(site, named.folder)
    room = np.asarray(temperatures_c(vessel, first, last_d + (days or FOLLOW_D), climate))
    looks = tuple(sorted({(each - first).days for each in record.looks if 0 < (each - first).days < room.size}))
    kept = Kept(
        vessel.volume_l,
        _floor_m2(vessel, known),
        vessel.below_grid_l,
        room,
        opened_on=looks,
        draws_every_d=_draws_every_d(record, known),
    )
    return Batch(
        f"{site.name_of(vessel.id)}, {record.id}",
        Filling(layers, kept),
        vessel.volume_l / 1000.0 / kept.floor_m2,
        first=first,
        least_d=site.keeper.least_d,
        has_drain=vessel.has_drain,
        has_animal=has_animal(layers),
        assumptions=(*taken, "Where it stands is as warm as in a usual year.", "Gas can lift its lid."),
        speech=Speech(units or site.keeper.units),
        past=named.state.past,
    )


def readings_of(record: BatchRecord, first: date) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what was read of a batch, as `watch` reads it, and what of it says nothing to the model."""
    setting = Setting(load_signs(), first)
    read, unread = [], []
    for entry in record.readings:
        for words in _words(entry, first):
            try:
                read_readings([words], setting)
            except BadInput:
                unread.append(words)
            else:
                read.append(words)
    for on, litres in record.draws:
        read.append(f"day {(on - first).days} leachate {litres:.4g} L")
    return tuple(read), tuple(unread)


def _words(entry: Entry, first: date) -> Iterator[str]:
    value = entry.value
    day = f"day {(entry.on - first).days}"
    if not isinstance(value, Read) or entry.on < first:
        return
    if value.ph is not None:
        yield f"{day} strip {value.ph:g}"
    if value.temperature_c is not None:
        yield f"{day} temperature {value.temperature_c:g} C"
    if value.smell:
        yield f"{day} smell {value.smell}"
    if value.growth:
        yield f"{day} growth {value.growth}"


def _laid(named: Named, record: BatchRecord, table: Mapping[str, Material]) -> tuple[tuple[Laid, ...], tuple[str, ...]]:
    """Return what was laid in; what was in the vessel before the record began counts as a usual week's."""
    vessels = named.state.must()[1].vessels if named.state else ()
    held = next((each for each in vessels if each.batch == record.id), None)
    known_kg = sum(mass for each in record.laid for _, mass in each.parts)
    before_kg = max(record.scraps_kg, held.contents.scraps_kg if held and not record.placings else 0.0) - known_kg
    if before_kg <= CRUMB_KG and known_kg > 0.0:
        return record.laid, ()
    week = week_kg(named.site.streams, table)
    whole = sum(week.values())
    parts = tuple((name, before_kg * mass / whole) for name, mass in week.items() if mass > 0.0)
    bran_kg = max(record.bran_kg - sum(each.bran_kg for each in record.laid), 0.0)
    said = "What was in it before the record began is taken to be what comes in a usual week."
    return (Laid(record.first_layer_on, parts, bran_kg), *record.laid), (said,)


def _together(laid: Sequence[Laid]) -> tuple[Laid, ...]:
    """Return a layer for each day at the most; where there are many, neighbours are laid together."""
    by_day: dict[date, Laid] = {}
    for each in sorted(laid, key=lambda one: one.on):
        on = each.on if each.parts or not by_day else max(by_day)
        before = by_day.get(on)
        by_day[on] = each._replace(on=on) if before is None else _both(before, each)
    rows = [each for each in by_day.values() if each.parts]
    size = -(-len(rows) // MOST_LAYERS)
    groups = [rows[start : start + size] for start in range(0, len(rows), size)]
    return tuple(_sum(group) for group in groups)


def _both(one: Laid, two: Laid) -> Laid:
    """Return two layers as one, of the day of the first."""
    parts = dict(one.parts)
    for name, mass in two.parts:
        parts[name] = parts.get(name, 0.0) + mass
    return Laid(one.on, tuple(parts.items()), one.bran_kg + two.bran_kg)


def _sum(group: Sequence[Laid]) -> Laid:
    whole = group[0]
    for each in group[1:]:
        whole = _both(whole, each)
    return whole._replace(on=group[-1].on)


def _layer(laid: Laid, first: date, table: Mapping[str, Material], *, members: int) -> Layer:
    portions = tuple(
        Portion(table[name], written(f"mass.{name}", mass, "kg", words=table[name].name, members=members))
        for name, mass in laid.parts
    )
    layer = Layer(portions, laid_d=float((laid.on - first).days))
    if laid.bran_kg <= 0.0:
        return layer
    bran = Portion(table[BRAN], written("bran", laid.bran_kg, "kg", words="bran on the layer", members=members))
    return replace(layer, bran=bran)


def _floor_m2(vessel: Vessel, known: Known) -> float:
    return float(floor_m2(vessel.volume_l, known.vessel.height_to_width.value))


def _draws_every_d(record: BatchRecord, known: Known) -> int:
    """Return how often liquid was drawn off, where that was done more than once."""
    days = sorted({on for on, _ in record.draws})
    if len(days) < 2:
        return max(1, round(known.vessel.draw_off_d.value))
    return max(1, round((days[-1] - days[0]) / timedelta(days=1) / (len(days) - 1)))
