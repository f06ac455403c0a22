"""Every member of a filling through its days: chances by the hundred, so compiled where there are many."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.filling import Filling
from sourloam.science.ferment.layer.state import State
from sourloam.science.ferment.stack.given import STEP_H, SUMP, Laid
from sourloam.science.ferment.stack.life import KEPT, PH, RECORD, WATER, Course, Days, Run, Starts, live_all

TOLERANCE: Final = 5e-4  # of a step; keeps pH within 0.01 of the exact answer
COMPILED_FROM: Final = 30  # trajectories: fewer are done before the compiler has begun
AT_ONCE: Final = 40  # members between two signs of life
Told = Callable[[int, int], None]  # members done, of how many


@dataclass(frozen=True)
class Followed:
    """All members of a filling, day by day from the first layer; layers to come are not numbers."""

    starts: Starts
    layers: FloatArray  # (members, days + 1, layers, record)
    vessel: FloatArray  # (members, days + 1, kept)
    liquid: FloatArray  # (members, water that ran off, kg, and what is in it)

    @property
    def ph(self) -> FloatArray:
        """Return pH: (members, days + 1, layers)."""
        return np.asarray(self.layers[..., PH])

    def amount(self, name: str) -> FloatArray:
        """Return a state by its name, to a kg of the water that is there: (members, days + 1, layers)."""
        return np.asarray(self.layers[..., State._fields.index(name)] / self.layers[..., WATER])

    def cells_ln_g(self, group: str) -> FloatArray:
        """Return the logarithm of the grams of a group in a kg of first water: (members, days + 1, layers)."""
        return np.asarray(self.layers[..., State._fields.index(f"{group}_ln_g")])

    @property
    def first_water_kg(self) -> FloatArray:
        """Return the water that each layer was laid with: (members, layers)."""
        return np.asarray(self.starts.laid[..., Laid._fields.index("water_kg")])

    @property
    def water_kg(self) -> FloatArray:
        """Return the water of each layer: (members, days + 1, layers)."""
        return np.asarray(self.layers[..., WATER] * self.first_water_kg[:, None, :])


def days_of(filling: Filling, *, step_h: float = STEP_H, tolerance: float = TOLERANCE) -> Days:
    """Return what happens around a vessel at each exchange: its lid is lifted for every layer."""
    kept, a_day = filling.kept, round(24.0 / step_h)
    room_c = np.repeat(np.asarray(kept.room_c, dtype=float), a_day)
    opened, drawn = np.zeros(room_c.size), np.zeros(room_c.size)
    for day in (*(each.laid_d for each in filling.layers), *kept.opened_on):
        opened[min(round(day * a_day), room_c.size - 1)] += 1.0
    if kept.draws_every_d > 0:
        drawn[kept.draws_every_d * a_day :: kept.draws_every_d * a_day] = 1.0
    return Days(room_c, opened, drawn, step_h, tolerance)


def follow(
    starts: Starts, days: Days, *, compiler: Callable[[], Run] | None = None, told: Told | None = None
) -> Followed:
    """Return what becomes of every member, with a sign of life between.

    `compiler` gives the same model compiled; it is asked for only where there
    is more to follow than is done before it has begun.
    """
    members, layers = starts.y.shape[:2]
    count = round(days.room_c.size * days.step_h / 24.0)
    course = Course(
        np.full((members, count + 1, layers, RECORD), np.nan),
        np.zeros((members, count + 1, KEPT)),
        np.zeros((members, SUMP)),
    )
    run = compiler() if compiler and members * layers >= COMPILED_FROM else live_all
    for first in range(0, members, AT_ONCE):
        part = slice(first, first + AT_ONCE)
        run(Starts(*(each[part] for each in starts)), days, Course(*(each[part] for each in course)))
        if told is not None:
            told(min(first + AT_ONCE, members), members)
    return Followed(starts, course.layers, course.vessel, course.drawn)
