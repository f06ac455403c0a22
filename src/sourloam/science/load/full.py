"""The vessel filled to the end with such a load: its bed, its layers, its bran and its liquid."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.load.advice import FILLED
from sourloam.science.load.assess import Known, Load
from sourloam.science.load.bed import dry_figures
from sourloam.science.load.liquid import runs_off_l
from sourloam.science.vessel.settling import holds_kg

DUSTINGS: Final = 2  # under the bed and on it; common practice, no source
LEAST_L: Final = 0.01


@law("nine tenths of the vessel − room below the grid − depth of the bed × floor", unit="L")
def scraps_room_l(
    volume_l: ArrayLike, below_grid_l: ArrayLike, bed_m: ArrayLike, area_m2: ArrayLike
) -> float | FloatArray:
    """Return the room for scraps in a vessel that is filled as far as it may be."""
    bed_l = 1000.0 * np.asarray(bed_m, dtype=float) * np.asarray(area_m2, dtype=float)
    room = FILLED * np.asarray(volume_l, dtype=float) - np.asarray(below_grid_l, dtype=float) - bed_l
    return keep_shape(np.maximum(room, LEAST_L))


@law("room ÷ (floor × depth of a layer), before anything settles", unit="{layer}")
def full_layers(scraps_room_l: ArrayLike, area_m2: ArrayLike, layer_m: ArrayLike) -> float | FloatArray:
    """Return how many layers a full vessel takes, at least one."""
    depth = np.asarray(scraps_room_l, dtype=float) / 1000.0 / np.asarray(area_m2, dtype=float)
    return keep_shape(np.maximum(depth / np.asarray(layer_m, dtype=float), 1.0))


@law("mass ÷ room when pressed", unit="kg/L")
def pressed_kg_per_l(mass_kg: ArrayLike, pressed_l: ArrayLike) -> float | FloatArray:
    """Return the pressed density of a load."""
    return keep_shape(np.asarray(mass_kg, dtype=float) / np.asarray(pressed_l, dtype=float))


@law("the larger of: usual bran by weight, and cover for every layer and for the bed", unit="g")
def full_bran_g(
    *,
    full_kg: ArrayLike,
    mass_kg: ArrayLike,
    bran_usual_g: ArrayLike,
    covers: ArrayLike,
    area_m2: ArrayLike,
    cover_kg_per_m2: ArrayLike,
) -> float | FloatArray:
    """Return the bran for a whole filling."""
    by_weight = np.asarray(bran_usual_g, dtype=float) * np.asarray(full_kg, dtype=float) / np.asarray(mass_kg)
    cover = 1000.0 * np.asarray(covers, dtype=float) * np.asarray(area_m2) * np.asarray(cover_kg_per_m2)
    return keep_shape(np.maximum(by_weight, cover))


@law("layers, and one above and one below the bed", unit="{layer}")
def covers(full_layers: ArrayLike, dustings: ArrayLike) -> float | FloatArray:
    """Return how often bran is strewn in one filling."""
    return keep_shape(np.asarray(full_layers, dtype=float) + np.asarray(dustings, dtype=float))


@law("liquid that it sets free × what a full vessel holds ÷ mass, less what the bran holds", unit="L")
def full_liquid_l(
    *,
    free_l: ArrayLike,
    full_kg: ArrayLike,
    mass_kg: ArrayLike,
    bran_g: ArrayLike,
    bran_holds_kg_per_kg: ArrayLike,
) -> float | FloatArray:
    """Return the liquid that a full vessel sets free in all."""
    free = np.asarray(free_l, dtype=float) * np.asarray(full_kg, dtype=float) / np.asarray(mass_kg, dtype=float)
    return runs_off_l(free, bran_g, bran_holds_kg_per_kg)


def full_figures(load: Load, known: Known, *, bran_usual: Figure) -> dict[str, Figure]:
    """Return the vessel filled with such a load; where nothing drains, with a bed and with what is mixed in."""
    setting, area = load.setting, load.figures["area_m2"]
    count = load["mass_kg"].size
    bed = known.vessel.bed_m
    if setting.has_drain:
        bed = written("bed_m", 0.0, "m", words="depth of a bed: it has a drain", members=count)
    room = derive(
        "scraps_room_l",
        scraps_room_l,
        words="room for scraps",
        volume_l=setting.volume,
        below_grid_l=setting.below_grid,
        bed_m=bed,
        area_m2=area,
    )
    many = derive(
        "full_layers",
        full_layers,
        words="layers in a full vessel",
        scraps_room_l=room,
        area_m2=area,
        layer_m=known.vessel.layer_m,
    )
    found = {"full_layers": many, "full_kg": _holds(load, known, room)}
    if not setting.has_drain:
        found |= dry_figures(load, known, room=room, bare=found["full_kg"])
    bran = _bran(load, known, bran_usual=bran_usual, layers=many, holds=found["full_kg"])
    liquid = derive(
        "full_liquid_l",
        full_liquid_l,
        words="liquid from a full vessel, in all",
        free_l=load.figures["free_water_l"],
        full_kg=found["full_kg"],
        mass_kg=load.figures["mass_kg"],
        bran_g=bran,
        bran_holds_kg_per_kg=known.vessel.bran_holds_kg_per_kg,
    )
    return found | {each.name: each for each in (bran, liquid)}


def _holds(load: Load, known: Known, room: Figure) -> Figure:
    """Return the scraps that fill a vessel by themselves."""
    return derive(
        "full_kg",
        holds_kg,
        words="scraps in a full vessel",
        usable_l=room,
        pressed_kg_per_l=derive(
            "pressed_kg_per_l",
            pressed_kg_per_l,
            words="a litre of it pressed",
            mass_kg=load.figures["mass_kg"],
            pressed_l=load.figures["pressed_l"],
        ),
        settles_frac=known.vessel.settles_frac,
        settling_d=known.vessel.settling_d,
        filling_d=known.vessel.filling_d,
    )


def _bran(load: Load, known: Known, *, bran_usual: Figure, layers: Figure, holds: Figure) -> Figure:
    dustings = 0 if load.setting.has_drain else DUSTINGS
    return derive(
        "full_bran_g",
        full_bran_g,
        words="bran for a full vessel",
        full_kg=holds,
        mass_kg=load.figures["mass_kg"],
        bran_usual_g=bran_usual,
        covers=derive(
            "covers",
            covers,
            words="times that bran is strewn",
            full_layers=layers,
            dustings=written("dustings", dustings, "1", words="dustings of the bed", members=load["mass_kg"].size),
        ),
        area_m2=load.figures["area_m2"],
        cover_kg_per_m2=known.load.cover_kg_per_m2,
    )
