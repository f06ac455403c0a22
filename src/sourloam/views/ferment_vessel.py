"""A vessel cut open on a day: how high each layer has settled, how sour it is, how much liquid lies below."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from sourloam.plan.words import enumerated
from sourloam.science.ferment.ensemble.filling import Layer
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.ensemble.forecast import Forecast
from sourloam.science.ferment.stack.life import FLOODED
from sourloam.science.vessel.parameters import VesselParameters
from sourloam.science.vessel.settling import settled_frac
from sourloam.views.batch import Batch

MOST_NAMES: Final = 3  # materials of a layer that are named
FILLED: Final = 0.95  # of a vessel, at the most


@dataclass(frozen=True)
class LayerView:
    """A layer on a day; without a pH before it was laid."""

    number: int
    day: float
    kg: float
    litres: float
    what: str
    ph: float
    ph_low: float
    ph_high: float


@dataclass(frozen=True)
class CutOpen:
    """A vessel on a day after the first layer."""

    day: int
    words: str
    layers: tuple[LayerView, ...]
    liquid_l: float  # below the grid, and up to where layers stand in it


def cut_open(forecast: Forecast, batch: Batch, day: int, words: str, *, vessel: VesselParameters) -> CutOpen:
    """Return the vessel as it is in the middle of all cases on a day."""
    followed = forecast.followed
    there = [each for each in batch.filling.layers if each.laid_d <= day]
    litres = [_litres(each, day, vessel) for each in there]
    room_l = FILLED * batch.filling.kept.volume_l - batch.filling.kept.sump_l
    times = min(1.0, room_l / sum(litres))
    layers = tuple(
        LayerView(at + 1, each.laid_d, _kg(each), high * times, what_it_is(each), *_ph(followed, day, at))
        for at, (each, high) in enumerate(zip(there, litres, strict=True))
    )
    flooded = round(float(np.median(followed.vessel[:, day, FLOODED])))
    standing = sum(each.litres for each in layers[:flooded])
    below = batch.filling.kept.sump_l if flooded else _liquid_l(forecast, batch, day)
    return CutOpen(day, words, layers, below + standing)


def pressed_l(batch: Batch) -> float:
    """Return the room of all layers when pressed, before they settle."""
    return sum(_pressed_l(each) for each in batch.filling.layers)


def lying_l(batch: Batch, vessel: VesselParameters) -> float:
    """Return the room that all layers take when the last of them lies, by when the others have settled."""
    return sum(_litres(each, batch.last_d, vessel) for each in batch.filling.layers)


def what_it_is(layer: Layer) -> str:
    """Return the materials of a layer, the most of them first."""
    masses: dict[str, float] = {}
    for each in layer.portions:
        masses[each.material.name] = masses.get(each.material.name, 0.0) + each.mass.value
    names = sorted(masses, key=lambda name: -masses[name])
    shown = names if len(names) <= MOST_NAMES else [*names[: MOST_NAMES - 1], "more"]
    return enumerated(shown)


def slowest_layer(followed: Followed, day: int) -> int:
    """Return the number of the layer that is least sour on a day, counted from the bottom."""
    return 1 + int(np.nanargmax(np.nanmedian(followed.ph[:, day], axis=0)))


def _kg(layer: Layer) -> float:
    return sum(each.mass.value for each in (*layer.portions, *layer.added))


def _pressed_l(layer: Layer) -> float:
    return sum(each.mass.value / each.material.pressed_kg_per_l for each in (*layer.portions, *layer.added))


def _litres(layer: Layer, day: float, vessel: VesselParameters) -> float:
    left = settled_frac(day - layer.laid_d, vessel.settles_frac.value, vessel.settling_d.value)
    return _pressed_l(layer) * float(left)


def _ph(followed: Followed, day: int, layer: int) -> tuple[float, float, float]:
    low, middle, high = np.quantile(followed.ph[:, day, layer], (0.05, 0.5, 0.95))
    return float(middle), float(low), float(high)


def _liquid_l(forecast: Forecast, batch: Batch, day: int) -> float:
    """Return the liquid below the grid: what has come since it was last drawn off."""
    came, every = forecast.course["leachate_l"].median, batch.filling.kept.draws_every_d
    before = max(day - (day % every or every), 0) if every else 0  # as it stands before it is drawn off
    return float(min(came[day] - came[before], batch.filling.kept.sump_l))
