"""What a member's vessel is like on each day: its column in the table of signs, and its state in the words of a keeper.

The thresholds are those by which the model says that a vessel fails, read on
each day instead of the last one; a vessel that is sharp or yeasty counts as
failed only past them.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import NDArray

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.ensemble.failing import (
    BUTYRIC_G_PER_KG,
    COLD_C,
    DROWNED_D,
    ETHANOL_G_PER_KG,
    MOULD_G_PER_M2,
    PUTRID_LOG10,
    PUTRID_PH,
    STUCK_COLD_D,
    STUCK_D,
    STUCK_PH,
    any_layer,
    log10_per_g,
)
from sourloam.science.ferment.ensemble.follow import Followed
from sourloam.science.ferment.ensemble.living import Living
from sourloam.science.ferment.layer.species import G_PER_MOL
from sourloam.science.ferment.stack.life import CORE_C, FLOODED, LIQUID, LIQUID_PH
from sourloam.science.readings.signs import Column

STILL_PH: Final = 4.8  # of all layers on the mean: over it a vessel does not smell sour yet; judgement
SHARP_ETHANOL_G, SHARP_ACETIC_G = 5.0, 3.0  # to a kg of water, and half of the lactic acid: smelled; judgement
SHARP_TIMES: Final = 0.5


class Condition(StrEnum):
    """What a vessel is, in one word."""

    SOUND = "sound"
    YEASTY = "yeasty"
    PUTRID = "putrid"
    MOULDY = "mouldy"
    STUCK = "stuck"
    DROWNED = "drowned"


CONDITIONS: Final = tuple(Condition)


@dataclass(frozen=True)
class Courses:
    """What readings are held against, for each member and day after the first layer."""

    column: NDArray[np.int64]
    condition: NDArray[np.int64]  # place in CONDITIONS
    core_ph: FloatArray
    top_ph: FloatArray
    liquid_ph: FloatArray
    core_c: FloatArray
    liquid_l: FloatArray  # that has run off so far
    mass_kg: FloatArray
    room_c: FloatArray

    @property
    def last_d(self) -> int:
        """Return the last day that was followed."""
        return int(self.column.shape[1]) - 1


def courses_of(followed: Followed, living: Living, *, floor_m2: float, room_c: FloatArray) -> Courses:
    """Return what readings are held against; `room_c` is what is said of the place, day by day."""
    ph = followed.ph
    core = np.nanmean(ph, axis=2)
    worst = np.nanmax(ph, axis=2)
    top = _newest(ph)
    lowest = ph[:, :, 0]
    liquid = followed.vessel[:, :, LIQUID_PH]
    found = _found(followed, living, floor_m2)
    rooms = np.append(room_c, room_c[-1])
    offset = followed.starts.warmer_c[:, None]
    return Courses(
        column=_columns(found, core),
        condition=_conditions(found, worst, followed),
        core_ph=core,
        top_ph=top,
        liquid_ph=np.where(np.isfinite(liquid) & (liquid > 0.0), liquid, lowest),
        core_c=followed.vessel[:, :, CORE_C],
        liquid_l=followed.vessel[:, :, LIQUID],
        mass_kg=_mass_kg(followed),
        room_c=np.asarray(rooms[None, :] + offset),
    )


def _mass_kg(followed: Followed) -> FloatArray:
    """Return what lies in the vessel, of the layers that are laid by each day."""
    is_laid = np.isfinite(followed.ph)
    return np.asarray(np.nansum(np.where(is_laid, followed.starts.dry_kg[:, None, :] + followed.water_kg, 0.0), axis=2))


def _newest(values: FloatArray) -> FloatArray:
    """Return a value of the uppermost layer that is laid by each day: (members, days + 1)."""
    laid = np.isfinite(values[0]).sum(axis=1) - 1
    return np.asarray(np.take_along_axis(values, laid[None, :, None].repeat(values.shape[0], axis=0), axis=2)[:, :, 0])


def _found(followed: Followed, living: Living, floor_m2: float) -> dict[str, NDArray[np.bool_]]:
    """Return on which days each thing is so: (members, days + 1)."""

    def grams(name: str) -> FloatArray:
        return np.nan_to_num(followed.amount(f"{name}_mol")) * G_PER_MOL[name]

    butyric, ethanol, lactic, acetic = (grams(each) for each in ("butyric", "ethanol", "lactic", "acetic"))
    rotten = (log10_per_g(followed, living, "protein_putrid") >= PUTRID_LOG10) & (followed.ph > PUTRID_PH)
    lasting = np.cumsum(rotten, axis=1) >= DROWNED_D
    flooded = np.cumsum(followed.vessel[:, :, FLOODED] >= 1.0, axis=1) >= DROWNED_D
    water = np.broadcast_to(followed.first_water_kg[:, None, :], followed.ph.shape)
    mould = _newest(np.exp(followed.cells_ln_g("mould")) * water) / floor_m2
    sharp = (ethanol >= SHARP_ETHANOL_G) & (ethanol > SHARP_TIMES * lactic)
    sharp |= (acetic >= SHARP_ACETIC_G) & (acetic > SHARP_TIMES * lactic)
    return {
        "putrid": any_layer((butyric >= BUTYRIC_G_PER_KG) | lasting),
        "yeasty": any_layer((ethanol >= ETHANOL_G_PER_KG) & (ethanol > lactic)),
        "sharp": any_layer(sharp),
        "mouldy": mould >= MOULD_G_PER_M2,
        "drowned": flooded,
    }


def _columns(found: dict[str, NDArray[np.bool_]], core_ph: FloatArray) -> NDArray[np.int64]:
    """Return the column of the table of signs; what smells strongest goes before the rest."""
    column = np.where(core_ph > STILL_PH, Column.STILL, Column.SOUND)
    column = np.where((found["sharp"] | found["yeasty"]), Column.SHARP, column)
    column = np.where(found["mouldy"], Column.MOULDY, column)
    column = np.where(found["drowned"], Column.DROWNED, column)
    return np.asarray(np.where(found["putrid"], Column.ROTTEN, column), dtype=np.int64)


def _conditions(found: dict[str, NDArray[np.bool_]], worst_ph: FloatArray, followed: Followed) -> NDArray[np.int64]:
    """Return the state of each day; stuck is what is not sour, and will not be in time either."""
    days = worst_ph.shape[1]
    last = int(np.isnan(followed.ph[0]).any(axis=-1).sum())
    is_cold = np.nanmean(followed.vessel[:, :, CORE_C], axis=1) < COLD_C
    due = np.minimum(np.where(is_cold, last + STUCK_COLD_D, last + STUCK_D), days - 1)
    late = worst_ph[np.arange(worst_ph.shape[0]), due] > STUCK_PH
    condition = np.where(late[:, None] & (worst_ph > STUCK_PH), CONDITIONS.index(Condition.STUCK), 0)
    for name in (Condition.YEASTY, Condition.MOULDY, Condition.DROWNED, Condition.PUTRID):
        condition = np.where(found[name.value], CONDITIONS.index(name), condition)
    return np.asarray(condition, dtype=np.int64)
