"""When a vessel is sour, ready and safe to be called held, read off the courses of its members.

Days count from the last layer; a member that never gets there within the days
that were followed is infinite.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray
from sourloam.science.chem.acids import ACIDS
from sourloam.science.ferment.ensemble.filling import Filling
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.stack.given import Laid, Vessel
from sourloam.science.ferment.stack.life import CORE_C
from sourloam.science.materials.fermentability import LINE_FROM_PCT, LINE_TO_PCT, critical_ph_by_dry

SOURED_PH: Final = 4.5  # enteric bacteria and clostridia give up about there
STEADY_D: Final = 3  # in which it moves no more than
STEADY_PH: Final = 0.1
STOPS_MOL: Final = 0.011  # undissociated lactic acid beyond which no enteric bacterium grows [mol/kg] presser1998
HELD_PH: Final = 4.2  # with meat, fish, egg or dairy in it; judgement
HELD_D: Final = 14
CORE_SHARE: Final = 0.18  # r² ÷ D times this: nine tenths of the acid have come into a ball; crank1975


@dataclass(frozen=True)
class Dates:
    """For each member the days from the last layer."""

    soured_d: FloatArray
    ready_d: FloatArray
    held_d: FloatArray


def dates_of(followed: Followed, filling: Filling, *, scatter: FloatArray, acid_m2_per_d: FloatArray) -> Dates:
    """Return the dates of all members; `scatter` is how far the line of critical pH may be off for each."""
    last = int(np.ceil(max(each.laid_d for each in filling.layers)))
    ph = followed.ph[:, last:, :]
    soured = _crossed(np.max(ph, axis=2), SOURED_PH)
    thawed = _thawed(followed)[:, last:]
    kept = np.all(ph <= critical_ph(followed, scatter)[:, last:, :], axis=2) & thawed
    steady = np.all(_moved(ph) < STEADY_PH, axis=2)
    ready = _first(kept & _ran(kept, STEADY_D) & steady, stays_d=0)
    held = _first(_ran(np.all(ph <= HELD_PH, axis=2) & thawed, HELD_D), stays_d=0)
    core = np.max([_core_d(each.piece_mm or _largest_mm(filling), acid_m2_per_d) for each in filling.layers], axis=0)
    return Dates(soured, np.maximum(ready, core), held)


def critical_ph(followed: Followed, scatter: FloatArray) -> FloatArray:
    """Return the pH at which each layer keeps, by its own dry matter on each day: (members, days + 1, layers).

    Below 15 % of dry matter no published line exists; there a layer keeps when
    its undissociated lactic acid stops enteric bacteria.
    """
    dry = 100.0 * dry_frac(followed)
    line = np.asarray(critical_ph_by_dry(np.clip(dry, LINE_FROM_PCT, LINE_TO_PCT))) + scatter[:, None, None]
    lactic = np.maximum(followed.amount("lactic_mol"), 0.0)
    pka = ACIDS["lactic"].pkas[0] - np.log10(followed.starts.laid[:, None, :, Laid._fields.index("salt_times")])
    with np.errstate(divide="ignore", invalid="ignore"):
        by_acid = pka + np.log10(np.maximum(lactic / STOPS_MOL - 1.0, 1e-9))
    return np.where(dry >= LINE_FROM_PCT, line, by_acid)


def dry_frac(followed: Followed) -> FloatArray:
    """Return the dry matter of each layer as a part of its mass, day by day."""
    dry = followed.starts.dry_kg[:, None, :]
    return np.asarray(dry / (dry + np.nan_to_num(followed.water_kg)))


def _thawed(followed: Followed) -> NDArray[np.bool_]:
    """Return on which days each member is not frozen: what is frozen keeps still, and is no further for it."""
    freezes = followed.starts.vessel[:, Vessel._fields.index("freezes_c")]
    return np.asarray(followed.vessel[:, :, CORE_C] > freezes[:, None])


def _moved(ph: FloatArray) -> FloatArray:
    """Return how far pH has moved in the days before; endless where there are not as many."""
    moved = np.full(ph.shape, np.inf)
    moved[:, STEADY_D:] = np.abs(ph[:, STEADY_D:] - ph[:, :-STEADY_D])
    return moved


def _ran(true: NDArray[np.bool_], days: int) -> NDArray[np.bool_]:
    """Return where something has been so for some days on end."""
    so_far = np.zeros(true.shape, dtype=np.int64)
    for day in range(true.shape[1]):
        so_far[:, day] = np.where(true[:, day], (so_far[:, day - 1] if day else 0) + 1, 0)
    return so_far > days


def _first(true: NDArray[np.bool_], *, stays_d: int) -> FloatArray:
    """Return the first day on which something is so, and still is so many days later."""
    stays = true[:, : true.shape[1] - stays_d] & true[:, stays_d:]
    return np.where(stays.any(axis=1), stays.argmax(axis=1).astype(float), np.inf)


def _crossed(worst: FloatArray, level: float) -> FloatArray:
    """Return when a course falls to a level for a day at the least, with the part of the day."""
    whole = _first(worst <= level, stays_d=1)
    day = np.where(np.isinf(whole), 0.0, whole).astype(np.int64)
    member = np.arange(worst.shape[0])
    before, after = worst[member, np.maximum(day - 1, 0)], worst[member, day]
    part = np.divide(after - level, after - before, out=np.zeros(day.size), where=(day > 0) & (before > after))
    return np.where(np.isinf(whole), np.inf, day + part)


def _largest_mm(filling: Filling) -> float:
    return max(p.material.piece_mm for each in filling.layers for p in each.portions)


def _core_d(piece_mm: float, acid_m2_per_d: FloatArray) -> FloatArray:
    """Return the days until the acid has come to the middle of the pieces."""
    return np.asarray(CORE_SHARE * (piece_mm / 2000.0) ** 2 / acid_m2_per_d)
