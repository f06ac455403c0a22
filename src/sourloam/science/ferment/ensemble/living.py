"""What is known of the life in a vessel, with all its members."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.figure import Figure
from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.parameters import ModelParameters
from sourloam.science.ferment.layer.state import GROUPS, Group

LACTIC: Final = ("warm", "cold")  # whose rate and ceiling are the model's own


@dataclass(frozen=True)
class Living:
    """What is known of the life in a vessel."""

    model: ModelParameters
    organisms: Mapping[str, Mapping[str, Figure]]

    @property
    def members(self) -> int:
        """Return how many members there are of each value."""
        return self.model.buffer_times.members.size

    @property
    def groups(self) -> FloatArray:
        """Return the living groups of each member: (members, groups, values)."""
        rows = []
        for name in GROUPS:
            values = {each: self.organisms[name][each].members for each in Group._fields}
            if name in LACTIC:
                values["per_h"] = values["per_h"] * self.model.lactic_rate_times.members
                values["ceiling_times"] = self.model.ceiling_times.members
            rows.append(np.stack([values[each] for each in Group._fields], axis=1))
        return np.stack(rows, axis=1)
