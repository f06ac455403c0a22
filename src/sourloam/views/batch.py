"""One batch as it is to be followed: what is laid, and what must be known of it beside that."""

from dataclasses import dataclass
from datetime import date, timedelta

from sourloam.plan.words import Speech
from sourloam.science.ferment.ensemble.filling import Filling


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

    @property
    def last_d(self) -> float:
        """Return the day of the last layer, from the first one."""
        return max(each.laid_d for each in self.filling.layers)

    @property
    def follow_d(self) -> int:
        """Return for how many days after its last layer it is followed."""
        return round(len(self.filling.kept.room_c) - self.last_d)

    def on(self, days: float) -> date | None:
        """Return the date so many days after the last layer, where dates are known."""
        return None if self.first is None else self.first + timedelta(days=round(self.last_d + days))
