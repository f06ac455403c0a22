"""A closed range with its unit."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray


@dataclass(frozen=True)
class Range:
    """From `low` to `high`, both included."""

    low: float
    high: float
    unit: str = ""

    def holds(self, values: FloatArray) -> NDArray[np.bool_]:
        """Whether each value lies inside; not-a-number never does."""
        return (values >= self.low) & (values <= self.high)

    def __str__(self) -> str:
        return f"{self.low:g} to {self.high:g} {self.unit}".rstrip()
