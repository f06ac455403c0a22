"""Sets up a life of vessels: from a site and what is known to a situation and its world."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from sourloam.base.days import daily
from sourloam.base.figure import Figure
from sourloam.fleet.arrivals import arrivals, bran_per_kg, usual_kg
from sourloam.fleet.found import as_found
from sourloam.fleet.habits import habits_of
from sourloam.fleet.knowledge import Knowledge
from sourloam.fleet.outlets import EATERS, asking_order, last_resorts, places_of
from sourloam.fleet.world import Numbers, World
from sourloam.science.climate.climate import Climate
from sourloam.science.climate.rooms import ROOMS, room_c
from sourloam.science.ferment.clock import clock_rate
from sourloam.science.vessel.contents import Contents
from sourloam.site.site import PLACES, Site
from sourloam.site.situation import Situation, VesselState
from sourloam.site.start import at_start
from sourloam.site.streams import Stream
from sourloam.site.vessels import Vessel

STRONGEST: Final = ("ready_at_20c_d", "least_c", "settles_frac", "density_times")  # what moves a rotation most


def medians(knowledge: Knowledge) -> Numbers:
    """Return the medians of all that is uncertain in a life."""
    return numbers_of({name: figure.value for name, figure in uncertain(knowledge).items()})


def uncertain(knowledge: Knowledge) -> dict[str, Figure]:
    """Return the figures that a life depends on, by the names that `numbers_of` takes."""
    ferment, vessel = knowledge.ferment, knowledge.vessel
    return {
        "ready_at_20c_d": ferment.ready_at_20c_d,
        "least_c": ferment.least_c,
        "best_c": ferment.best_c,
        "most_c": ferment.most_c,
        "dry_loss_frac": ferment.dry_loss_frac,
        "gas_nitrogen_frac": ferment.nitrogen_loss_frac,
        "liquid_nitrogen_frac": vessel.leachate_nitrogen_frac,
        "acid_mol_per_kg": ferment.acid_mol_per_kg,
        "settles_frac": vessel.settles_frac,
        "settling_d": vessel.settling_d,
        "softness": vessel.softness,
        "draining_d": vessel.draining_d,
        "bran_holds_kg_per_kg": vessel.bran_holds_kg_per_kg,
        "draw_off_d": vessel.draw_off_d,
        "density_times": vessel.density_times,
    }


def numbers_of(values: Mapping[str, float]) -> Numbers:
    """Return one member of all that is uncertain."""
    kept = 1.0 - values["gas_nitrogen_frac"] - values["liquid_nitrogen_frac"]
    rest = {name: value for name, value in values.items() if name in Numbers._fields}
    return Numbers(nitrogen_kept_frac=kept, **rest)


@dataclass(frozen=True)
class Year:
    """What every life of one year shares, so that it is worked out once."""

    first: date
    days: int
    climate: Climate
    knowledge: Knowledge
    arrivals: tuple[Contents, ...]
    rooms: Mapping[str, tuple[float, ...]]  # temperature of each room, day by day


def year_of(streams: Iterable[Stream], first: date, days: int, *, climate: Climate, knowledge: Knowledge) -> Year:
    """Return the year as it comes to a site: scraps and warmth."""
    rooms = {room: tuple(room_c(room, on, climate) for on in daily(first, days)) for room in ROOMS}
    return Year(first, days, climate, knowledge, arrivals(streams, knowledge.materials, first, days), rooms)


def first_situation(site: Site, first: date, knowledge: Knowledge) -> Situation:
    """Return the situation on the first day, from what the site file says; a vessel in use holds the usual scraps."""
    usual = usual_kg(site.streams, knowledge.materials)
    with_bran = usual.plus(bran_per_kg(knowledge).times(dose_kg_per_kg(knowledge)[0]))
    return at_start(site, with_bran)._replace(on=first)


def fitted(situation: Situation, site: Site) -> Situation:
    """Return the situation of a site that has more or fewer vessels and places than before: what is new is empty."""
    held = {each.vessel: each for each in situation.vessels}
    known = {each.place: each for each in situation.places}
    places = (each for table in PLACES for each in site.parts()[table])
    return situation._replace(
        vessels=tuple(held.get(each.id) or VesselState(each.id) for each in site.vessels),
        places=tuple(known.get(each.id) or each.at_start(situation.on) for each in places),
    )


def set_up(site: Site, year: Year, numbers: Numbers, *, situation: Situation | None = None) -> tuple[Situation, World]:
    """Return the situation from which a year is lived, fitted to the site, and the world of the year."""
    known = year.knowledge
    plant_dose, animal_dose = dose_kg_per_kg(known)
    start = fitted(situation or first_situation(site, year.first, known), site)
    world = World(
        first=year.first,
        vessels={each.id: each for each in site.vessels},
        arrivals=year.arrivals,
        paces=_paces(site.vessels, year, numbers),
        places=places_of(site, known),
        order=asking_order(site),
        takers=frozenset(each.id for each in site.takers),
        eaters=frozenset(each.id for table in EATERS for each in site.parts()[table]),
        last_resorts=last_resorts(site),
        climate=year.climate,
        bran_per_kg=bran_per_kg(known),
        plant_dose_kg_per_kg=plant_dose,
        animal_dose_kg_per_kg=animal_dose,
        numbers=numbers,
        habits=habits_of(site, known),
    )
    vessels = tuple(as_found(each, world, clock_d=_soured_d(each, world)) for each in start.vessels)
    return start._replace(vessels=vessels), world


def dose_kg_per_kg(knowledge: Knowledge) -> tuple[float, float]:
    """Return the bran for a kilogram of plant scraps and for one of animal matter."""
    return (
        knowledge.inoculum.plain_dose_g_per_kg.value / 1000.0,
        knowledge.inoculum.animal_dose_g_per_kg.value / 1000.0,
    )


def temperatures_c(vessel: Vessel, first: date, days: int, climate: Climate) -> tuple[float, ...]:
    """Return how warm it is where a vessel stands, day by day."""
    if vessel.temperature_c is not None:
        return (vessel.temperature_c,) * days
    return tuple(room_c(vessel.stands, on, climate) for on in daily(first, days))


def _soured_d(state: VesselState, world: World) -> float:
    """Return the days at 20 °C that had passed in a sealed vessel by the eve of the first day."""
    if state.phase != "fermenting" or state.sealed_on is None:
        return 0.0
    vessel, days = world.vessels[state.vessel], (world.first - state.sealed_on).days - 1
    warmth = temperatures_c(vessel, state.sealed_on + timedelta(days=1), days, world.climate)
    return float(np.sum(clock_rate(np.asarray(warmth), **_limits(world.numbers)))) if warmth else 0.0


def _limits(numbers: Numbers) -> dict[str, float]:
    return {"least_c": numbers.least_c, "best_c": numbers.best_c, "most_c": numbers.most_c}


def _paces(vessels: Iterable[Vessel], year: Year, numbers: Numbers) -> dict[str, tuple[float, ...]]:
    """Return the pace of each vessel on each day; vessels that stand together share one series."""
    limits = _limits(numbers)
    series: dict[tuple[str, float | None], tuple[float, ...]] = {}
    for vessel in vessels:
        spot = (vessel.stands, vessel.temperature_c)
        if spot not in series:
            warmth = year.rooms[vessel.stands] if vessel.temperature_c is None else (vessel.temperature_c,) * year.days
            rates = np.asarray(clock_rate(np.asarray(warmth), **limits))
            series[spot] = tuple(rates.tolist())
    return {each.id: series[each.stands, each.temperature_c] for each in vessels}
