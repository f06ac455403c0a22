"""How long dry bran and cold serum keep: until too few are alive to do their work."""

from dataclasses import dataclass
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.checks import within
from sourloam.base.days import after
from sourloam.base.figure import Figure, derive, law, leaf, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.ranges import Range
from sourloam.base.spread import Spread
from sourloam.science.inoculum.chain import Recipe
from sourloam.science.inoculum.inoculant import inoculant_kg_per_l, inoculant_moisture_wb_frac
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.inoculum.wetting import liquid_kg_per_kg

MONTH_D: Final = 365.25 / 12.0
BRAN_STORE: Final = Range(-25.0, 35.0, "°C")
SERUM_STORE: Final = Range(0.0, 12.0, "°C")
BRAN_KNOWN_C: Final = 20.0  # temperature for which the decline of bran is given
SERUM_KNOWN_C: Final = 4.0  # and that of serum


@dataclass(frozen=True)
class BranLot:
    """Bran of one making."""

    made_on: date
    mass_kg: float


@dataclass(frozen=True)
class KeepsUntil:
    """A day with its 90 % interval."""

    low: date
    middle: date
    high: date


@law("decline × Q10 ^ (temperature difference ÷ 10)", unit="1/mo")
def decline_log10_per_month(
    known_log10_per_month: ArrayLike, store_c: ArrayLike, known_c: ArrayLike, decline_q10: ArrayLike
) -> float | FloatArray:
    """Return the powers of ten that a count loses in a month at a temperature."""
    steps = (np.asarray(store_c, dtype=float) - np.asarray(known_c, dtype=float)) / 10.0
    faster = np.asarray(decline_q10, dtype=float) ** steps
    return keep_shape(np.asarray(np.asarray(known_log10_per_month, dtype=float) * faster))


@law("(count − least count) ÷ decline", unit="d")
def keeps_d(start_log10: ArrayLike, least_log10: ArrayLike, decline_log10_per_month: ArrayLike) -> float | FloatArray:
    """Return the days until a count has fallen to the least that works; none if it never reached it."""
    room = np.maximum(np.asarray(start_log10, dtype=float) - np.asarray(least_log10, dtype=float), 0.0)
    return keep_shape(np.asarray(room / np.asarray(decline_log10_per_month, dtype=float) * MONTH_D))


@law("least count in the scraps ÷ dose, as powers of ten", unit="1")
def least_bran_log10(least_log10_per_g: ArrayLike, dose_g_per_kg: ArrayLike) -> float | FloatArray:
    """Return the least count in a gram of bran that gives the scraps what they need."""
    bran_g_per_g = np.asarray(dose_g_per_kg, dtype=float) / 1000.0
    return keep_shape(np.asarray(np.asarray(least_log10_per_g, dtype=float) - np.log10(bran_g_per_g)))


@law("least count in the wetted carrier × carrier to a millilitre of serum, as powers of ten", unit="1")
def least_serum_log10(
    least_log10_per_g: ArrayLike, liquid_kg_per_kg: ArrayLike, serum_l_per_l: ArrayLike, inoculant_kg_per_l: ArrayLike
) -> float | FloatArray:
    """Return the least count in a millilitre of serum that gives the wetted carrier what it needs."""
    liquid = np.asarray(liquid_kg_per_kg, dtype=float)
    serum_l_per_kg = np.asarray(serum_l_per_l, dtype=float) / np.asarray(inoculant_kg_per_l, dtype=float)
    serum_ml_per_g = serum_l_per_kg * liquid / (1.0 + liquid)
    return keep_shape(np.asarray(np.asarray(least_log10_per_g, dtype=float) - np.log10(serum_ml_per_g)))


def bran_keeps_d(store_c: float, parameters: InoculumParameters) -> Figure:
    """Return how many days dry, closed bran stays strong enough for the plain dose.

    Raises
    ------
    OutOfRange
        If the store is colder than -25 °C or warmer than 35 °C.
    """
    within(store_c, BRAN_STORE, name="store_c", why="how bran keeps there is not known.")
    p = parameters
    decline = _decline(p.bran_decline_at_20c_log10_per_month, store_c, BRAN_KNOWN_C, p)
    least = derive(
        "least_bran_log10",
        least_bran_log10,
        words="least live count of bran, powers of ten in a gram",
        least_log10_per_g=p.least_log10_per_g,
        dose_g_per_kg=p.plain_dose_g_per_kg,
    )
    return derive(
        "bran_keeps_d",
        keeps_d,
        words="days that dry bran keeps",
        start_log10=p.bran_log10_per_g,
        least_log10=least,
        decline_log10_per_month=decline,
    )


def serum_keeps_d(store_c: float, parameters: InoculumParameters) -> Figure:
    """Return how many days serum stays strong enough to start bran.

    Raises
    ------
    OutOfRange
        If the store is not a cold one, 0 to 12 °C.
    """
    within(store_c, SERUM_STORE, name="store_c", why="serum is only known to keep in the cold, and not frozen.")
    p = parameters
    return derive(
        "serum_keeps_d",
        keeps_d,
        words="days that serum keeps",
        start_log10=p.serum_log10_per_ml,
        least_log10=least_serum_figure(p, Recipe.usual(p)),
        decline_log10_per_month=_decline(p.serum_decline_at_4c_log10_per_month, store_c, SERUM_KNOWN_C, p),
    )


def bran_keeps_until(lot: BranLot, store_c: float, parameters: InoculumParameters) -> KeepsUntil:
    """Return when a lot of dry, closed bran becomes too weak.

    Raises
    ------
    OutOfRange
        If the store is colder than -25 °C or warmer than 35 °C.
    """
    return _until(lot.made_on, bran_keeps_d(store_c, parameters))


def serum_keeps_until(strained_on: date, store_c: float, parameters: InoculumParameters) -> KeepsUntil:
    """Return when serum that was strained on a day becomes too weak to start bran.

    Raises
    ------
    OutOfRange
        If the store is not a cold one, 0 to 12 °C.
    """
    return _until(strained_on, serum_keeps_d(store_c, parameters))


def _decline(known: Figure, store_c: float, known_c: float, parameters: InoculumParameters) -> Figure:
    return derive(
        "decline_log10_per_month",
        decline_log10_per_month,
        words="powers of ten lost in a month in this store",
        known_log10_per_month=known,
        store_c=written("store_c", store_c, "Cel", words="temperature of the store"),
        known_c=leaf(
            "known_c",
            Spread.exactly(known_c),
            "Cel",
            words="temperature for which that decline is given",
            source=known.source,
            place=known.place,
            basis=known.basis,
        ),
        decline_q10=parameters.decline_q10,
    )


def least_serum_figure(p: InoculumParameters, recipe: Recipe) -> Figure:
    """Return the least live count of serum that starts bran by a recipe."""
    common = {"serum_l_per_l": recipe.serum_l_per_l, "sugar_kg_per_l": recipe.sugar_kg_per_l}
    moisture = derive(
        "inoculant_moisture_wb_frac",
        inoculant_moisture_wb_frac,
        words="water in the inoculant",
        serum_kg_per_l=p.serum_kg_per_l,
        serum_dry_wb_frac=p.serum_dry_wb_frac,
        **common,
    )
    liquid = derive(
        "liquid_kg_per_kg",
        liquid_kg_per_kg,
        words="inoculant on a kilogram of carrier",
        wetted_moisture_wb_frac=recipe.wetted_moisture_wb_frac,
        carrier_moisture_wb_frac=recipe.carrier_moisture_wb_frac,
        liquid_moisture_wb_frac=moisture,
    )
    return derive(
        "least_serum_log10",
        least_serum_log10,
        words="least live count of serum, powers of ten in a millilitre",
        least_log10_per_g=p.least_log10_per_g,
        liquid_kg_per_kg=liquid,
        serum_l_per_l=recipe.serum_l_per_l,
        inoculant_kg_per_l=derive(
            "inoculant_kg_per_l",
            inoculant_kg_per_l,
            words="inoculant from a litre of water",
            serum_kg_per_l=p.serum_kg_per_l,
            **common,
        ),
    )


def _until(start_on: date, days: Figure) -> KeepsUntil:
    return KeepsUntil(after(start_on, days.low), after(start_on, days.value), after(start_on, days.high))
