"""What may go wrong in a vessel, read off the courses of its members: each kind with its rank, a word and a reason.

No member is said to fail by a probability of its own: it fails when its course
passes thresholds. They are judgement, and separate the courses that a keeper
would call by these names.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.layer.species import G_PER_MOL
from sourloam.science.ferment.stack.life import CORE_C, FLOODED

BUTYRIC_G_PER_KG: Final = 0.5
PUTRID_LOG10: Final = 8.0  # protein putrefiers in a gram, with a pH over
PUTRID_PH: Final = 5.0
ETHANOL_G_PER_KG: Final = 15.0
MOULD_G_PER_M2: Final = 1.0  # dry, that is seen
STUCK_PH: Final = 4.5
STUCK_D, STUCK_COLD_D, COLD_C = 14, 28, 15.0
DROWNED_D: Final = 3
STARVED_G_PER_KG: Final = 2.0  # of sugar and starch within reach
HOT_C: Final = 42.0  # over which lactic bacteria of scraps hardly live; judgement
FEW_LOG10: Final = 8.0  # lactic cells in a gram: fewer are slow
BUFFERED_G_PER_KG: Final = 20.0  # of lactic acid, that did not suffice
SLOWLY: Final = "cells let their sugar go slowly, and acid comes as slowly"
COLD: Final = "lactic bacteria are few, or it is too cold for them"
FEW: Final = "lactic bacteria are few"
TIME_HELPS: Final = (SLOWLY, COLD, FEW)  # reasons that pass as the days go
HIGH, RAISED = 0.25, 0.05  # of the members


class Kind(StrEnum):
    """What a vessel may be beside sound."""

    PUTRID = "putrid"
    YEASTY = "yeasty"
    MOULDY = "mouldy"
    STUCK = "stuck"
    DROWNED = "drowned"


@dataclass(frozen=True)
class Failing:
    """How a vessel may fail."""

    kind: Kind
    rank: int  # 1: the likeliest
    word: str  # low, raised, high
    because: str
    members: NDArray[np.bool_]
    chance: float  # that a batch fails so


def failing_of(followed: Followed, living: Living, floor_m2: float) -> tuple[Failing, ...]:
    """Return all kinds of failing, the likeliest first."""
    putrid, stuck = _putrid(followed, living), _stuck(followed)
    found = {
        Kind.PUTRID: (
            putrid,
            "acid comes too late, since sugar is scant for all that has to be soured, or lactic cells are few",
        ),
        Kind.STUCK: (stuck & ~putrid, _why_stuck(followed, living, stuck & ~putrid)),
        Kind.YEASTY: (_yeasty(followed), "yeasts got more of the sugar than lactic bacteria did"),
        Kind.MOULDY: (
            _mouldy(followed, floor_m2),
            "air that gets in at the lid or when it is opened feeds mould",
        ),
        Kind.DROWNED: (_drowned(followed), "more liquid comes than runs off, and the lowest layer stands in it"),
    }
    ranked = sorted(found, key=lambda kind: -float(found[kind][0].mean()))
    return tuple(
        Failing(kind, rank, word_of(chance := float(found[kind][0].mean())), found[kind][1], found[kind][0], chance)
        for rank, kind in enumerate(ranked, start=1)
    )


def goes_wrong(ready_d: FloatArray, kinds: Sequence[Failing]) -> NDArray[np.bool_]:
    """Return which members are never ready, or fail in any way."""
    return np.asarray(np.isinf(ready_d) | np.any([each.members for each in kinds], axis=0))


def word_of(share: float) -> str:
    """Return how likely something is, in a word; a number would say more than is known."""
    if share >= HIGH:
        return "high"
    return "raised" if share >= RAISED else "low"


def log10_per_g(followed: Followed, living: Living, group: str) -> FloatArray:
    """Return the cells of a group in a gram of water, as powers of ten: (members, days + 1, layers)."""
    per_cell = living.organisms[group]["cell_g"].members[:, None, None]
    return np.asarray((followed.cells_ln_g(group) - np.log(1000.0 * per_cell)) / np.log(10.0))


def any_layer(true: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Return where something is so in any layer, the last axis."""
    return np.asarray(true.any(axis=-1))


def _putrid(followed: Followed, living: Living) -> NDArray[np.bool_]:
    butyric = followed.amount("butyric_mol")[:, -1] * G_PER_MOL["butyric"]
    rotten = (log10_per_g(followed, living, "protein_putrid") >= PUTRID_LOG10) & (followed.ph > PUTRID_PH)
    lasting = rotten.sum(axis=1) >= DROWNED_D
    return any_layer(butyric >= BUTYRIC_G_PER_KG) | any_layer(lasting)


def _yeasty(followed: Followed) -> NDArray[np.bool_]:
    ethanol = followed.amount("ethanol_mol")[:, -1] * G_PER_MOL["ethanol"]
    lactic = followed.amount("lactic_mol")[:, -1] * G_PER_MOL["lactic"]
    return any_layer((ethanol >= ETHANOL_G_PER_KG) & (ethanol > lactic))


def mould_g_per_m2(followed: Followed, floor_m2: float) -> FloatArray:
    """Return the mould on the uppermost layer on the last day, by dry mass; a white film of yeasts is none."""
    top = np.exp(followed.cells_ln_g("mould")[:, -1, -1])
    return np.asarray(top * followed.first_water_kg[:, -1] / floor_m2)


def _mouldy(followed: Followed, floor_m2: float) -> NDArray[np.bool_]:
    return mould_g_per_m2(followed, floor_m2) >= MOULD_G_PER_M2


def _stuck(followed: Followed) -> NDArray[np.bool_]:
    """Return which members are above the pH of souring so long after the last layer."""
    ph = followed.ph
    last = int(np.isnan(ph[0]).any(axis=-1).sum())
    is_cold = np.nanmean(followed.vessel[:, :, CORE_C], axis=1) < COLD_C
    day = np.where(is_cold, last + STUCK_COLD_D, last + STUCK_D)
    day = np.minimum(day, ph.shape[1] - 1)
    return any_layer(ph[np.arange(ph.shape[0]), day] > STUCK_PH)


def _drowned(followed: Followed) -> NDArray[np.bool_]:
    return np.asarray((followed.vessel[:, :, FLOODED] >= 1.0).sum(axis=1) >= DROWNED_D)


def _why_stuck(followed: Followed, living: Living, stuck: NDArray[np.bool_]) -> str:
    """Say what holds up most of the members that are stuck: want of sugar, of lactic cells or warmth, or the buffer."""
    which = stuck if stuck.any() else np.ones_like(stuck)
    worst = np.argmax(followed.ph[which, -1], axis=1)
    each = np.arange(worst.size)

    def at_worst(values: FloatArray) -> FloatArray:
        return np.asarray(values[which, -1][each, worst])

    food = sum(at_worst(followed.amount(name)) for name in ("sugar_g", "cell_sugar_g", "starch_g"))
    lactic = at_worst(followed.amount("lactic_mol")) * G_PER_MOL["lactic"]
    warm, cold = (at_worst(log10_per_g(followed, living, group)) for group in ("warm", "cold"))
    shares = {
        "there is too little sugar for the acid that it needs": float(np.mean(food < STARVED_G_PER_KG)),
        _want_of_cells(followed, which): float(np.mean(np.maximum(warm, cold) < FEW_LOG10)),
        "its own buffer takes up more acid than lactic bacteria can make": float(np.mean(lactic >= BUFFERED_G_PER_KG)),
    }
    reason = max(shares, key=lambda each: shares[each])
    return reason if shares[reason] > 0.0 else SLOWLY


def _want_of_cells(followed: Followed, which: NDArray[np.bool_]) -> str:
    """Say why lactic bacteria are few, by how warm it is inside."""
    core_c = float(np.mean(followed.vessel[which][:, :, CORE_C]))
    if core_c > HOT_C:
        return "it is too hot for lactic bacteria"
    return COLD if core_c < COLD_C else FEW
