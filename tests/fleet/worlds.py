"""Small worlds for the tests of the fleet: equal vessels, a steady stream, a taker who takes all on any day.

Nothing settles and nothing drains unless a test says so, so that fill times come out as they were asked for.
"""

from dataclasses import replace
from datetime import date

import numpy as np

from sourloam.evidence.parameters import load_parameters
from sourloam.fleet.simulate import simulate
from sourloam.fleet.world import Habits, Numbers, World
from sourloam.science.ferment.clock import clock_rate
from sourloam.science.places.taker import Taker, TakerParameters, TakerPlace
from sourloam.science.vessel.contents import Contents
from sourloam.site.situation import Situation, VesselState
from sourloam.site.vessels import Vessel
from tests.science.places.setting import flat, owner

MONDAY = date(2027, 3, 1)
EVERY_DAY = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
TAKER = load_parameters(TakerParameters, "taker")
CARDINAL = {"least_c": 0.0, "best_c": 32.0, "most_c": 42.0}
BRAN = Contents(bran_kg=1.0, dry_kg=0.88, carbon_g=400.0, nitrogen_g=25.0)
KG_PER_L = 0.6  # pressed
LOOSE_KG_PER_L = 0.3

PLAIN = Numbers(
    ready_at_20c_d=14.0,
    dry_loss_frac=0.04,
    nitrogen_kept_frac=0.96,
    acid_mol_per_kg=0.2,
    settles_frac=0.0,
    settling_d=4.0,
    softness=0.0,
    draining_d=5.0,
    bran_holds_kg_per_kg=2.2,
    draw_off_d=4.0,
    density_times=1.0,
    **CARDINAL,
)
DAILY = Habits(EVERY_DAY, 1, holding_l=0.0, least_d=14.0)


def scraps(mass_kg, dry=0.2, animal=0.0):
    return Contents(
        scraps_kg=mass_kg,
        scraps_dry_kg=mass_kg * dry,
        dry_kg=mass_kg * dry,
        carbon_g=mass_kg * dry * 450.0,
        nitrogen_g=mass_kg * dry * 25.0,
        sodium_g=mass_kg,
        animal_kg=mass_kg * animal,
        loose_l=mass_kg / LOOSE_KG_PER_L,
        pressed_l=mass_kg / KG_PER_L,
    )


def vessels(count, room_l=18.0, **keys):
    """Return vessels with so much room for scraps."""
    return tuple(Vessel(f"blue-{each + 1}", volume_l=room_l / (0.9 - 1.0 / 12.0), **keys) for each in range(count))


def taker(id_="anyone", kind="collection", **keys):
    return TakerPlace(Taker(id_, kind, **keys), TAKER)


def steady(fill_d, days, room_l):
    """Return the arrivals of a stream that fills a vessel in `fill_d` days."""
    return (scraps(room_l * KG_PER_L / fill_d),) * days


def world_of(owned, arrivals, *, places=None, numbers=PLAIN, habits=DAILY, temperature_c=20.0, **changes):
    """Return a world of these vessels, at one temperature."""
    places = (taker(),) if places is None else places
    pace = float(clock_rate(temperature_c, **{name: getattr(numbers, name) for name in CARDINAL}))
    world = World(
        first=MONDAY,
        vessels={each.id: each for each in owned},
        arrivals=tuple(arrivals),
        paces={each.id: (pace,) * len(arrivals) for each in owned},
        places={each.id: each for each in places},
        order=tuple(each.id for each in places),
        takers=frozenset(each.id for each in places if isinstance(each, TakerPlace)),
        eaters=frozenset(),
        last_resorts=frozenset(
            each.id for each in places if getattr(each, "taker", None) and each.taker.is_last_resort
        ),
        climate=flat(12.0),
        bran_per_kg=BRAN,
        plant_dose_kg_per_kg=0.02,
        animal_dose_kg_per_kg=0.04,
        numbers=numbers,
        habits=habits,
    )
    return replace(world, **changes)


def opened(world, states=()):
    """Return the situation on the first day: all vessels empty but those that are given."""
    given = {each.vessel: each for each in states}
    held = tuple(given.get(name, VesselState(name)) for name in world.vessels)
    places = tuple(owner(each).at_start(world.first) for each in world.places.values())
    return Situation(world.first, held, places)


def lived(world, states=()):
    return simulate(opened(world, states), len(world.arrivals), world)


def rotation(count, fill_d, days=200, room_l=18.0, **keys):
    """Live a steady stream that fills one of `count` vessels in `fill_d` days."""
    owned = vessels(count, room_l)
    assert np.isclose(owned[0].usable_l, room_l)
    return lived(world_of(owned, steady(fill_d, days, room_l), **keys))
