"""What the model says of a run: each printed quantity, day by day, of every member."""

from dataclasses import dataclass
from types import MappingProxyType
from typing import Final
from zlib import crc32

import numpy as np

from sourloam.base.figure import SEED
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment import kernel
from sourloam.science.ferment.ensemble.follow import Followed, days_of, follow
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.layer.species import G_PER_MOL, NITROGEN
from sourloam.science.ferment.layer.state import State
from sourloam.science.ferment.stack.given import Laid
from validation.inputs import fillings_of, starts_of
from validation.studies import Observed, Run

COUNTING_LOG10: Final = 0.3  # what a count is off by, as a standard deviation; judgement
LEAST_LOG10: Final = 0.0  # one cell in a gram: fewer are not told from none
LEVEL: Final = MappingProxyType({"low": 0.05, "middle": 0.5, "high": 0.95})
GRAMS: Final = MappingProxyType(
    {
        "lactic_g_per_kg": ("lactic_mol", G_PER_MOL["lactic"]),
        "acetic_g_per_kg": ("acetic_mol", G_PER_MOL["acetic"]),
        "ethanol_g_per_kg": ("ethanol_mol", G_PER_MOL["ethanol"]),
        "nh3_n_g_per_kg": ("ammonium_mol", G_PER_MOL["ammonia"] * NITROGEN["ammonia"]),
    }
)
COUNTED: Final = MappingProxyType({"lab_log10_per_g": ("warm", "cold"), "entero_log10_per_g": ("enteric",)})
WATER_KG: Final = Laid._fields.index("water_kg")


@dataclass(frozen=True)
class Predicted:
    """What all members of a run do."""

    name: str  # study and run, so that each reading has an error of its own
    followed: Followed
    mass_kg: FloatArray  # of all that was laid in
    living: Living

    def course(self, quantity: str) -> FloatArray:
        """Return a quantity as it is, without errors of reading: (members, days + 1)."""
        if quantity == "ph":
            return self.followed.ph[:, :, 0]
        if quantity == "lactic_g_per_kg_dm":
            dry_kg = self.mass_kg - self._water_kg
            return np.asarray(self._grams("lactic_g_per_kg") / dry_kg[:, None])
        if quantity in GRAMS:
            return np.asarray(self._grams(quantity) / self.mass_kg[:, None])
        return self._log10_per_g(quantity)

    @property
    def _water_kg(self) -> FloatArray:
        return np.asarray(self.followed.starts.laid[:, 0, WATER_KG])

    def _grams(self, quantity: str) -> FloatArray:
        name, g_per_mol = GRAMS[quantity]
        per_kg_of_first_water = self.followed.layers[:, :, 0, State._fields.index(name)]
        return np.asarray(per_kg_of_first_water * g_per_mol * self._water_kg[:, None])

    def _log10_per_g(self, quantity: str) -> FloatArray:
        per_g = np.zeros(self.followed.ph.shape[:2])
        for group in COUNTED[quantity]:
            grams = np.exp(self.followed.cells_ln_g(group)[:, :, 0]) * self._water_kg[:, None]
            cells = grams / self.living.organisms[group]["cell_g"].members[:, None]
            per_g += cells / (1000.0 * self.mass_kg[:, None])
        return np.asarray(np.log10(np.maximum(per_g, 10.0**LEAST_LOG10)))

    def read(self, observed: Observed) -> FloatArray:
        """Return what every member would have shown, with the error of a reading."""
        course = self.course(observed.quantity)
        values = _at(course, observed.day)
        if observed.quantity == "ph":
            return values + self.living.model.reading_ph.members
        if observed.quantity in COUNTED:
            return np.maximum(values + COUNTING_LOG10 * self._noise(observed), LEAST_LOG10)
        return values

    def _noise(self, observed: Observed) -> FloatArray:
        key = crc32(f"{self.name} {observed.quantity} {observed.day:g}".encode())
        stream = np.random.default_rng(np.random.SeedSequence(SEED, spawn_key=(key,)))
        return np.asarray(stream.standard_normal(self.mass_kg.size))


def _at(course: FloatArray, day: float) -> FloatArray:
    """Return a course at a day, in a straight line between two midnights."""
    before, part = int(day), day - int(day)
    after = min(before + 1, course.shape[1] - 1)
    return np.asarray((1.0 - part) * course[:, before] + part * course[:, after])


def predict(name: str, run: Run, days: int, living: Living) -> Predicted:
    """Return what all members of a run do for so many days."""
    filling = fillings_of(run, days, members=living.members)[0]
    layer = filling.layers[0]
    mass_kg = np.sum([each.mass.members for each in (*layer.portions, *layer.added)], axis=0)
    followed = follow(starts_of(run, days, living), days_of(filling), compiler=kernel.live_all)
    return Predicted(name, followed, mass_kg, living)
