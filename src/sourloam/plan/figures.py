"""The figures of a plan: each is derived, so that each can be opened down to its sources."""

import numpy as np
from numpy.typing import ArrayLike

from sourloam.base.days import daily
from sourloam.base.figure import Figure, derive, derived, law, leaf, written
from sourloam.base.numbers import FloatArray, keep_shape
from sourloam.base.source import Basis
from sourloam.base.spread import Spread
from sourloam.fleet.arrivals import dry_figure, loose_density_figure, usual_kg
from sourloam.fleet.setting import temperatures_c
from sourloam.plan.question import Question
from sourloam.science.ferment.clock import days_to_ready
from sourloam.science.vessel.leachate import leachate_l_per_kg
from sourloam.science.vessel.settling import holds_kg
from sourloam.site.streams import Stream
from sourloam.site.vessels import Vessel


@law("the parts together", unit="kg")
def total_kg(**parts: ArrayLike) -> float | FloatArray:
    """Return the sum of some masses."""
    return keep_shape(np.asarray(sum(np.asarray(each, dtype=float) for each in parts.values())))


@law("kilograms a day × days of the usual amount in the year", unit="kg")
def yearly_kg(kg_per_d: ArrayLike, usual_days: ArrayLike) -> float | FloatArray:
    """Return what a stream brings in the year."""
    return keep_shape(np.asarray(kg_per_d, dtype=float) * np.asarray(usual_days, dtype=float))


@law("litres a day × loose density", unit="kg/d")
def weighed_kg_per_d(l_per_d: ArrayLike, loose_kg_per_l: ArrayLike) -> float | FloatArray:
    """Return the mass of a stream that was given by volume."""
    return keep_shape(np.asarray(l_per_d, dtype=float) * np.asarray(loose_kg_per_l, dtype=float))


@law("scraps × ((1 − animal part) × dose + animal part × dose for animal matter)", unit="kg")
def bran_kg(
    scraps_kg: ArrayLike, animal_frac: ArrayLike, plain_dose_g_per_kg: ArrayLike, animal_dose_g_per_kg: ArrayLike
) -> float | FloatArray:
    """Return the bran for some scraps."""
    animal = np.asarray(animal_frac, dtype=float)
    dose = (1.0 - animal) * np.asarray(plain_dose_g_per_kg, dtype=float) + animal * np.asarray(
        animal_dose_g_per_kg, dtype=float
    )
    return keep_shape(np.asarray(scraps_kg, dtype=float) * dose / 1000.0)


@law("scraps × liquid from a kilogram", unit="L")
def leachate_l(scraps_kg: ArrayLike, leachate_l_per_kg: ArrayLike) -> float | FloatArray:
    """Return the liquid that some scraps let go."""
    return keep_shape(np.asarray(scraps_kg, dtype=float) * np.asarray(leachate_l_per_kg, dtype=float))


@law("bran ÷ scraps", unit="1")
def bran_ratio(bran_kg: ArrayLike, scraps_kg: ArrayLike) -> float | FloatArray:
    """Return the bran with a kilogram of scraps."""
    return keep_shape(np.asarray(bran_kg, dtype=float) / np.asarray(scraps_kg, dtype=float))


@law("scraps + bran − liquid − what leaves as gas", unit="kg")
def product_kg(
    scraps_kg: ArrayLike, bran_kg: ArrayLike, leachate_l: ArrayLike, *, dry_frac: ArrayLike, dry_loss_frac: ArrayLike
) -> float | FloatArray:
    """Return what is left to be placed; a litre of liquid is taken as a kilogram."""
    scraps, bran = np.asarray(scraps_kg, dtype=float), np.asarray(bran_kg, dtype=float)
    gas = (scraps * np.asarray(dry_frac, dtype=float) + bran) * np.asarray(dry_loss_frac, dtype=float)
    return keep_shape(scraps + bran - np.asarray(leachate_l, dtype=float) - gas)


@law("what a vessel holds ÷ scraps a day", unit="d")
def fill_days(holds_kg: ArrayLike, scraps_kg_per_year: ArrayLike, year_d: ArrayLike) -> float | FloatArray:
    """Return in how many days one vessel fills."""
    return keep_shape(
        np.asarray(holds_kg, dtype=float)
        / np.asarray(scraps_kg_per_year, dtype=float)
        * np.asarray(year_d, dtype=float)
    )


def figures(question: Question) -> dict[str, Figure]:
    """Return the figures of the plan that no rotation is needed for, by name, in the order in which matter flows."""
    known = question.knowledge
    parts = {_slug(each): _stream_kg(each, question) for each in question.site.streams}
    scraps = derived("scraps_kg_per_year", total_kg, parts, words="scraps in the year")
    usual = usual_kg(question.site.streams, known.materials)
    bran = derive(
        "bran_kg_per_year",
        bran_kg,
        words="bran in the year",
        scraps_kg=scraps,
        animal_frac=_from_table("animal_frac", usual.animal_frac, "1", "part of the scraps that came of an animal"),
        plain_dose_g_per_kg=known.inoculum.plain_dose_g_per_kg,
        animal_dose_g_per_kg=known.inoculum.animal_dose_g_per_kg,
    )
    dry = dry_figure(question.site.streams, known.materials)
    liquid = _leachate(question, scraps, bran, dry)
    product = derive(
        "product_kg_per_year",
        product_kg,
        words="finished batches to be placed in the year",
        scraps_kg=scraps,
        bran_kg=bran,
        leachate_l=liquid,
        dry_frac=dry,
        dry_loss_frac=known.ferment.dry_loss_frac,
    )
    found = (scraps, bran, liquid, product, *_pace(question, scraps))
    return {each.name: each for each in found}


def _slug(stream: Stream) -> str:
    return stream.id.replace("-", "_")


def _stream_kg(stream: Stream, question: Question) -> Figure:
    """Return what one stream brings in the year."""
    name = stream.name or stream.id
    days = sum(stream.usual_times(on) for on in daily(question.first, question.days))
    usual_days = written(
        f"{stream.id}.usual_days",
        days,
        "d",
        words=f"days of the usual amount, {name}: absences, seasons and gluts counted",
    )
    if not stream.flow.is_by_volume:
        each_day = written(
            f"{stream.id}.kg_per_d", stream.flow.per_day, "kg/d", words=f"scraps a day, {name}", typed=stream.flow.typed
        )
    else:
        litres = written(
            f"{stream.id}.l_per_d", stream.flow.per_day, "L/d", words=f"scraps a day, {name}", typed=stream.flow.typed
        )
        density = loose_density_figure(stream, question.knowledge.materials)
        each_day = derive(
            f"{stream.id}.kg_per_d",
            weighed_kg_per_d,
            words=f"scraps a day, {name}",
            l_per_d=litres,
            loose_kg_per_l=density,
        )
    return derive(
        f"{stream.id}.kg", yearly_kg, words=f"scraps in the year, {name}", kg_per_d=each_day, usual_days=usual_days
    )


def _leachate(question: Question, scraps: Figure, bran: Figure, dry: Figure) -> Figure:
    vessel = question.knowledge.vessel
    per_kg = derive(
        "leachate_l_per_kg",
        leachate_l_per_kg,
        words="liquid from a kilogram of scraps",
        dry_wb_frac=dry,
        softness=vessel.softness,
        bran_kg_per_kg=derive(
            "bran_ratio", bran_ratio, words="bran with a kilogram of scraps", bran_kg=bran, scraps_kg=scraps
        ),
        bran_holds_kg_per_kg=vessel.bran_holds_kg_per_kg,
    )
    return derive(
        "leachate_l_per_year",
        leachate_l,
        words="liquid drawn off in the year",
        scraps_kg=scraps,
        leachate_l_per_kg=per_kg,
    )


def _pace(question: Question, scraps: Figure) -> tuple[Figure, ...]:
    """Return how fast a vessel fills and how long it ferments, at the warmest and the coldest of the year."""
    known = question.knowledge
    vessel = max(question.site.vessels, key=lambda each: (each.volume_l, each.id))
    holds = _holds(vessel, question)
    fill = derive(
        "fill_days",
        fill_days,
        words=f"days to fill {vessel.name or vessel.id}",
        holds_kg=holds,
        scraps_kg_per_year=scraps,
        year_d=written("year_d", question.days, "d", words="days of the plan"),
    )
    warmest, coldest = _extremes(question, vessel)
    waits = [
        derive(
            name,
            days_to_ready,
            words=f"days from sealing until ready, {when}",
            ready_at_20c_d=known.ferment.ready_at_20c_d,
            temperature_c=warmth,
            least_c=known.ferment.least_c,
            best_c=known.ferment.best_c,
            most_c=known.ferment.most_c,
        )
        for name, when, warmth in (
            ("ferment_days_warmest", "in the warmest month", warmest),
            ("ferment_days_coldest", "in the coldest month", coldest),
        )
    ]
    return (fill, *waits)


def _holds(vessel: Vessel, question: Question) -> Figure:
    known = question.knowledge
    density = usual_kg(question.site.streams, known.materials)
    return derive(
        "holds_kg",
        holds_kg,
        words=f"what {vessel.name or vessel.id} holds when it is full",
        usable_l=written(
            f"{vessel.id}.usable_l", vessel.usable_l, "L", words=f"room for scraps in {vessel.name or vessel.id}"
        ),
        pressed_kg_per_l=derive(
            "pressed_kg_per_l",
            pressed_kg_per_l,
            words="pressed density of these scraps",
            table_kg_per_l=_from_table(
                "table_kg_per_l", 1.0 / density.pressed_l, "kg/L", "pressed density of these scraps by the table"
            ),
            density_times=known.vessel.density_times,
        ),
        settles_frac=known.vessel.settles_frac,
        settling_d=known.vessel.settling_d,
        filling_d=known.vessel.filling_d,
    )


@law("density by the table × how far mixes differ from it", unit="kg/L")
def pressed_kg_per_l(table_kg_per_l: ArrayLike, density_times: ArrayLike) -> float | FloatArray:
    """Return the pressed density of a mix."""
    return keep_shape(np.asarray(table_kg_per_l, dtype=float) * np.asarray(density_times, dtype=float))


def _from_table(name: str, value: float, unit: str, words: str) -> Figure:
    """Return a leaf that the materials table gives for this mix of scraps."""
    return leaf(
        name,
        Spread.exactly(value),
        unit,
        words=words,
        source="materials_table",
        place="materials.csv",
        basis=Basis.DERIVED,
    )


def _extremes(question: Question, vessel: Vessel) -> tuple[Figure, Figure]:
    """Return the temperature of a vessel in its warmest and its coldest month."""
    series = np.asarray(temperatures_c(vessel, question.first, question.days, question.climate))
    months = np.asarray([on.month for on in daily(question.first, question.days)])
    means = [float(series[months == month].mean()) for month in sorted(set(months.tolist()))]
    where = f"where {vessel.name or vessel.id} stands"
    return (
        written("warmest_c", max(means), "Cel", words=f"temperature {where}, warmest month"),
        written("coldest_c", min(means), "Cel", words=f"temperature {where}, coldest month"),
    )
