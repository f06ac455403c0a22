"""All that a life of vessels needs beside its situation: what comes, how warm it is, where things may go."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

from sourloam.science.climate.climate import Climate
from sourloam.science.places.offer import Place
from sourloam.science.vessel.contents import Contents
from sourloam.site.vessels import Vessel


class Numbers(NamedTuple):
    """One member of all that is uncertain: plain floats, the medians unless a run draws its own."""

    ready_at_20c_d: float
    least_c: float
    best_c: float
    most_c: float
    dry_loss_frac: float
    nitrogen_kept_frac: float
    acid_mol_per_kg: float
    settles_frac: float
    settling_d: float
    softness: float
    draining_d: float
    bran_holds_kg_per_kg: float
    draw_off_d: float
    density_times: float


class Habits(NamedTuple):
    """What the keeper does when."""

    work_days: tuple[str, ...]
    loads_every_d: int
    holding_l: float  # loose litres that the caddy and the cold hold
    least_d: float  # the shortest time that a sealed vessel is left


class Luck(NamedTuple):
    """What chance does to batches, in the order in which they are sealed; nothing where it is left out."""

    steps: tuple[float, ...] = ()  # how long each takes, in standard deviations of its logarithm
    fails: tuple[bool, ...] = ()

    def times(self, batch: int, log_sd: float) -> float:
        """Return how many times the usual a batch takes."""
        return math.exp(log_sd * self.steps[batch % len(self.steps)]) if self.steps else 1.0

    def is_failing(self, batch: int) -> bool:
        """Whether a batch goes wrong."""
        return bool(self.fails) and self.fails[batch % len(self.fails)]


@dataclass(frozen=True)
class World:
    """What does not change while vessels live."""

    first: date
    vessels: Mapping[str, Vessel]
    arrivals: tuple[Contents, ...]  # scraps of each day, as the table weighs them
    paces: Mapping[str, tuple[float, ...]]  # of each vessel: days at 20 °C that pass in each day
    places: Mapping[str, Place]
    order: tuple[str, ...]  # places in the order in which they are asked
    takers: frozenset[str]  # places that come for it themselves, so that no work day is needed
    eaters: frozenset[str]  # places that eat little and often, and are fed before the others
    last_resorts: frozenset[str]  # places asked only when no vessel is left
    climate: Climate
    bran_per_kg: Contents  # what a kilogram of bran brings
    plant_dose_kg_per_kg: float
    animal_dose_kg_per_kg: float
    numbers: Numbers
    habits: Habits
    luck: Luck = Luck()
    scatter: Mapping[str, tuple[float, ...]] = field(default_factory=dict)  # of each vessel, day by day: log sd

    def dose_kg(self, scraps: Contents) -> float:
        """Return the bran that a load needs; what came of an animal needs more."""
        animal = scraps.animal_kg
        return (scraps.scraps_kg - animal) * self.plant_dose_kg_per_kg + animal * self.animal_dose_kg_per_kg
