"""One batch as it is to be followed: what is laid, and what must be known of it beside that."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from sourloam.plan.words import Speech
from sourloam.science.ferment.ensemble.filling import Filling, Layer
from sourloam.science.ferment.ensemble.past import Past

SHELL: Final = "mineral"  # eggshell and the like, of an animal and does not rot
MEAT_FROM: Final = 0.02  # part of the mass that is worth a word


@dataclass(frozen=True)
class Batch:
    """A filling with its name, its dates and the habits of its keeper."""

    name: str
    filling: Filling
    height_m: float
    first: date | None = None  # the day of the first layer
    least_d: float = 14.0  # for which it is left sealed
    is_tight: bool = False  # gas cannot lift its lid
    has_drain: bool = True
    has_animal: bool = False
    assumptions: tuple[str, ...] = ()
    speech: Speech = Speech()
    past: Past = Past()

    @property
    def last_d(self) -> float:
        """Return the day of the last layer, from the first one."""
        return max(each.laid_d for each in self.filling.layers)

    @property
    def follow_d(self) -> int:
        """Return for how many days after its last layer it is followed."""
        return round(len(self.filling.kept.room_c) - self.last_d)

    @property
    def animals(self) -> tuple[str, ...]:
        """Return what is of meat, fish, egg or dairy in it, the most of it first."""
        return _animals(self.filling.layers)

    @property
    def unguarded(self) -> tuple[str, ...]:
        """Return what is of meat, fish, egg or dairy in layers that have no bran and no other live culture."""
        bare = (each for each in self.filling.layers if each.bran is None and each.culture_log10 is None)
        return _animals(bare)

    def on(self, days: float) -> date | None:
        """Return the date so many days after the last layer, where dates are known."""
        return None if self.first is None else self.first + timedelta(days=round(self.last_d + days))


def has_animal(layers: Iterable[Layer]) -> bool:
    """Whether so much of layers is meat, fish, egg or dairy that it is worth a word."""
    parts = [each for layer in layers for each in layer.portions]
    animal = sum(each.mass.value * each.material.animal_frac for each in parts)
    return animal > MEAT_FROM * sum(each.mass.value for each in parts)


def _animals(layers: Iterable[Layer]) -> tuple[str, ...]:
    masses: dict[str, float] = {}
    for each in (portion for layer in layers for portion in layer.portions):
        if each.material.animal and each.material.kind != SHELL:
            held = each.mass.value * each.material.animal_frac
            masses[each.material.name] = masses.get(each.material.name, 0.0) + held
    return tuple(sorted(masses, key=lambda name: -masses[name]))
