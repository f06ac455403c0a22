"""What may be wrong at a place: chances of its causes, from stated judgement and from what is seen.

Each cause has a chance beforehand and, for each thing that can be seen, a
chance that it is seen with that cause. Bayes' rule joins them; things seen are
taken as independent once the cause is given.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.base.figure import law
from sourloam.base.numbers import FloatArray
from sourloam.base.source import Basis

SAYS_NOTHING: Final = 0.5
LEAST, MOST = 0.01, 0.99  # nothing that is seen settles it; judgement


@dataclass(frozen=True)
class Cause:
    """One cause of something going wrong.

    Raises
    ------
    ValueError
        If its chance is none.
    """

    id: str
    place: str
    sign: str
    prior: float
    words: str
    do: str
    look: str  # what would tell it from the others
    seen: Mapping[str, float]

    def __post_init__(self) -> None:
        if not 0.0 < self.prior <= 1.0:
            raise ValueError(f"{self.id}: {self.prior} is no chance")

    def shows(self, thing: str) -> float:
        """Return how likely something is seen where this is the cause."""
        return float(np.clip(self.seen.get(thing, SAYS_NOTHING), LEAST, MOST))


@law(
    "chance beforehand × chance of what is seen, over the sum of all",
    unit="1",
    basis=Basis.JUDGEMENT,
    source="judgement",
)
def chances(causes: Sequence[Cause], there: Sequence[str], absent: Sequence[str] = ()) -> FloatArray:
    r"""Return the chance of each cause, given what is seen and what is looked for and not seen.

    .. math:: P_i = \frac{p_i \prod s_{ij} \prod (1 - s_{ik})}{\sum}
    """
    held = np.array([each.prior for each in causes])
    for thing in there:
        held = held * np.array([each.shows(thing) for each in causes])
    for thing in absent:
        held = held * np.array([1.0 - each.shows(thing) for each in causes])
    return np.asarray(held / held.sum())


def next_look(causes: Sequence[Cause], held: FloatArray, asked: Sequence[str]) -> str:
    """Return what would tell most, of what was not looked at yet: where the causes differ most, by their chances."""
    things = sorted({thing for each in causes for thing in each.seen} - set(asked))
    if not things:
        return ""

    def tells(thing: str) -> float:
        shows = np.array([each.shows(thing) for each in causes])
        mean = float(held @ shows)
        return float(held @ (shows - mean) ** 2) / max(mean * (1.0 - mean), 1e-9)

    return max(things, key=tells)
