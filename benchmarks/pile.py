"""A year of a pile for many samples at once, in NumPy over the samples, beside the same model one sample at a time.

The loop is the same code called for each sample by itself, so that both do the
same arithmetic; few samples are looped over, and their time is scaled up.
"""

import time

import numpy as np

from sourloam.evidence.materials import load_materials
from sourloam.evidence.parameters import load_parameters
from sourloam.science.places.pile.heat import Start, Weather, by_calendar, follow
from sourloam.science.places.pile.heat_parameters import PileHeatParameters
from sourloam.science.places.pile.lay import laid
from sourloam.science.places.pile.parameters import PileParameters
from sourloam.science.places.pile.rates import Rates
from sourloam.science.places.pile.stuff import stuff_of

SAMPLES, LOOPED, DAYS, TIMES = 1000, 5, 365, 5
GOAL_S = 0.5
KG = {"mixed-household-scraps": 100.0, "grass-clippings": 60.0, "dry-leaves": 110.0, "straw": 20.0, "water": 40.0}


def given() -> tuple[Start, Rates, Weather]:
    """Return a pile of a cubic metre with its members, in a temperate year."""
    table = load_materials()
    stuffs = [stuff_of(table[name], 1e9, members=SAMPLES) for name in KG]
    blend = load_parameters(PileParameters, "pile", members=SAMPLES).blend_frac.members
    rates = Rates.of(load_parameters(PileHeatParameters, "pile_heat", members=SAMPLES), SAMPLES)
    air_c = 10.0 - 7.0 * np.cos(2.0 * np.pi * (np.arange(DAYS + 2.0) + 90.0) / 365.25)
    return laid(stuffs, KG, blend_frac=blend), rates, Weather(air_c)


def one_of(rates: Rates, member: int) -> Rates:
    return Rates(**{name: getattr(rates, name)[..., member : member + 1] for name in Rates.__dataclass_fields__})


def year(start: Start, rates: Rates, weather: Weather) -> float:
    """Return the seconds of a processor that a year takes."""
    begun = time.process_time()
    follow(start, rates, weather, days=DAYS, decide=by_calendar([3, 6, 10, 15, 30], [20, 60]))
    return time.process_time() - begun


def lines() -> list[tuple[str, float, float | None]]:
    """Return the lines of the table: ours with its goal, then the loop."""
    start, rates, weather = given()
    ours = float(np.median([year(start, rates, weather) for _ in range(TIMES)]))
    members = [
        (Start(**{name: getattr(start, name)[n : n + 1] for name in Start.__dataclass_fields__}), one_of(rates, n))
        for n in range(LOOPED)
    ]
    looped = sum(year(one, own, weather) for one, own in members) / LOOPED * SAMPLES
    return [
        (f"a year of a pile, {SAMPLES} samples at once, processor s, median of {TIMES}", ours, GOAL_S),
        (f"  the same, one sample at a time (from {LOOPED}), processor s", looped, None),
    ]


if __name__ == "__main__":
    for name, value, goal in lines():
        print(f"{name:<72} {value:8.3f} {goal or ''}")
