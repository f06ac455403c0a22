"""The forecast as the readings leave it: the one way in which anything further on gets a corrected vessel.

Members are drawn again, each about as often as it counts, and from there on
they are an ensemble like any other: dates, courses, what may go wrong.
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from sourloam.base.figure import SEED, Figure
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.ensemble.forecast import Forecast, Limits, forecast
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.ensemble.parameters import ModelParameters
from sourloam.science.ferment.stack.life import Starts
from sourloam.science.watch.filter import Weighed, resampled

Index = NDArray[np.int64]


@dataclass(frozen=True)
class Corrected:
    """The forecast after the readings, and the life that it rests on."""

    forecast: Forecast
    living: Living
    index: Index  # of the members of the ensemble


def corrected(weighed: Weighed, limits: Limits, *, count: int | None = None, seed: int = SEED) -> Corrected:
    """Return the forecast of a vessel as its readings leave it; without any, that of all its members.

    Raises
    ------
    BalanceError
        If carbon or nitrogen was gained or lost on the way.
    """
    ensemble = weighed.ensemble
    index = resampled(weighed.weights, count or ensemble.members, seed=seed)
    living = living_at(ensemble.living, index)
    limited = replace(limits, critical_scatter=limits.critical_scatter[index])
    return Corrected(forecast(followed_at(ensemble.followed, index), ensemble.filling, living, limited), living, index)


def followed_at(followed: Followed, index: Index) -> Followed:
    """Return the courses of some members."""
    return Followed(
        starts_at(followed.starts, index), followed.layers[index], followed.vessel[index], followed.liquid[index]
    )


def starts_at(starts: Starts, index: Index) -> Starts:
    """Return some members as they begin."""
    return Starts(*(each[index] for each in starts))


def living_at(living: Living, index: Index) -> Living:
    """Return the life of some members; a value is then what they have in the middle, not what its source says."""
    model = {each.name: _at(getattr(living.model, each.name), index) for each in fields(ModelParameters)}
    organisms: Mapping[str, Mapping[str, Figure]] = MappingProxyType(
        {
            group: MappingProxyType({name: _at(figure, index) for name, figure in values.items()})
            for group, values in living.organisms.items()
        }
    )
    return Living(ModelParameters(**model), organisms)


def _at(figure: Figure, index: Index) -> Figure:
    return replace(figure, members=figure.members[index], at_medians=None)
