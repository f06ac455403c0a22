"""A batch in a tub until it is soil: how much soil, how many days, how many tubs, and what builds up."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.figure import Figure, derive, derived, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.science.batch.content import Content
from sourloam.science.places.ground.salinity import ions_g_per_kg
from sourloam.science.places.ground.salt import GroundParameters
from sourloam.science.places.ground.thermal import days_at_20c, first_day
from sourloam.science.places.soil_tub.finish_parameters import FinishParameters
from sourloam.science.places.soil_tub.parameters import SoilTubParameters

MODEL: Final = "the tub, day by day from the temperature of its room (science/places/soil_tub)"
VOLUME: Final = Range(1.0, 20_000.0, "L")
LITRES_PER_M3: Final = 1000.0


@dataclass(frozen=True)
class Known:
    """The parameters that a tub is judged by."""

    tub: SoilTubParameters
    finish: FinishParameters
    ground: GroundParameters


@dataclass(frozen=True)
class Tub:
    """What is known of a tub and of how it is used."""

    room_c: FloatArray  # from the day of filling, a day each
    volume_l: float | None = None
    every_d: float | None = None  # how often a batch comes
    soil_per_product: float | None = None
    cycles: int = 1  # batches that its soil has taken, this one counted


def finish(content: Content, tub: Tub, known: Known) -> dict[str, Figure]:
    """Return what a tub does with a batch, as figures.

    Raises
    ------
    OutOfRange
        If a volume or the content cannot be.
    """
    more, members = known.finish, content["mass_kg"].members.size
    ratio = known.tub.soil_per_product
    if tub.soil_per_product is not None:
        ratio = written("ratio", tub.soil_per_product, "1", words="parts of soil to one", members=members)
    holds = derive(
        "holds_l",
        holds_l,
        words="room that all of it takes in a tub, with soil and cover",
        product_l=content["volume_l"],
        soil_per_product=ratio,
        blend_frac=more.blend_frac,
        cover_m=more.cover_m,
        depth_m=more.depth_m,
    )
    soil = derive(
        "soil_l",
        soil_l,
        words="soil that it wants, its cover too",
        product_l=content["volume_l"],
        soil_per_product=ratio,
        blend_frac=more.blend_frac,
        cover_m=more.cover_m,
        depth_m=more.depth_m,
    )
    days = derived(
        "days",
        _days_law(tub.room_c),
        {
            "at_20c_d": known.tub.rest_at_20c_d,
            "q10": known.tub.rest_q10,
            "stops_c": known.tub.rest_stops_c,
            "room_off_k": more.room_off_k,
        },
        words="days until it is soil",
    )
    found = {each.name: each for each in (soil, days, holds)}
    found |= _tubs(found, content, tub, known)
    return found | _salt(content, ratio, tub, known)


def _tubs(found: dict[str, Figure], content: Content, tub: Tub, known: Known) -> dict[str, Figure]:
    """Return what one filling takes, and how many tubs keep up with a kitchen."""
    members = content["mass_kg"].members.size
    made = derive(
        "new_soil_l",
        new_soil_l,
        words="new soil that it gives",
        product_l=content["volume_l"],
        left_frac=known.finish.left_frac,
    )
    told = {made.name: made}
    if tub.volume_l is not None:
        volume = written("volume_l", tub.volume_l, "L", words="what the tub holds", members=members)
        takes = derive(
            "takes_kg",
            takes_kg,
            words="what one tub takes of it",
            mass_kg=content["mass_kg"],
            volume_l=volume,
            holds_l=found["holds_l"],
        )
        told |= {takes.name: takes}
    else:
        volume = found["holds_l"].called("a tub that holds one batch")
    if tub.every_d is not None:
        every = written("every_d", tub.every_d, "d", words="days between batches", members=members)
        need = derive(
            "tubs",
            tubs,
            words="tubs that keep up with that",
            days=found["days"],
            every_d=every,
            holds_l=found["holds_l"],
            volume_l=volume,
        )
        told |= {need.name: need}
    return told


def _salt(content: Content, ratio: Figure, tub: Tub, known: Known) -> dict[str, Figure]:
    ions = derive(
        "ions_g_per_kg",
        ions_g_per_kg,
        words="salts of all ions, to a kilogram",
        conductivity_ds_per_m=content["conductivity_ds_per_m"],
        salt_mg_per_l=known.finish.salt_mg_per_l,
        dry_wb_frac=content["dry_wb_frac"],
    )
    count = written("cycles", float(tub.cycles), "1", words="batches in this soil", members=ions.members.size)
    soil = derive(
        "soil_ds_per_m",
        tub_ds_per_m,
        words="conductivity of the soil after that, if nothing is washed out",
        ions_g_per_kg=ions,
        kg_per_l=content["kg_per_l"],
        soil_per_product=ratio,
        saturated_frac=known.ground.saturated_frac,
        salt_mg_per_l=known.ground.salt_mg_per_l,
        begins_ds_per_m=known.finish.tub_ds_per_m,
        keeps_frac=known.finish.keeps_frac,
        cycles=count,
    )
    return {soil.name: soil}


def _days_law(room_c: FloatArray) -> Callable[..., FloatArray]:
    @law("first day by which the warmth of the room makes up the days at 20 °C", unit="d", model=MODEL)
    def days(at_20c_d: FloatArray, q10: FloatArray, stops_c: FloatArray, room_off_k: FloatArray) -> FloatArray:
        warm = room_c + np.reshape(room_off_k, (-1, 1))
        return first_day(days_at_20c(warm, q10, stops_c), at_20c_d)

    return days


@law("(batch + soil) × room of a mix + cover ÷ depth of all that", unit="L", source="practice")
def holds_l(
    product_l: ArrayLike, soil_per_product: ArrayLike, *, blend_frac: ArrayLike, cover_m: ArrayLike, depth_m: ArrayLike
) -> float | FloatArray:
    """Return the room of a batch with its soil, and of the cover on it.

    Raises
    ------
    OutOfRange
        If the batch is none, under 1 L or above 20 m³.
    """
    product = within(product_l, VOLUME, name="product_l", why="that is no batch for a tub.")
    mixed = product * (1.0 + np.asarray(soil_per_product, dtype=float)) * np.asarray(blend_frac, dtype=float)
    cover = np.asarray(cover_m, dtype=float) / np.asarray(depth_m, dtype=float)
    return keep_shape(mixed / (1.0 - cover))


@law("batch × parts of soil + cover", unit="L", source="practice")
def soil_l(
    product_l: ArrayLike, soil_per_product: ArrayLike, *, blend_frac: ArrayLike, cover_m: ArrayLike, depth_m: ArrayLike
) -> float | FloatArray:
    """Return the soil that a batch wants, for mixing and for its cover.

    Raises
    ------
    OutOfRange
        As `holds_l`.
    """
    whole = np.asarray(
        holds_l(product_l, soil_per_product, blend_frac=blend_frac, cover_m=cover_m, depth_m=depth_m), dtype=float
    )
    cover = whole * np.asarray(cover_m, dtype=float) / np.asarray(depth_m, dtype=float)
    return keep_shape(np.asarray(product_l, dtype=float) * np.asarray(soil_per_product, dtype=float) + cover)


@law("what there is × volume of the tub ÷ room that all of it takes, at most all", unit="kg")
def takes_kg(mass_kg: ArrayLike, volume_l: ArrayLike, holds_l: ArrayLike) -> float | FloatArray:
    """Return what one tub takes of a batch.

    Raises
    ------
    OutOfRange
        If the tub is none, under 1 L or above 20 m³.
    """
    tub = within(volume_l, VOLUME, name="volume_l", why="that is no tub.")
    return keep_shape(np.asarray(mass_kg, dtype=float) * np.minimum(tub / np.asarray(holds_l, dtype=float), 1.0))


@law("days until it is soil ÷ days between batches × room of a batch ÷ volume of a tub, whole ones", unit="{tub}")
def tubs(days: ArrayLike, every_d: ArrayLike, holds_l: ArrayLike, volume_l: ArrayLike) -> float | FloatArray:
    """Return the tubs that keep up with batches that come so often."""
    at_once = np.asarray(days, dtype=float) / np.asarray(every_d, dtype=float)
    each = np.asarray(holds_l, dtype=float) / np.asarray(volume_l, dtype=float)
    return keep_shape(np.ceil(np.maximum(np.ceil(at_once - 1e-9) * each, 1.0) - 1e-9))


@law("batch × part of it that is soil in the end", unit="L", source="judgement")
def new_soil_l(product_l: ArrayLike, left_frac: ArrayLike) -> float | FloatArray:
    """Return the soil that a batch adds."""
    return keep_shape(np.asarray(product_l, dtype=float) * np.asarray(left_frac, dtype=float))


@law("what it begins with + salt of each batch, of which the part stays that is left in the tub", unit="dS/m")
def tub_ds_per_m(
    ions_g_per_kg: ArrayLike,
    kg_per_l: ArrayLike,
    *,
    soil_per_product: ArrayLike,
    saturated_frac: ArrayLike,
    salt_mg_per_l: ArrayLike,
    begins_ds_per_m: ArrayLike,
    keeps_frac: ArrayLike,
    cycles: ArrayLike,
) -> float | FloatArray:
    """Return the conductivity of the soil of a tub after so many batches, of which part is taken out after each.

    What is taken out is made up with soil as at the start; plants that grow in it meanwhile would take some salt.
    """
    held = np.asarray(ions_g_per_kg, dtype=float) * np.asarray(kg_per_l, dtype=float)
    mixed = 1000.0 * held / (1.0 + np.asarray(soil_per_product, dtype=float))
    added = mixed / np.asarray(saturated_frac, dtype=float) / np.asarray(salt_mg_per_l, dtype=float)
    keeps = np.asarray(keeps_frac, dtype=float)
    times = (1.0 - keeps ** np.asarray(cycles, dtype=float)) / (1.0 - keeps)
    return keep_shape(np.asarray(begins_ds_per_m, dtype=float) + added * times)
