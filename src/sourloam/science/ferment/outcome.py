"""What a filling is, and what is known of how it comes out."""

from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray
from sourloam.science.vessel.contents import Contents

NEVER_D = 3650.0  # JUDGEMENT: near the least temperature the rule says centuries; nobody waits ten years


@dataclass(frozen=True)
class Filling:
    """One filling of one vessel, as it was sealed."""

    batch: str
    first_layer_on: date
    sealed_on: date
    contents: Contents
    age_d: float = 0.0  # days at 20 °C that had passed before sealing, counted for the newest layer


@dataclass(frozen=True)
class Final:
    """The state at the end, member by member."""

    mass_kg: FloatArray
    dry_kg: FloatArray
    nitrogen_g: FloatArray
    acid_mol: FloatArray


@dataclass(frozen=True)
class Outcome:
    """An ensemble of ends. Days count from sealing; a member that never gets there is infinite."""

    batch: str
    sealed_on: date
    soured_d: FloatArray
    ready_d: FloatArray
    leachate_l: FloatArray
    failed: NDArray[np.bool_]
    final: Final

    def ready_on(self, quantile: float) -> date | None:
        """Return the day by which a share of the members is ready, or nothing if that share never is."""
        days = float(np.quantile(self.ready_d, quantile, method="inverted_cdf"))
        return None if days > NEVER_D else date.fromordinal(self.sealed_on.toordinal() + int(np.ceil(days - 1e-9)))
