"""Hens: how much of a kitchen's greens a flock could eat, and what is left for the vessels."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law
from sourloam.base.numbers import FloatArray, keep_shape


@dataclass(frozen=True)
class HenParameters:
    """Filled from `parameters/hens.toml`."""

    ration_kg: Figure  # what a laying hen eats in a day
    most_frac: Figure  # scraps in it at the most


@law("hens × ration of one", unit="kg/d")
def flock_kg_per_d(hens: ArrayLike, ration_kg: ArrayLike) -> float | FloatArray:
    """Return what a flock eats in a day."""
    return keep_shape(_f(hens) * _f(ration_kg))


@law("what the flock eats × part that may be scraps", unit="kg/d")
def room_kg_per_d(flock_kg: ArrayLike, most_frac: ArrayLike) -> float | FloatArray:
    """Return the scraps that a flock has room for in a day."""
    return keep_shape(_f(flock_kg) * _f(most_frac))


@law("seven days of it", unit="kg/wk")
def weekly_kg(room_kg: ArrayLike) -> float | FloatArray:
    """Return what that is in a week."""
    return keep_shape(7.0 * _f(room_kg))


@law("scraps − what the flock has room for, never under 0", unit="kg/d")
def left_kg_per_d(scraps_kg: ArrayLike, room_kg: ArrayLike) -> float | FloatArray:
    """Return what is left for the vessels in a day."""
    return keep_shape(np.maximum(_f(scraps_kg) - _f(room_kg), 0.0))


def hen_figures(hens: Figure, ration: Figure, most: Figure, scraps: Figure | None) -> dict[str, Figure]:
    """Return what a flock eats, what of it may be scraps, and what is left if it were given that."""
    flock = derive("flock_kg_per_d", flock_kg_per_d, words="what the flock eats in a day", hens=hens, ration_kg=ration)
    room = derive(
        "room_kg_per_d", room_kg_per_d, words="scraps it has room for in a day", flock_kg=flock, most_frac=most
    )
    figures = {
        "flock_kg_per_d": flock,
        "room_kg_per_d": room,
        "room_kg_per_week": derive("room_kg_per_week", weekly_kg, words="the same in a week", room_kg=room),
    }
    if scraps is not None:
        figures["left_kg_per_d"] = derive(
            "left_kg_per_d", left_kg_per_d, words="left for the vessels in a day", scraps_kg=scraps, room_kg=room
        )
    return figures


def _f(values: ArrayLike) -> FloatArray:
    return np.asarray(values, dtype=float)
