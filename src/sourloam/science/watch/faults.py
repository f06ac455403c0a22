"""Members that carry a fault, so that a fault can be recognised: a fifth of all, weighed by how often it is so."""

from dataclasses import dataclass
from enum import IntEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.layer.state import State
from sourloam.science.ferment.stack.given import Laid, Vessel
from sourloam.science.ferment.stack.life import Starts
from sourloam.science.watch.parameters import WatchParameters

FAULTY_FRAC: Final = 0.2
TEN: Final = float(np.log(10.0))
BUFFERED_TIMES: Final = 1.7  # what rotting sets free takes up acid beside its ammonia; judgement


class Fault(IntEnum):
    """What may be wrong with a vessel from the start."""

    NONE = 0
    LEAK = 1
    DROWNED = 2
    DEAD = 3
    SPOILED = 4
    COLD = 5


@dataclass(frozen=True)
class Faults:
    """The fault of each member, and how much each member counts before anything was read."""

    of: NDArray[np.int64]
    log_prior: FloatArray


def prior_of(known: WatchParameters) -> FloatArray:
    """Return how often each fault is, by `Fault`, where nothing was read."""
    chances = [getattr(known, f"{each.name.lower()}_frac").value for each in list(Fault)[1:]]
    return np.array([1.0 - sum(chances), *chances])


def usual_shares() -> FloatArray:
    """Return which part of the members carries each fault at first: a fifth in all."""
    each = FAULTY_FRAC / (len(Fault) - 1)
    return np.array([1.0 - FAULTY_FRAC, *[each] * (len(Fault) - 1)])


def faults_of(members: int, known: WatchParameters, shares: FloatArray | None = None) -> Faults:
    """Return which members carry which fault, in the given shares, and what each counts.

    The members are fair draws in any order, so that no chance is needed: faults
    are dealt out evenly along them.
    """
    parts = usual_shares() if shares is None else shares
    counts = np.maximum(np.floor(parts * members), 1.0).astype(np.int64)
    counts[0] = members - counts[1:].sum()
    dealt = np.concatenate([(np.arange(count) + 0.5) / count for count in counts])
    of = np.repeat(np.arange(len(Fault)), counts)[np.argsort(dealt, kind="stable")]
    return Faults(of, np.asarray((np.log(prior_of(known)) - np.log(counts))[of]))


def with_faults(starts: Starts, faults: Faults, known: WatchParameters) -> Starts:
    """Return the members as they begin, with their faults.

    A leak lets air in; a drowned vessel has no way out for its liquid and lets
    more of it go; dead bran leaves few live cells, as do scraps that were
    boiled; what is spoiled has lost its sugar, holds ammonia and putrefiers;
    and what is cold stands colder than its keeper knows.
    """
    y, laid = starts.y.copy(), starts.laid.copy()
    vessel, warmer = starts.vessel.copy(), starts.warmer_c.copy()
    is_leak, is_drowned, is_dead, is_spoiled, is_cold = (faults.of == each for each in list(Fault)[1:])
    count = faults.of.size
    vessel[is_leak, _vessel("leak_l_per_d")] *= known.leak_times.members[:count][is_leak]
    vessel[is_drowned, _vessel("sump_l")] = 0.0
    vessel[is_drowned, _vessel("drains_times")] *= known.drowned_times.members[:count][is_drowned]
    fewer = known.dead_log10.members[:count]
    _fewer_lactic(y, laid, is_dead, fewer)
    _fewer_lactic(y, laid, is_spoiled, fewer)
    eaten = np.minimum(known.eaten_frac.members[:count], 1.0)[is_spoiled, None]
    for name in ("sugar_g", "cell_sugar_g", "starch_g"):
        y[is_spoiled, :, _state(name)] *= eaten
    laid[is_spoiled, :, _laid("cell_sugar_g")] *= eaten
    laid[is_spoiled, :, _laid("tissue_eq")] *= BUFFERED_TIMES
    y[is_spoiled, :, _state("ammonium_mol")] += known.rotting_mol.members[:count][is_spoiled, None]
    more = TEN * known.rotting_log10.members[:count]
    for name in ("enteric", "sugar_putrid", "protein_putrid"):
        y[is_spoiled, :, _state(f"{name}_ln_g")] += more[is_spoiled, None]
    warmer[is_cold] -= known.colder_k.members[:count][is_cold]
    return starts._replace(y=y, laid=laid, vessel=vessel, warmer_c=warmer)


def _fewer_lactic(y: FloatArray, laid: FloatArray, which: NDArray[np.bool_], log10: FloatArray) -> None:
    for name in ("warm_ln_g", "cold_ln_g"):
        y[which, :, _state(name)] -= TEN * log10[which, None]
    laid[which, :, _laid("added_g")] *= 10.0 ** -log10[which, None]


def _state(name: str) -> int:
    return State._fields.index(name)


def _laid(name: str) -> int:
    return Laid._fields.index(name)


def _vessel(name: str) -> int:
    return Vessel._fields.index(name)
