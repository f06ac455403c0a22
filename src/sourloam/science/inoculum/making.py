"""One making of bran, whole: amounts, moisture, room, live count, drying, days."""

from dataclasses import dataclass
from functools import partial
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.figure import Figure, derive, derived, law, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.science.inoculum import count, drying, wetting
from sourloam.science.inoculum.carrier import Carrier, Gab, activity_figure
from sourloam.science.inoculum.chain import Recipe, chain_figures
from sourloam.science.inoculum.culture_parameters import CultureParameters
from sourloam.science.inoculum.inoculant import inoculant_moisture_wb_frac
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.inoculum.schedule import Steps, step_figures
from sourloam.science.inoculum.starts import heeled_log10
from sourloam.science.inoculum.water import resting_moisture_wb_frac

MILK_KG_PER_L: Final = 1.03  # usda_sr28, as in the table of materials
HOURS_D: Final = 24.0


@dataclass(frozen=True)
class Kitchen:
    """Where it is made: the temperature of the room, and the air in which it dries."""

    room_c: Figure
    humidity_frac: Figure
    layer_m: Figure
    is_air_known: bool  # else drying takes what custom says


@dataclass(frozen=True)
class Known:
    """What the bench knows."""

    inoculum: InoculumParameters
    culture: CultureParameters

    @property
    def gab(self) -> Gab:
        """Return the constants of the isotherm."""
        return Gab(self.culture.gab_c, self.culture.gab_k)


@law("(height − bed) ÷ depth of a layer", unit="{sheet}")
def sheets(height_m: ArrayLike, sheet_bed_m: ArrayLike, sheet_layer_m: ArrayLike) -> float | FloatArray:
    """Return the sheets that go into a vessel, one between two layers; whole ones."""
    room = np.maximum(np.asarray(height_m, dtype=float) - np.asarray(sheet_bed_m, dtype=float), 0.0)
    return keep_shape(np.floor(room / np.asarray(sheet_layer_m, dtype=float)))


@law("share × 100", unit="%")
def per_cent(frac: ArrayLike) -> float | FloatArray:
    """Return a share in hundredths."""
    return keep_shape(np.asarray(np.asarray(frac, dtype=float) * 100.0))


@law("volume × how it lies", unit="kg")
def loose_kg(volume_l: ArrayLike, loose_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return what a volume weighs as it lies loose."""
    return keep_shape(np.asarray(np.asarray(volume_l, dtype=float) * np.asarray(loose_kg_per_l, dtype=float)))


@law("bran of a week × weeks", unit="kg")
def per_weeks(week_kg: ArrayLike, weeks: ArrayLike) -> float | FloatArray:
    """Return the bran of so many weeks."""
    return keep_shape(np.asarray(np.asarray(week_kg, dtype=float) * np.asarray(weeks, dtype=float)))


@law("kilograms × 1000", unit="g")
def grams(mass_kg: ArrayLike) -> float | FloatArray:
    """Return a mass in grams."""
    return keep_shape(np.asarray(np.asarray(mass_kg, dtype=float) * 1000.0))


@law("a tenth, or what a wetter carrier needs less", unit="L")
def hold_back_l(liquid_l: ArrayLike) -> float | FloatArray:
    """Return the liquid that is poured only if the squeezed handful crumbles: from the middle to the 5 % end."""
    liquid = np.asarray(liquid_l, dtype=float)
    low, middle = np.quantile(liquid, [0.05, 0.5])
    return keep_shape(np.full(liquid.shape, max(middle - low, 0.1 * middle)))


@law("milk × (1 − serum from a litre) × density", unit="kg")
def curd_kg(milk_l: ArrayLike, serum_yield_l_per_l: ArrayLike) -> float | FloatArray:
    """Return the wet curd that is left of milk."""
    left = 1.0 - np.asarray(serum_yield_l_per_l, dtype=float)
    return keep_shape(np.asarray(np.asarray(milk_l, dtype=float) * left * MILK_KG_PER_L))


@law("sum", unit="kg")
def wet_kg(carrier_kg: ArrayLike, liquid_kg_per_kg: ArrayLike) -> float | FloatArray:
    """Return the mass of the wetted carrier."""
    times = 1.0 + np.asarray(liquid_kg_per_kg, dtype=float)
    return keep_shape(np.asarray(np.asarray(carrier_kg, dtype=float) * times))


def making_figures(
    bran: Figure, known: Known, recipe: Recipe, carrier: Carrier, *, kitchen: Kitchen, on_hand: Figure | None = None
) -> dict[str, Figure]:
    """Return all that is asked of a making, each with its interval and its reason.

    Raises
    ------
    OutOfRange
        If the recipe asks for a moisture that liquid cannot bring, or the room is outside 10 to 38 °C.
    """
    p, c = known.inoculum, known.culture
    figures = chain_figures(bran, p, recipe, on_hand)
    liquid = dict(dict(figures["water_l"].inputs)["inoculant_kg"].inputs)["liquid_kg_per_kg"]
    wet = derive("wet_kg", wet_kg, words="wetted carrier", carrier_kg=figures["carrier_kg"], liquid_kg_per_kg=liquid)
    lies = {"loose_kg_per_l": carrier["loose_kg_per_l"], "wet_loose_times": c.wet_loose_times}
    figures |= {
        "sugar_g": derive("sugar_g", grams, words="sugar", mass_kg=figures.pop("sugar_kg")),
        "hold_back_l": derive(
            "hold_back_l",
            hold_back_l,
            words="of that liquid, held back until the squeeze",
            liquid_l=figures["liquid_l"],
        ),
        "moisture_pct": _moisture(known, recipe, liquid),
        "wet_kg": wet,
        "packed_l": derived(
            "packed_l", drying.packed_l, {"wet_kg": wet, **lies}, words="room of the packed, wetted carrier"
        ),
        "drying_m2": derived(
            "drying_m2",
            drying.drying_m2,
            {"wet_kg": wet, **lies, "layer_m": kitchen.layer_m},
            words="area to dry it on at one time",
        ),
        "curd_kg": derive(
            "curd_kg",
            curd_kg,
            words="curd, which goes to the scraps",
            milk_l=figures["milk_l"],
            serum_yield_l_per_l=recipe.serum_yield_l_per_l,
        ),
    }
    return figures | drying_figures(known, recipe, carrier, kitchen)


def _moisture(known: Known, recipe: Recipe, liquid: Figure) -> Figure:
    """Return the moisture that comes of pouring what the middle of all cases needs."""
    p = known.inoculum
    poured = written(
        "poured_kg_per_kg", liquid.value, "kg/kg", words="liquid poured on a kilogram", members=liquid.members.size
    )
    frac = derive(
        "wetted_wb_frac",
        wetting.wetted_moisture_wb_frac,
        words="moisture of the wetted carrier",
        liquid_kg_per_kg=poured,
        carrier_moisture_wb_frac=recipe.carrier_moisture_wb_frac,
        liquid_moisture_wb_frac=derive(
            "inoculant_moisture_wb_frac",
            inoculant_moisture_wb_frac,
            words="water in the liquid",
            serum_l_per_l=recipe.serum_l_per_l,
            sugar_kg_per_l=recipe.sugar_kg_per_l,
            serum_kg_per_l=p.serum_kg_per_l,
            serum_dry_wb_frac=p.serum_dry_wb_frac,
        ),
    )
    return derive("moisture_pct", per_cent, words="moisture of the wetted carrier", frac=frac)


def drying_figures(known: Known, recipe: Recipe, carrier: Carrier, kitchen: Kitchen) -> dict[str, Figure]:
    """Return how long it dries in that air, how far, and how often mould is faster."""
    c = known.culture
    layer = carrier["monolayer_kg_per_kg"]
    rests = partial(derive, function=resting_moisture_wb_frac, monolayer_kg_per_kg=layer, gab_c=c.gab_c, gab_k=c.gab_k)
    rest = rests("rest_wb_frac", words="moisture at which it rests in that air", humidity_frac=kitchen.humidity_frac)
    end = rests("end_wb_frac", words="moisture at which it is dry enough", humidity_frac=c.stop_activity)
    damp = rests("damp_wb_frac", words="moisture under which mould is slow", humidity_frac=c.mould_activity)
    pull = derive(
        "pull_times",
        drying.pull_times,
        words="pull of that air, against half-dry air at 20 °C",
        room_c=kitchen.room_c,
        room_humidity_frac=kitchen.humidity_frac,
        thin_c=c.thin_c,
        thin_humidity_frac=c.thin_humidity_frac,
    )
    pace = derive(
        "drying_per_h",
        drying.drying_per_h,
        words="pace of drying",
        thin_per_h=c.thin_per_h,
        pull_times=pull,
        layer_m=kitchen.layer_m,
        depth_power=c.depth_power,
    )
    dries = partial(
        derive,
        function=drying.drying_d,
        start_wb_frac=recipe.wetted_moisture_wb_frac,
        rest_wb_frac=rest,
        drying_per_h=pace,
    )
    damp_d = dries("damp_d", words="days until it is too dry to mould quickly", end_wb_frac=damp)
    mould = derive(
        "mould_d",
        drying.mould_d,
        words="days until damp bran moulds",
        mould_at_20c_d=c.mould_at_20c_d,
        room_c=kitchen.room_c,
        mould_q10=c.mould_q10,
    )
    return {
        "drying_d": dries("drying_d", words="days to dry in that air", end_wb_frac=end),
        "dry_pct": derive("dry_pct", per_cent, words="moisture at which it is dry enough", frac=end),
        "mould_pct": derive(
            "mould_pct", drying.mould_pct, words="cases in which mould is faster", damp_d=damp_d, mould_d=mould
        ),
        "dry_activity": activity_figure(
            "dry_activity",
            carrier,
            known.inoculum.dried_moisture_wb_frac,
            known.gab,
            words="water activity of bran dried as usual",
        ),
    }


def day_figures(known: Known, kitchen: Kitchen, dries: Figure) -> Steps:
    """Return the days of each step; drying takes what the air allows, where the air is known.

    Raises
    ------
    OutOfRange
        If the room is colder than 10 °C or warmer than 38 °C.
    """
    steps = step_figures(kitchen.room_c.value, known.inoculum)
    return steps._replace(drying=dries) if kitchen.is_air_known else steps


def count_figures(
    known: Known, figures: dict[str, Figure], kitchen: Kitchen, days: Steps, *, heel: bool
) -> dict[str, Figure]:
    """Return the live count at each link: in the serum, in the mix, in the shut bag, in dry bran."""
    p, c = known.inoculum, known.culture
    pace = derive(
        "pace",
        count.pace_at,
        words="pace of growth in that room, against the best",
        temperature_c=kitchen.room_c,
        least_c=p.least_c,
        best_c=p.best_c,
        most_c=p.most_c,
    )
    if heel:
        mixed = derive(
            "mixed_log10",
            heeled_log10,
            words="live count of the mix, powers of ten in a gram",
            heel_log10_per_g=c.heel_log10_per_g,
            heel_frac=c.heel_frac,
        )
    else:
        mixed = derive(
            "mixed_log10",
            count.mixed_log10,
            words="live count of the mix, powers of ten in a gram",
            serum_log10=p.serum_log10_per_ml,
            serum_l=figures["serum_l"],
            wet_kg=figures["wet_kg"],
        )
    hours = derive("shut_h", in_hours, words="hours that it is shut", days_d=days.bran)
    grown = derive(
        "wet_log10",
        count.grown_log10,
        words="live count of the shut bran when it is ready, powers of ten in a gram",
        start_log10=mixed,
        hours=hours,
        pace=pace,
        growth_per_h=c.growth_per_h,
        growth_lag_h=c.growth_lag_h,
        most_log10=c.most_log10_per_g,
    )
    dried = derive(
        "log10_cfu_per_g",
        count.dried_log10,
        words="live count of the dry bran, powers of ten in a gram",
        wet_log10=grown,
        drying_loss_log10=c.drying_loss_log10,
    )
    return {
        "rice_log10": c.rice_log10_per_ml.called("live count of soured rice water, powers of ten in a millilitre"),
        "serum_log10": p.serum_log10_per_ml,
        "mixed_log10": mixed,
        "wet_log10": grown,
        "log10_cfu_per_g": dried,
    }


@law("days × 24", unit="h")
def in_hours(days_d: ArrayLike) -> float | FloatArray:
    """Return days in hours."""
    return keep_shape(np.asarray(np.asarray(days_d, dtype=float) * HOURS_D))
