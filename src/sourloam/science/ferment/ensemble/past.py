"""What became of the batches of a site so far, and what that makes of the chance that the next one fails.

The share of members that fail is taken as the mean of a Beta distribution that
weighs as much as some batches; each batch that was seen to its end counts one.
"""

from dataclasses import dataclass, replace
from typing import Annotated, Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.fields import Key
from sourloam.base.kinds import Whole
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.ferment.ensemble.failing import Failing, Kind, word_of
from sourloam.science.readings.outcomes import Tallies, Tally

ENOUGH: Final = 50  # batches, from which on a chance under 1 in 50 is named
SHARE: Final = Range(0.0, 1.0)
_COUNT: Final = Whole(0, 100_000)


@dataclass(frozen=True)
class Past:
    """The batches that were seen to their end, and how those failed that did."""

    batches: Annotated[int, Key("batches", _COUNT, "How many batches you have seen to their end.", default=0)] = 0
    putrid: Annotated[int, Key("putrid", _COUNT, "How many of them stank of rot.", default=0)] = 0
    yeasty: Annotated[int, Key("yeasty", _COUNT, "How many smelled of yeast or spirit all through.", default=0)] = 0
    mouldy: Annotated[int, Key("mouldy", _COUNT, "How many were mouldy all over, not white on top.", default=0)] = 0
    stuck: Annotated[int, Key("stuck", _COUNT, "How many never turned sour.", default=0)] = 0
    drowned: Annotated[int, Key("drowned", _COUNT, "How many were spoilt by liquid that stood in them.", default=0)] = 0

    signs: Annotated[
        tuple[Tally, ...],
        Key(
            "signs",
            Tallies(),
            "What you had seen in them, by how they turned out: watch reckons with it beside its own table. "
            "Each counts as one vessel against the ten that a line of the table is worth.",
            default=(),
        ),
    ] = ()

    def count(self, kind: Kind) -> int:
        """Return how many failed in one way."""
        return int(getattr(self, kind.value))

    @property
    def failed(self) -> int:
        """Return how many failed in any way."""
        return sum(self.count(each) for each in Kind)

    @property
    def tells(self) -> bool:
        """Whether it is long enough for a small chance to be named."""
        return self.batches >= ENOUGH


def chance_after(share: ArrayLike, failed: int, batches: int, *, weighs: ArrayLike) -> float | FloatArray:
    """Return the chance that the next batch fails: the mean of the Beta distribution after some batches.

    Parameters
    ----------
    share : float or array
        Of the members of the model that fail. [-]
    failed, batches : int
        That failed, of so many.
    weighs : float or array
        The batches that the model counts as. [-]

    Raises
    ------
    OutOfRange
        If the share is outside 0 to 1.
    """
    before = within(share, SHARE, name="share", why="it is a share of the members.")
    weight = np.asarray(weighs, dtype=float)
    return keep_shape((weight * before + failed) / (weight + batches))


def learned(kinds: tuple[Failing, ...], past: Past, *, weighs: float) -> tuple[Failing, ...]:
    """Return the ways of failing with their chances after what was seen, the likeliest first."""
    after = {
        each.kind: float(chance_after(each.chance, past.count(each.kind), past.batches, weighs=weighs))
        for each in kinds
    }
    ranked = sorted(kinds, key=lambda each: -after[each.kind])
    return tuple(
        replace(each, rank=rank, chance=after[each.kind], word=word_of(after[each.kind]))
        for rank, each in enumerate(ranked, start=1)
    )
