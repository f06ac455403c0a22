"""Whether what is kept is still alive: what its age and store say, what a jar of milk says, the dose that follows."""

from dataclasses import dataclass
from typing import Final

from sourloam.base.checks import within
from sourloam.base.figure import Figure, derive, leaf, written
from sourloam.base.ranges import Range
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.science.inoculum import count
from sourloam.science.inoculum.bench import Store
from sourloam.science.inoculum.chain import Recipe
from sourloam.science.inoculum.culture_parameters import CultureParameters
from sourloam.science.inoculum.keeping import decline_log10_per_month, keeps_d, least_bran_log10, least_serum_figure
from sourloam.science.inoculum.making import Known
from sourloam.science.inoculum.parameters import InoculumParameters
from sourloam.science.inoculum.water import sucrose_activity, sugared_frac

BRAN: Final = ("bran", "wet bran")


@dataclass(frozen=True)
class Lot:
    """Something that is kept: where, at which temperature, for how long, and what a jar of milk did."""

    store: Store
    store_c: Figure
    months: Figure
    curd: bool | None = None  # whether the jar with it curded, and the one without it did not
    activity: Figure | None = None  # of water, in dry bran of a known dryness


def start_figure(lot: Lot, known: Known) -> Figure:
    """Return the live count of a lot when it was made."""
    p, c = known.inoculum, known.culture
    starts = {
        "bran": p.bran_log10_per_g,
        "wet bran": c.most_log10_per_g,
        "serum": p.serum_log10_per_ml,
        "sugared serum": p.serum_log10_per_ml,
        "culture": c.culture_log10_per_ml,
    }
    return starts[lot.store.matter]


def decline_figure(store: Store, store_c: Figure, known: Known, activity: Figure | None = None) -> Figure:
    """Return the powers of ten that a lot loses in a month where it is kept.

    Raises
    ------
    OutOfRange
        If the store is colder or warmer than what is known of it.
    """
    limits = Range(store.low_c, store.high_c, "°C")
    within(store_c.value, limits, name="store_c", why=f"how {store.name} keeps there is not known.")
    rate = _rate(store, known)
    base = rate
    if activity is not None:
        base = derive(
            "dry_decline_log10_per_month",
            count.dry_decline_log10_per_month,
            words="powers of ten lost in a month at 20 °C, so dry",
            water_activity=activity,
            dry_times=known.culture.dry_times,
            usual_log10_per_month=rate,
        )
    return derive(
        "decline_log10_per_month",
        decline_log10_per_month,
        words="powers of ten lost in a month in this store",
        known_log10_per_month=base,
        store_c=store_c,
        known_c=leaf(
            "known_c",
            Spread.exactly(store.known_c),
            "Cel",
            words="temperature for which that decline is given",
            source=rate.source,
            place=rate.place,
            basis=rate.basis,
            members=rate.members.size,
        ),
        decline_q10=known.inoculum.decline_q10,
    )


def _rate(store: Store, known: Known) -> Figure:
    held: InoculumParameters | CultureParameters
    held = known.inoculum if hasattr(known.inoculum, store.decline) else known.culture
    rate: Figure = getattr(held, store.decline)
    return rate


def least_figure(store: Store, known: Known) -> Figure:
    """Return the count from which a lot does its work at the usual dose."""
    p = known.inoculum
    if store.matter in BRAN:
        return derive(
            "least_log10",
            least_bran_log10,
            words="live count from which the usual dose works, powers of ten in a gram",
            least_log10_per_g=p.least_log10_per_g,
            dose_g_per_kg=p.plain_dose_g_per_kg,
        )
    return least_serum_figure(p, Recipe.usual(p))


def belief_figures(lot: Lot, known: Known) -> dict[str, Figure]:
    """Return what is believed of a lot, tested or not; how often it works; and the dose that follows.

    Raises
    ------
    OutOfRange
        If the store or the age is outside what is known.
    """
    p, c = known.inoculum, known.culture
    decline = decline_figure(lot.store, lot.store_c, known, lot.activity)
    lost = derive(
        "lost_frac",
        count.lost_frac,
        words="lots that died unseen by that age",
        months=lot.months,
        never_took_frac=c.never_took_frac,
        lost_per_month=c.lost_per_month,
    )
    unit = "gram" if lot.store.matter in BRAN else "millilitre"
    believed = derive(
        "untested_log10",
        count.aged_log10,
        words=f"live count by age and store alone, powers of ten in a {unit}",
        start_log10=start_figure(lot, known),
        decline_log10_per_month=decline,
        months=lot.months,
        lost_frac=lost,
        luck=c.luck,
    )
    figures = {"untested_log10": believed}
    if lot.curd is not None:
        believed = _tested(believed, known, saw_curd=lot.curd, unit=unit)
    least = least_figure(lot.store, known)
    figures |= {
        "log10_cfu_per_g": believed.called(f"live count that is believed, powers of ten in a {unit}"),
        "least_log10": least,
        "works_pct": derive(
            "works_pct",
            count.works_pct,
            words="cases in which it still works",
            count_log10=believed,
            least_log10=least,
        ),
        "keeps_d": derive(
            "keeps_d",
            keeps_d,
            words="days for which it works from when it was made",
            start_log10=start_figure(lot, known),
            least_log10=least,
            decline_log10_per_month=decline,
        ),
    }
    if lot.store.matter in BRAN:
        figures["dose_g_per_kg"] = dose_figure(believed, p)
    if lot.store.matter == "sugared serum":
        figures["sugar_activity"] = sugar_figure(p)
    return figures


def sugar_figure(p: InoculumParameters) -> Figure:
    """Return the water activity of serum in its own weight of sugar."""
    equal = leaf(
        "sugar_kg_per_kg",
        Spread.exactly(1.0),
        "kg/kg",
        words="sugar to serum, by weight",
        source="practice",
        place="equal weights",
        basis=Basis.PRACTICE,
        members=p.serum_dry_wb_frac.members.size,
    )
    share = derive(
        "sugared_frac",
        sugared_frac,
        words="solutes of the sugared serum",
        sugar_kg_per_kg=equal,
        serum_dry_wb_frac=p.serum_dry_wb_frac,
    )
    return derive("sugar_activity", sucrose_activity, words="water activity of the sugared serum", sucrose_frac=share)


def keeps_figure(store: Store, store_c: Figure, known: Known) -> Figure:
    """Return for how many days a lot works from when it was made, in a store.

    Raises
    ------
    OutOfRange
        If the store is colder or warmer than what is known of it.
    """
    now = written("months", 0.0, "mo", words="months since it was made", members=store_c.members.size)
    return belief_figures(Lot(store, store_c, now), known)["keeps_d"]


def dose_figure(believed: Figure, p: InoculumParameters) -> Figure:
    """Return the bran on a kilogram of scraps that a belief asks for, no less than custom gives."""
    return derive(
        "dose_g_per_kg",
        count.dose_by_count_g_per_kg,
        words="bran on a kilogram of plant scraps",
        aim_log10_per_g=p.least_log10_per_g,
        count_log10_per_g=believed,
        custom_g_per_kg=p.plain_dose_g_per_kg,
    )


def _tested(believed: Figure, known: Known, *, saw_curd: bool, unit: str) -> Figure:
    p, c = known.inoculum, known.culture
    dose = c.jar_dose_log10_g_per_ml
    jar = derive(
        "jar_log10",
        count.sum_log10,
        words="live count in the jar at first, powers of ten in a millilitre",
        one=believed,
        two=dose,
    )
    pace = derive(
        "jar_pace",
        count.pace_at,
        words="pace of growth in the jar",
        temperature_c=c.jar_c,
        least_c=p.least_c,
        best_c=p.best_c,
        most_c=p.most_c,
    )
    hours = derive(
        "curd_h",
        count.hours_to_log10,
        words="hours until the jar curds",
        start_log10=jar,
        wanted_log10=c.curd_log10_per_ml,
        pace=pace,
        growth_per_h=c.growth_per_h,
        growth_lag_h=c.growth_lag_h,
    )
    saw = written(
        "saw_curd",
        float(saw_curd),
        "1",
        words="whether the jar curded (1) or not (0)",
        members=believed.members.size,
    )
    return derive(
        "tested_log10",
        count.tested_log10,
        words=f"live count after the jar test, powers of ten in a {unit}",
        believed_log10=believed,
        curd_h=hours,
        jar_h=c.jar_h,
        saw_curd=saw,
        false_curd_frac=c.false_curd_frac,
        missed_curd_frac=c.missed_curd_frac,
    )
