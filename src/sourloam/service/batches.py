"""A batch to be followed: from a batch file, from amounts as a kitchen measures them, from the plan of a site."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

import numpy as np

from sourloam.base.errors import BadInput, Problem
from sourloam.base.fields import Asking, Fault, Key, Kind, declared
from sourloam.base.figure import Figure, written
from sourloam.base.numbers import FloatArray
from sourloam.base.spread import Spread
from sourloam.exchange.amounts import Amount, read_amount, read_amounts
from sourloam.fleet.arrivals import week_kg
from sourloam.fleet.life import Load
from sourloam.fleet.setting import temperatures_c
from sourloam.plan.loads import ABSORBENT, setting_of
from sourloam.plan.simulated import living
from sourloam.plan.words import Speech
from sourloam.science.ferment.ensemble.filling import Filling, Kept, Layer, Measured
from sourloam.science.load.assess import Known, Portion, assess
from sourloam.science.materials.composition import Material, Rule
from sourloam.science.vessel.geometry import floor_m2
from sourloam.service.batch_of_book import batch_of_record
from sourloam.service.named import Named, is_of_book, site_named
from sourloam.service.portions import BRAN, VOLUME_L, Pantry, portion_of
from sourloam.site.batch import BatchMeasured, BatchVessel
from sourloam.site.batch_kinds import ROOM
from sourloam.site.vessels import Vessel
from sourloam.sitefile.batch import BatchFile, Laid, read_batch
from sourloam.views.batch import Batch, has_animal

FOLLOW_D: Final = 42  # after the last layer, where nothing else is asked
MOST_LAYERS: Final = 12
BELOW_OR_COUNT: Final = re.compile(r"-?[\d.,½¼¾]+\s+\S")  # how an amount begins, and a file hardly


@dataclass(frozen=True)
class AskedBatch:
    """What a forecast is asked with; what is left open has a default, which is said."""

    batch: tuple[str, ...]  # a batch file, VESSEL/N of a site, or amounts where `at` is given
    at: str | None = None
    site: Path | None = None
    vessel: str | None = None
    has_drain: bool | None = None
    own: Path | None = None
    units: str | None = None
    days: int | None = None
    members: int = 1000
    named: Named | None = None  # the site by the logbook, where that was read already
    bran_kg: float | None = None  # with amounts: other than what `mix` advises


def batch_of(asked: AskedBatch, known: Known) -> Batch:
    """Return what is to be followed.

    Raises
    ------
    BadInput
        If what was written cannot be used; all faults are named.
    """
    if asked.at is not None:
        return _from_amounts(asked, known)
    if len(asked.batch) != 1:
        remedy = 'name one batch file, or write amounts and --at "16 C".'
        raise BadInput("BATCH", (Problem("", f"there are {len(asked.batch)} names;", remedy),))
    name = asked.batch[0]
    if (named := named_of(asked)) is not None and (record := named.batches.get(name)) is not None:
        return batch_of_record(named, record, known, members=asked.members, days=asked.days, units=asked.units)
    if named is not None or (asked.site is not None and not Path(name).is_file()):
        return _from_site(asked, named or site_named(asked.site))
    if not Path(name).is_file() and BELOW_OR_COUNT.match(name):
        raise BadInput("BATCH", (Problem("", f'"{name}" is an amount;', 'say how warm it stands: --at "16 C".'),))
    return _from_file(asked, Path(name), known)


def named_of(asked: AskedBatch) -> Named | None:
    """Return the site by the logbook, where the batch is one of it; else nothing."""
    if asked.named is not None or len(asked.batch) != 1 or asked.at is not None:
        return asked.named
    return site_named(asked.site) if is_of_book(asked.batch[0], asked.site) else None


# From a file


def _from_file(asked: AskedBatch, path: Path, known: Known) -> Batch:
    pantry = Pantry.of((), asked.own)
    read = read_batch(path, lambda text: read_amount(text, pantry.find))
    _refuse([part for laid in read.layers for part in laid.amounts], path.name)
    facts, vessel = read.facts, read.vessel
    layers = tuple(
        _layer(each, read.measured, at, known=known, members=asked.members) for at, each in enumerate(read.layers)
    )
    days = read.layers[-1].on_d + (asked.days or facts.days or FOLLOW_D)
    floor, height = _body(vessel.volume_l, vessel.width_m, known)
    kept = Kept(
        vessel.volume_l,
        floor,
        vessel.below_grid_l,
        _room(read.warmth, days),
        opened_on=read.opened,
        draws_every_d=round(vessel.draws_d),
        wraps=vessel.wraps,
        leak_l_per_d=vessel.leak_l_per_d,
        on_top=vessel.on_top,
    )
    return Batch(
        facts.name or path.stem.replace("_", " "),
        Filling(_with_bran(layers, pantry, read), kept),
        height,
        first=read.first,
        least_d=facts.least_d,
        is_tight=vessel.lid == "tight",
        has_drain=vessel.has_drain,
        has_animal=has_animal(layers),
        assumptions=(*read.assumptions, *pantry.said),
        speech=Speech(asked.units or facts.units),
    )


def _layer(laid: Laid[Amount], measured: BatchMeasured, at: int, *, known: Known, members: int) -> Layer:
    def weighed(parts: Sequence[Amount], start: int) -> tuple[Portion, ...]:
        numbered = enumerate(parts, start=100 * at + start)
        return tuple(portion_of(each, number, known.load, members=members) for number, each in numbered)

    row = laid.layer
    return Layer(
        weighed(laid.amounts, 0),
        added=weighed(laid.added, 50),
        laid_d=float(laid.on_d),
        bran_log10=_log10(row.bran_live),
        culture_log10=_log10(row.culture_live),
        piece_mm=None if row.piece_m is None else 1000.0 * row.piece_m,
        is_cooked=row.is_cooked,
        caddy_h=24.0 * row.caddy_d,
        caddy_c=row.caddy_c,
        measured=_measured(measured),
    )


def _with_bran(layers: Sequence[Layer], pantry: Pantry, read: BatchFile[Amount]) -> tuple[Layer, ...]:
    bran = pantry.table[BRAN]
    rows = zip(layers, read.layers, strict=True)
    return tuple(
        replace(layer, bran=_bran(bran, row.layer.bran_kg, layer)) if row.layer.bran_kg > 0.0 else layer
        for layer, row in rows
    )


def _bran(bran: Material, mass_kg: float, layer: Layer) -> Portion:
    members = layer.portions[0].mass.members.size
    return Portion(bran, written("bran", mass_kg, "kg", words="bran on the layer", members=members))


def _measured(read: BatchMeasured) -> Measured:
    return Measured(
        read.dry_frac,
        read.protein_dry_frac,
        read.sugar_dry_frac,
        read.start_ph,
        _log10_spread(read.lactic_live),
    )


def _log10_spread(count: Spread | None) -> Spread | None:
    if count is None:
        return None
    low, middle, high = (float(np.log10(each)) for each in (count.low, count.median, count.high))
    return Spread(middle, low, high, count.shape)


def _log10(count: float | None) -> Spread | None:
    return None if count is None else Spread.exactly(float(np.log10(count)))


def _room(warmth: Sequence[tuple[int, float]], days: int) -> FloatArray:
    """Return the temperature of each day: each step holds until the next."""
    starts, celsius = zip(*warmth, strict=True)
    at = np.searchsorted(np.asarray(starts), np.arange(days), side="right") - 1
    return np.asarray(celsius, dtype=float)[at]


# From amounts


def _from_amounts(asked: AskedBatch, known: Known) -> Batch:
    """Return amounts laid in at once, in as many layers as they make, with the bran that `mix` advises."""
    celsius = float(str(_option("--at", ROOM, asked.at or "")))
    pantry = Pantry.of((), asked.own)
    read = read_amounts(asked.batch, pantry.find)
    _refuse(read, "amounts")
    portions = [portion_of(each, at, known.load, members=asked.members) for at, each in enumerate(read)]
    vessel = Vessel("asked", _volume_l(asked), has_drain=asked.has_drain is not False)
    setting = setting_of(vessel, pantry.table[ABSORBENT], members=asked.members)
    load = assess(portions, setting, known, members=asked.members)
    count = min(max(round(load.figures["layers"].value), 1), MOST_LAYERS)
    bran_kg = load.figures["bran_g"].value / 1000.0 if asked.bran_kg is None else asked.bran_kg
    layer = Layer(tuple(replace(each, mass=_part(each.mass, count)) for each in portions))
    layer = replace(layer, bran=_bran(pantry.table[BRAN], bran_kg / count, layer))
    floor, height = _body(vessel.volume_l, None, known)
    kept = Kept(vessel.volume_l, floor, vessel.below_grid_l, np.full(asked.days or FOLLOW_D, celsius))
    speech = Speech(asked.units or "metric")
    return Batch(
        "This load",
        Filling((layer,) * count, kept),
        height,
        has_drain=vessel.has_drain,
        has_animal=has_animal((layer,)),
        assumptions=(*_taken(asked, vessel, bran_kg, speech=speech), *pantry.said),
        speech=speech,
    )


def _part(mass: Figure, count: int) -> Figure:
    return replace(mass, members=mass.members / count, at_medians=mass.value / count)


def _taken(asked: AskedBatch, vessel: Vessel, bran_kg: float, *, speech: Speech) -> Iterator[str]:
    yield f"All of it is laid in at once, with {speech.kg(bran_kg)} of bran."
    yield "It stays sealed for 14 days at least, and gas can lift its lid."
    if asked.vessel is None:
        yield f"The vessel holds {speech.size(vessel.volume_l)} (--vessel)."
    if asked.has_drain is None:
        yield "It has a drain, and the liquid is drawn off every 3 days (--no-drain)."


def _volume_l(asked: AskedBatch) -> float:
    if asked.vessel is None:
        return VOLUME_L
    kind = next(mark.kind for name, mark in declared(BatchVessel) if name == "volume_l" and isinstance(mark, Key))
    return float(str(_option("--vessel", kind, asked.vessel)))


def _option(name: str, kind: Kind, text: str) -> object:
    try:
        return kind.read(text, Asking())
    except Fault as fault:
        raise BadInput(name, (Problem("", fault.found, fault.remedy),)) from None


# From the plan of a site


def _from_site(asked: AskedBatch, named: Named) -> Batch:
    """Return a filling of the rotation, of what comes in a usual week, at the temperatures of its place."""
    question = named.question()
    life = living(question)(question.site)
    name = asked.batch[0]
    found = next((each for each in life.batches if each.id == name), None)
    loads = [each for each in life.loads if each.batch == name]
    if found is None or not loads:
        ids = ", ".join(each.id for each in life.batches if each.first_layer_on >= question.first)
        raise BadInput("BATCH", (Problem("", f'"{name}" is no batch of the plan.', f"There are: {ids}."),))
    vessel = next(each for each in question.site.vessels if each.id == found.vessel)
    materials, first = question.knowledge.materials, loads[0].on
    week = {materials[name]: mass for name, mass in week_kg(question.site.streams, materials).items()}
    layers = tuple(
        _usual(each, (each.on - first).days, week, bran=materials[BRAN], members=asked.members) for each in loads
    )
    knowledge = question.knowledge
    days = (loads[-1].on - first).days + (asked.days or FOLLOW_D)
    floor, height = _body(vessel.volume_l, None, Known(knowledge.load, knowledge.vessel, knowledge.inoculum))
    room = np.asarray(temperatures_c(vessel, first, days, question.climate))
    kept = Kept(
        vessel.volume_l,
        floor,
        vessel.below_grid_l,
        room,
        draws_every_d=max(1, round(knowledge.vessel.draw_off_d.value)),
    )
    speech = Speech(asked.units or question.site.keeper.units)
    return Batch(
        f"{question.site.name_of(vessel.id)}, {name}",
        Filling(layers, kept),
        height,
        first=first,
        least_d=question.site.keeper.least_d,
        has_drain=vessel.has_drain,
        has_animal=has_animal(layers),
        assumptions=(
            "Its layers are those of the plan, each of what comes in a usual week.",
            "Where it stands is as warm as in a usual year.",
            "Gas can lift its lid.",
        ),
        speech=speech,
        past=question.site.past,
    )


def _usual(load: Load, day: int, week: Mapping[Material, float], *, bran: Material, members: int) -> Layer:
    """Return a load of the plan as a layer of what comes in a usual week."""
    times = load.contents.scraps_kg / sum(week.values())
    portions = tuple(
        Portion(each, written(f"mass.{each.id}", times * mass, "kg", words=each.name, members=members))
        for each, mass in week.items()
    )
    layer = Layer(portions, laid_d=float(day))
    return replace(layer, bran=_bran(bran, load.contents.bran_kg, layer)) if load.contents.bran_kg > 0.0 else layer


# What all have in common


def _body(volume_l: float, width_m: float | None, known: Known) -> tuple[float, float]:
    """Return floor, m², and height, m, of a vessel."""
    ratio = known.vessel.height_to_width.value
    floor = float(floor_m2(volume_l, ratio)) if width_m is None else float(np.pi / 4.0 * width_m**2)
    return floor, volume_l / 1000.0 / floor


def _refuse(amounts: Sequence[Amount], where: str) -> None:
    """Refuse what never goes into a vessel."""
    barred = [each for each in amounts if each.material.rule is Rule.NO]
    if barred:
        told = ((each.material.name, each.material.reason) for each in barred)
        raise BadInput(
            where, tuple(Problem("", f"{name} does not go in: {why}", "Leave it out.") for name, why in told)
        )
